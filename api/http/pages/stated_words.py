"""A file's own totals beside ours, in sentences."""

from collections.abc import Iterator

from api.http.pages.words import money, number
from models.store.records import FileFacts
from models.values.money import written
from models.values.problems import StatedTotals
from models.values.stated_totals import cases_agree, tags_agree, units_agree


def stated_words(file: FileFacts, currency: str) -> tuple[str, ...]:
    """One sentence for each total that the file states."""
    return tuple(_sentence(one, currency) for one in file.stated)


def _sentence(one: StatedTotals, currency: str) -> str:
    place = f"Row {one.row} of the file, “{one.where}”," if one.row else f"The file, “{one.where}”,"
    return f"{place} says {' and '.join(_pairs(one, currency))}."


def _pairs(one: StatedTotals, currency: str) -> Iterator[str]:
    if one.units is not None:
        counted = "" if one.counted_units is None else number(one.counted_units)
        yield f"{number(one.units)} units{_ours(counted, units_agree(one))}"
    if one.cases is not None:
        counted = "" if one.counted_cases is None else number(one.counted_cases)
        yield f"{number(one.cases)} cases{_ours(counted, cases_agree(one))}"
    if one.tags is not None:
        counted = "" if one.counted_tags is None else money(written(one.counted_tags, currency), currency)
        yield f"tags of {money(written(one.tags, currency), currency)}{_ours(counted, tags_agree(one))}"


def _ours(counted: str, agrees: bool) -> str:
    if not counted:
        return ""
    return " (the lines used make the same)" if agrees else f" (the lines used make {counted}: they do not agree)"
