"""What does a backtest say in sentences that the page and the command line share?  Amounts arrive written."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from models.services.backtest_figures import (
    counted,
    day_words,
    in_a_row,
    off_words,
    percent,
    points,
    sentence,
    tenths,
    within,
)
from models.services.backtest_time_words import Amount, Document, soon_words

Part = tuple[str, str]  # a heading of one or two words, and what is said under it

WAYS: Final[Mapping[str, str]] = {
    "share_of_tag": "a fixed share of the tag",
    "category_brand_medians": "the median of the same brand and category",
    "lightgbm": "boosted trees (LightGBM)",
}
GOODS: Final[Mapping[str, str]] = {
    "bulk": "goods bought in bulk",
    "not_bulk": "single finds and goods of unknown origin",
    "all": "everything you listed",
}
RANGE: Final = 0.8
FEW_LOTS: Final = 20


def backtest_headline(backtest: Document) -> str:
    """The one sentence that stands for the whole."""
    if not backtest["enough"]:
        return f"It could not be tested on your own sales yet. {backtest['why']}"
    return (
        f"On {_judged(backtest)} it came within"
        f" {within(backtest['money']['ratio'])} of the money; {_ranges(_stated(backtest, RANGE))}"
    )


def backtest_line(backtest: Document) -> str:
    """The same beside a ceiling: one line; blank where nothing could be tested."""
    if not backtest["enough"]:
        return ""
    near, off = within(backtest["money"]["ratio"]), percent(backtest["lot_error"]["mean"])
    said = f"On {_judged(backtest)} it came within {near} of the money; one lot alone was off by {off} on average."
    better = beaten_by(backtest)
    return f"{said} {_nearer(better)}." if better else said


def _judged(backtest: Document) -> str:
    """Not all that sold since: lots that cannot be judged are left out."""
    since, sales = day_words(backtest["cut_offs"][0]["day"]), backtest["tested"]["sales"]
    return f"{sales:,} of your sales{_of(backtest['goods'])} since {since}"


def backtest_parts(backtest: Document, amount: Amount) -> tuple[Part, ...]:
    """Everything it tells, the most important first; nothing where too little is known."""
    return tuple(_parts(backtest, amount)) if backtest["enough"] else ()


def beaten_by(backtest: Document) -> tuple[str, ...]:
    """Simpler ways that were nearer on the average lot."""
    return tuple(WAYS.get(one["name"], one["name"]) for one in backtest["baselines"] if one["nearer"]["by"] > 0)


def beaten_words(backtest: Document) -> str:
    """A caution where a simpler way was nearer; blank where none was."""
    better = beaten_by(backtest) if backtest["enough"] else ()
    if not better:
        return ""
    luck = "" if _is_sure(backtest) else f" {_luck(backtest)}"
    return f"{_nearer(better)} on your goods.{luck} Hold each ceiling against that before you bid."


def _luck(backtest: Document) -> str:
    few = backtest["tested"]["lots"] < FEW_LOTS
    return "With so few lots that may be luck." if few else "That may be luck."


def _is_sure(backtest: Document) -> bool:
    """One of them by twice what chance would do."""
    return any(one["nearer"]["by"] > 2 * one["nearer"]["standard_error"] for one in backtest["baselines"])


def _parts(backtest: Document, amount: Amount) -> Iterator[Part]:
    yield "How", _how(backtest)
    yield "Money", _money(backtest["money"], amount)
    yield "Single lots", _single(backtest)
    yield "Ranges", _all_ranges(backtest)
    yield "Other ways", _others(backtest)
    yield "How soon", soon_words(backtest, amount)
    yield "Your hours", _hours(backtest["minutes"])
    if backtest["other_goods"]:
        yield "Other goods", _other_goods(backtest["other_goods"])
    yield "Mind", _mind(backtest)


def _how(backtest: Document) -> str:
    days, tested = backtest["cut_offs"], backtest["tested"]
    first, last = day_words(days[0]["day"]), day_words(days[-1]["day"])
    return (
        f"It went back to {len(days)} days between {first} and {last}, learned only from what you knew on each,"
        f" and said what the goods you {_began(backtest)} next would bring:"
        f" {_groups(tested, backtest['goods'])}.{_stand_ins(backtest)}{_not_judged(backtest)}"
    )


def _stand_ins(backtest: Document) -> str:
    if _all_named(backtest):
        return ""
    began = _began(backtest)
    return f" Where no lot is named, goods of one kind that were {began} in one fortnight stand in for a lot."


def _began(backtest: Document) -> str:
    """A history without days of listing can only be laid out by days of sale."""
    return "sold" if backtest["sales"].get("listed") == 0 else "listed"


def _all_named(backtest: Document) -> bool:
    return bool(backtest["tested"]["named"] == backtest["tested"]["lots"])


def _not_judged(backtest: Document) -> str:
    """Units that did not sell are on neither side; nor are lots that mostly did not."""
    count = backtest["not_judged"]["lots"]
    lots = (
        "1 lot with few sales or mostly unsold was"
        if count == 1
        else f"{count} lots with few sales or mostly unsold were"
    )
    left = f"; {lots} left out" if count else ""
    return f" What had not sold in the end is on neither side{left}."


def _groups(tested: Document, goods: str) -> str:
    return f"{counted(tested['lots'], 'lot')} of {GOODS[goods]}, {counted(tested['sales'], 'sale')}"


def _money(money: Document, amount: Amount) -> str:
    off = money["ratio"] - 1.0
    said = f"It expected {amount(money['told'])} in all and {amount(money['happened'])} came in"
    if points(abs(off)) == 0:
        return f"{said}: as good as even."
    return f"{said}: {percent(abs(off))} too {'high' if off > 0 else 'low'}."


def _single(backtest: Document) -> str:
    off = backtest["lot_error"]
    return (
        f"One lot alone was off by {percent(off['mean'])} on average, half of them by less than"
        f" {percent(off['median'])}: a lot is riskier than many lots together."
    )


def _all_ranges(backtest: Document) -> str:
    chief = _stated(backtest, RANGE)
    held = in_a_row(
        f"the {tenths(one['stated'])}-in-10 range held {tenths(one['happened'])}" for one in backtest["coverage"]
    )
    low, high, stated = tenths(chief["low"]), tenths(chief["high"]), tenths(chief["stated"])
    return (
        f"Of 10 lots, {held}. {chief['lots']:,} lots tell so much: in the long run the {stated}-in-10 range may hold"
        f" {low} to {high}.{_off_range(backtest)}"
    )


def _off_range(backtest: Document) -> str:
    """Where the ranges are too narrow or too wide by more than luck."""
    chief = _stated(backtest, RANGE)
    if chief["high"] < chief["stated"]:
        return " That is too few: on your goods the ranges are too narrow, so ask for more confidence."
    if chief["low"] > chief["stated"] and _all_named(backtest):
        return " That is more than meant: on your goods the ranges are wider than they need be."
    if chief["low"] > chief["stated"]:
        return " That is more than meant: a fortnight mixes several purchases, one lot swings wider."
    return ""


def _ranges(one: Document) -> str:
    count = round(one["happened"] * one["lots"])
    return (
        f"{tenths(one['stated'])} in 10 lots should have come in within their stated range,"
        f" {tenths(one['happened'])} in 10 did ({count:,} of {one['lots']:,})."
    )


def _others(backtest: Document) -> str:
    said = [
        f"{WAYS.get(one['name'], one['name'])} came within {within(one['money']['ratio'])} of the money and was off by"
        f" {percent(one['lot_error']['mean'])} on the average lot"
        for one in backtest["baselines"]
    ]
    text = "; ".join(said)
    return f"{sentence(text)}. {beaten_words(backtest) or 'None was nearer on the average lot.'}"


def _hours(minutes: Document | None) -> str:
    if minutes is None:
        return "It cannot be tested how long listing takes: your history holds no listing minutes."
    hours = minutes["hours"]
    return (
        f"The {counted(minutes['listings'], 'listing')} you timed took {counted(hours['happened'], 'hour')}; it"
        f" expected {hours['told']:,.0f}, {off_words(minutes['ratio'])}."
    )


def _other_goods(one: Document) -> str:
    return (
        f"On {_groups(one['tested'], one['goods'])}, grouped by fortnight and category, it came within"
        f" {within(one['money']['ratio'])} of the money; {_ranges(_stated(one, RANGE))}{_other_remark(one)}"
    )


def _other_remark(one: Document) -> str:
    chief = _stated(one, RANGE)
    if chief["high"] < chief["stated"]:
        return " That is too few: for these goods the ranges are too narrow."
    if chief["low"] > chief["stated"]:
        return " That is more than meant: for these goods the ranges are wider than they need be."
    return ""


def _mind(backtest: Document) -> str:
    said = ["Lots of one time rise and fall together with the market, so judge the whole and not one day."]
    if backtest["tested"]["lots"] < FEW_LOTS:
        said.append(f"{backtest['tested']['lots']} lots are few: take this as a first impression.")
    if backtest["sales"]["undated"]:
        said.append(f"{counted(backtest['sales']['undated'], 'row')} without the days they need could not be used.")
    said.append("What was true of the past is no promise.")
    return " ".join(said)


def _of(goods: str) -> str:
    return {"bulk": " of goods bought in bulk"}.get(goods, "")


def _stated(backtest: Document, stated: float) -> Document:
    return next(one for one in backtest["coverage"] if one["stated"] == stated)


def _nearer(names: Sequence[str]) -> str:
    if len(names) == 1:
        return f"{sentence(names[0])} was nearer"
    return f"{sentence(', '.join(names[:-1]))} and {names[-1]} were nearer"
