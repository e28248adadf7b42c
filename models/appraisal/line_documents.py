"""One line of an evaluation in the contract's form: money as decimal strings, blanks as null."""

import hashlib
from collections import defaultdict
from functools import lru_cache
from typing import Any

from models.appraisal.draw import Drawn
from models.appraisal.evidence import Evidence, believed_tag, comp_documents, evidence_document
from models.appraisal.goods import goods_of_lines
from models.appraisal.judge import Decision
from models.appraisal.looked_up_words import looked_up_cautions
from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.appraisal.slim import slim
from models.appraisal.waiting_words import waiting_cautions
from models.appraisal.written import money, number
from models.decide.actions import Action
from models.estimate.products import item_name
from models.values.arrays import FloatArray
from models.values.conditions import name_of
from models.values.problems import Caution


def line_documents(
    question: Question, lot: Prepared, drawn: Drawn, decision: Decision, evidence: Evidence
) -> tuple[dict[str, Any], ...]:
    """All lines, in the manifest's order."""
    currency = question.held.settings.currency
    asked = looked_up_cautions(lot.doubts, lot.lines, currency)
    of_lot = (*question.cautions, *lot.prices.cautions, *lot.tempo.cautions)
    cautions = _by_line((*asked, *of_lot, *waiting_cautions(lot)))
    shade, pay = decision.shade, question.held.settings.goals.hourly_pay
    proceeds = drawn.lines.cash(shade), drawn.lines.after_pay(shade, pay)
    goods = goods_of_lines(question, lot)
    made = []
    for at in range(len(lot.lines)):
        one = _line(at, question, lot, drawn, proceeds) | _evidence(at, lot, evidence, currency)
        said = cautions.get(one["no"], []) + goods.get(one["no"], [])
        made.append(slim(one | {"cautions": said}))
    return tuple(sorted(made, key=lambda one: one["no"]))


def _line(
    at: int, question: Question, lot: Prepared, drawn: Drawn, proceeds: tuple[FloatArray, FloatArray]
) -> dict[str, Any]:
    """`proceeds` are every line's cash, and what is left of it after pay."""
    currency = question.held.settings.currency
    lines, prices = lot.lines, lot.prices
    action = Action(int(drawn.lines.action[at])).name.lower()
    estimated = {
        "unit_price": {
            name: money(getattr(prices.unit_price, name)[at], currency) for name in ("mean", "p10", "p50", "p90")
        },
        "share_sold": round(float(drawn.share_sold[at]), 4),
        "days_to_sell": number(lot.days_to_sell[at], 1),
        "listing_minutes": round(float(drawn.lines.minutes_listing[at]), 2),
        "cash_proceeds": money(proceeds[0][at], currency),
        "proceeds_after_pay": money(proceeds[1][at], currency),
        "action": action,
    }
    return _facts(at, lot, currency) | estimated | _pack(at, drawn) | _typed_in(int(lines.no[at]), action, question)


def _evidence(at: int, lot: Prepared, evidence: Evidence, currency: str) -> dict[str, Any]:
    return {"evidence": evidence_document(at, lot, evidence, currency)} | comp_documents(at, evidence, currency)


def _pack(at: int, drawn: Drawn) -> dict[str, Any]:
    """Units of a pack, and packs that all lines of the item make together; nothing where there are no packs."""
    units, packs = int(drawn.lines.pack_units[at]), int(drawn.lines.packs[at])
    return {"pack": {"units": units, "packs": packs}} if units else {}


def _typed_in(no: int, action: str, question: Question) -> dict[str, Any]:
    """What the seller said of this line; nothing where they said nothing, or wanted packs of a single unit."""
    currency = question.held.settings.currency
    prices = [money(price, currency) for price in question.looked_up.get(no, ())]
    told: dict[str, Any] = {"looked_up_prices": prices} if prices else {}
    return told | ({"action_source": "yours"} if question.chosen.get(no) == action else {})


def _facts(at: int, lot: Prepared, currency: str) -> dict[str, Any]:
    lines = lot.lines
    condition = int(lines.condition[at])
    return {
        "no": int(lines.no[at]),
        "source_row": int(lines.row[at]),
        "item": _item(item_name(lot.matched.name[at], condition)),
        "description": lines.description[at],
        "brand": lines.brand[at],
        "category": lines.category[at],
        "condition": name_of(condition),
        "condition_said": lines.condition_said[at],
        "quantity": int(lines.quantity[at]),
        "tag_each": money(lines.tag_each[at], currency),
        "tag_used": money(believed_tag(at, lot), currency),
        "sku": lines.sku[at],
        "gtin": lines.gtin[at],
    }


@lru_cache(maxsize=10_000)  # a long lot repeats its items: one text for all their lines
def _item(name: str) -> str:
    """A short name for the item: the same in every lot and on every machine."""
    return hashlib.blake2b(name.encode(), digest_size=6).hexdigest()


def _by_line(cautions: tuple[Caution, ...]) -> dict[int, list[dict[str, Any]]]:
    found: defaultdict[int, list[dict[str, Any]]] = defaultdict(list)
    for caution in cautions:
        if caution.line is not None:
            found[caution.line].append({"what": caution.what, "check": caution.check})
    return dict(found)
