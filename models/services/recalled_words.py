"""How is it said that a file was read with earlier answers?  One sentence near the top of what to check."""

import datetime as dt
from collections.abc import Mapping
from typing import Final

from models.values.problems import Caution
from models.values.questions import (
    DATES_ARE,
    DECIMALS_ARE,
    GRADE,
    NO_COLUMN,
    QUANTITY_IS,
    SHIPPING_IS,
    SOLD_PRICE_IS,
    SOURCED_IS,
    TAG_IS,
)

READ_WITH: Final = "Read with your answers of "  # pages put a link to the answers behind this caution
_ANSWERS: Final[Mapping[tuple[str, str], str]] = {
    (DATES_ARE, "day_first"): "dates begin with the day", (DATES_ARE, "month_first"): "dates begin with the month",
    (DECIMALS_ARE, "point"): "cents follow a point", (DECIMALS_ARE, "comma"): "cents follow a comma",
    (SHIPPING_IS, "charged"): "buyers paid the postage", (SHIPPING_IS, "paid"): "you paid the postage",
    (SHIPPING_IS, "neither"): "the postage is not used",
    (SOURCED_IS, "bulk"): "the goods came from bulk lots", (SOURCED_IS, "single"): "the goods were picked one by one",
}  # fmt: skip
_COLUMNS: Final[Mapping[str, str]] = {
    "tag_each": "the tag of one unit", "tag_line": "the tag of the whole line", "gtin": "the barcode number",
    "sku": "your own number", "sold_on": "the day it sold", "listed_on": "the day it was listed",
}  # fmt: skip
_HEADED: Final[Mapping[tuple[str, str], tuple[tuple[str, ...], str]]] = {
    (TAG_IS, "unit"): (("tag_each", "tag_line"), "is for one unit"),
    (TAG_IS, "line"): (("tag_line", "tag_each"), "is the whole line"),
    (SOLD_PRICE_IS, "unit"): (("sold_price",), "is for one unit"),
    (SOLD_PRICE_IS, "row"): (("sold_price",), "is for the whole row"),
    (SOLD_PRICE_IS, "order"): (("sold_price",), "is for the whole order"),
    (QUANTITY_IS, "units"): (("quantity",), "counts single units"),
}


def read_with(told: Mapping[str, str], on: dt.date | None, columns: Mapping[str, str]) -> tuple[Caution, ...]:
    """That earlier answers were used, and which; `columns` says which header is which column of the file."""
    said = "; ".join(_said(key, value, columns) for key, value in told.items())
    day = "earlier" if on is None else f"{on.day} {on:%b %Y}"
    what = f"{READ_WITH}{day} for files with these headers: {said}."
    return (Caution(what, "Where that does not hold for this file, change it under the columns as they were read."),)


def gave_way(answer: str, why: str) -> Caution:
    """That the file itself rules an earlier answer about dates out."""
    said = _ANSWERS[(DATES_ARE, answer)]
    what = f"Your earlier answer that {said} was not used: {why} in this file, and all its dates were read so."
    return Caution(what, "Compare a date of the file with what you know of that day.")


def _said(key: str, value: str, columns: Mapping[str, str]) -> str:
    if (key, value) in _HEADED:
        names, is_what = _HEADED[(key, value)]
        header = next((columns[name] for name in names if columns.get(name, NO_COLUMN) != NO_COLUMN), "the column")
        return f"'{header}' {is_what}"
    if key == QUANTITY_IS:
        return f"'{value}' says how many units a case holds"
    if key.startswith(GRADE):
        return f"grade '{key.removeprefix(GRADE)}' means {value}"
    name = _COLUMNS.get(key, f"the {key.replace('_', ' ')}")
    return _ANSWERS.get((key, value)) or (f"no column is {name}" if value == NO_COLUMN else f"'{value}' is {name}")
