"""Were these lots drawn together?  Only then do their draws add up, draw by draw, to what they do at once."""

from collections import Counter
from collections.abc import Sequence

from models.services.clock import local_date
from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.store.queries.drawn import DrawnFrom
from models.store.records import LotRecord, ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.days import day_in_words
from models.values.errors import NotTogether
from models.values.streams import DRAW_FORMAT


def drawn_together(work: UnitOfWork, shop: ShopId, lots: Sequence[LotRecord]) -> tuple[DrawnFrom, ...]:
    """Their current evaluations, oldest first; NotTogether names those that are unlike the others."""
    basis = work.drawn.of(shop, [lot.evaluation_id for lot in lots if lot.evaluation_id])
    like = _like(basis)
    apart = {one.lot_id: why for one in basis if (why := _difference(one, like))}
    if apart:
        names = [lot.name for lot in lots if lot.id in apart]
        raise NotTogether(
            f"These lots cannot be added to the others as they stand: {', '.join(names)}. Value them again, all alike.",
            apart,
            {"seed": like.seed, "model_version": like.model_version, "as_of": like.as_of.isoformat()},
        )
    return basis


def _like(basis: Sequence[DrawnFrom]) -> DrawnFrom:
    """Which one all should be like: the newest model and day, for they know most, with the seed that most have."""
    newest = basis[-1]
    known = [one for one in basis if (one.model_version, one.as_of) == (newest.model_version, newest.as_of)]
    seeds = Counter(one.seed for one in known)
    most = max(seeds.values())
    return next(one for one in reversed(known) if seeds[one.seed] == most)


def _difference(one: DrawnFrom, newest: DrawnFrom) -> str:
    """Why one cannot be added to the newest; blank where it can."""
    if one.draw_format != DRAW_FORMAT:
        return "drawn by an earlier version of this program"
    other = []
    if one.seed != newest.seed:
        other.append("drawn with other random numbers")
    if one.model_version != newest.model_version:
        other.append(
            f"worked out with what version {one.model_version} had learned from your sales, others with version"
            f" {newest.model_version}"
        )
    if one.as_of != newest.as_of:
        other.append(f"worked out for {day_in_words(one.as_of)}, others for {day_in_words(newest.as_of)}")
    return "; ".join(other)


def evaluate_together(work: UnitOfWork, shop: ShopId, lots: Sequence[LotRecord]) -> int:
    """Queue the lots anew, all alike and as of the shop's today, where they cannot be added; how many lots that are."""
    valued = [lot for lot in lots if lot.evaluation_id]
    try:
        drawn_together(work, shop, valued)
    except NotTogether:
        basis = work.drawn.of(shop, [lot.evaluation_id for lot in valued if lot.evaluation_id])
        asked = _alike(work, shop, _like(basis))
        wanted = (asked.seed, asked.model_version, asked.as_of, DRAW_FORMAT)
        apart = [one.lot_id for one in basis if (one.seed, one.model_version, one.as_of, one.draw_format) != wanted]
        for lot_id in apart:
            submit_evaluation(work, shop, lot_id, asked)
        return len(apart)
    return 0


def _alike(work: UnitOfWork, shop: ShopId, newest: DrawnFrom) -> EvaluationAsked:
    """Every lot has to agree anyhow, so it is with what is known now; for good, else one changed line parts them."""
    active = work.models.get_active_number(shop)
    today = local_date(work.shops.require(shop).time_zone)
    return EvaluationAsked(
        model_version=newest.model_version if active is None else active,
        seed=newest.seed,
        as_of=today,
        from_now_on=True,
    )
