"""Were these lots drawn together?  Only then do their draws add up, draw by draw, to what they do at once."""

from collections.abc import Sequence
from typing import Any

from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.store.queries.drawn import DrawnFrom
from models.store.records import LotRecord, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NotTogether
from models.values.streams import DRAW_FORMAT


def drawn_together(work: UnitOfWork, shop: ShopId, lots: Sequence[LotRecord]) -> tuple[DrawnFrom, ...]:
    """Their current evaluations, oldest first; NotTogether where they are not like the newest of them."""
    basis = work.drawn.of(shop, [lot.evaluation_id for lot in lots if lot.evaluation_id])
    newest = basis[-1]
    apart = {one.lot_id: why for one in basis if (why := _difference(one, newest))}
    if apart:
        names = [lot.name for lot in lots if lot.id in apart]
        raise NotTogether(
            f"These lots cannot be added to the others as they stand: {', '.join(names)}. Value them again with the"
            " same seed, model version and day.",
            apart,
            {"seed": newest.seed, "model_version": newest.model_version, "as_of": newest.as_of.isoformat()},
        )
    return basis


def _difference(one: DrawnFrom, newest: DrawnFrom) -> str:
    """Why one cannot be added to the newest; blank where it can."""
    if one.draw_format != DRAW_FORMAT:
        return "drawn by an earlier version of this program"
    facts: dict[str, tuple[Any, Any]] = {
        "seed": (one.seed, newest.seed),
        "model version": (one.model_version, newest.model_version),
        "day": (one.as_of, newest.as_of),
    }
    other = [f"{name} {own}, not {wanted}" for name, (own, wanted) in facts.items() if own != wanted]
    return "; ".join(other)


def evaluate_together(work: UnitOfWork, shop: ShopId, lots: Sequence[LotRecord]) -> int:
    """Queue what `drawn_together` asks for; how many lots that are."""
    try:
        drawn_together(work, shop, [lot for lot in lots if lot.evaluation_id])
    except NotTogether as error:
        newest = work.drawn.of(shop, [lot.evaluation_id for lot in lots if lot.evaluation_id])[-1]
        asked = EvaluationAsked(model_version=newest.model_version, seed=newest.seed, as_of=newest.as_of)
        for lot_id in error.lots:
            submit_evaluation(work, shop, lot_id, asked)
        return len(error.lots)
    return 0
