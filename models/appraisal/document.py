"""The whole answer in the contract's form.  What is not computed yet is absent, never faked."""

from dataclasses import asdict
from typing import Any

import numpy as np

from models.appraisal.assumptions import assumption_documents
from models.appraisal.cautions import lot_cautions
from models.appraisal.decision_document import decision_document
from models.appraisal.draw import Drawn
from models.appraisal.evidence import tag_counts
from models.appraisal.in_the_way import way_cautions
from models.appraisal.judge import Decision
from models.appraisal.pace_words import beside_stated, pace_document, stated_hours
from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.appraisal.stored import Stored
from models.appraisal.written import money
from models.decide.actions import Action
from models.estimate.research_first import research_first
from models.values.money import whole_minor
from models.values.stated_totals import problems_document


def document(question: Question, lot: Prepared, drawn: Drawn, stored: Stored, decision: Decision) -> dict[str, Any]:
    """The evaluation without the ids, numbers and times that a store or a command adds."""
    told = decision_document(stored, decision, question.held.settings)
    return {
        "lot": _lot(question, lot),
        "as_of": question.as_of.isoformat(),
        "seed": question.seed,
        **told,
        **_pace(question, lot),
        "effort": dict(lot.evidence),
        "resale": _resale(lot, question.held.settings.currency),
        "assumptions": assumption_documents(stored, question.held),
        "explain": _explain(lot),
        "actions": _actions(drawn),
        "research_first": _research(lot),
        "cautions": [*way_cautions(told["bid_ceiling"]), *lot_cautions(question, lot, drawn, decision)],
        "problems": problems_document(question.problems, question.held.settings.currency),
    }


def _lot(question: Question, lot: Prepared) -> dict[str, Any]:
    terms, currency = question.held.settings.lot, question.held.settings.currency
    closes, tags = terms.closes_at, tag_counts(lot)
    return {
        "name": question.name,
        "source": terms.source,
        "currency": currency,
        "closes_at": None if closes is None else closes.isoformat().replace("+00:00", "Z"),
        "current_bid": None if terms.current_bid is None else money(terms.current_bid, currency),
        "lines": len(lot.lines),
        "units": int(lot.lines.quantity.sum()),
        "tag_total": money(float(np.nansum(lot.lines.quantity * lot.lines.tag_each)), currency),
        "tag_total_used": money(float(np.nansum(lot.lines.quantity * lot.prices.tag_used)), currency),
        "tags_ignored": tags["replaced"] + tags["ignored"],
        "tags": tags,
    }


def _pace(question: Question, lot: Prepared) -> dict[str, Any]:
    """Absent where listing dates cannot tell it."""
    return {} if lot.pace is None else {"pace": beside_stated(pace_document(lot.pace), stated_hours(question.held))}


def _resale(lot: Prepared, currency: str) -> dict[str, Any]:
    """The mean is the sum of the printed line means, so that a reader can follow it."""
    each = [whole_minor(mean) if np.isfinite(mean) else 0 for mean in lot.prices.unit_price.mean.tolist()]
    resale = lot.prices.resale
    mean = float(np.dot(each, lot.lines.quantity))
    return {"mean": money(mean, currency)} | {
        name: money(getattr(resale, name), currency) for name in ("p10", "p50", "p90")
    }


def _explain(lot: Prepared) -> dict[str, Any]:
    value = np.sort(lot.lines.quantity * np.nan_to_num(lot.prices.unit_price.mean))[::-1]
    total = float(value.sum())

    def share(count: int) -> float:
        return round(float(value[:count].sum()) / total, 4) if total > 0 else 0.0

    spread_from = [{"from": cause, "share": round(part, 4)} for cause, part in lot.prices.spread]
    return {"top3_share": share(3), "top10_share": share(10), "spread": spread_from, "changed": []}


def _research(lot: Prepared) -> list[dict[str, Any]]:
    found = [asdict(one) for one in research_first(lot.prices)]
    return [one | {"spread_removed": round(one["spread_removed"], 4)} for one in found]


def _actions(drawn: Drawn) -> dict[str, int]:
    words = {"listed": Action.LIST, "bundled": Action.BUNDLE, "skipped": Action.SKIP, "never": Action.NEVER}
    return {word: int((drawn.lines.action == action).sum()) for word, action in words.items()}
