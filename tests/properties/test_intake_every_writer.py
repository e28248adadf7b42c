"""A clean table, written in every form there is, is read as the same table: every cell, and no problem.

Weights have two decimals: of "1.001" alone nobody can tell whether it is one or a thousand.
"""

import datetime as dt
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from unit.intake_files import Rows, delimited, ods, xls, xlsx

from models.bench.files.writing import Dialect, delimited_file, workbook_file
from models.intake.cells.gtin import check_digit
from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.intake.shape.blocks import named_once
from models.values.conditions import CONDITIONS

MOST = 8  # rows
LATIN = st.text("abcdefgh äöüéñß,;|'\"-/&0123456789", max_size=24)
ANY = st.text(st.characters(categories=["L", "Nd", "Po", "So", "Sc"], exclude_characters="=@&%"), max_size=16)
LINE = st.fixed_dictionaries({
    "description": LATIN, "sku": st.integers(0, 9999), "brand": st.sampled_from(["", "Orrin", "Velda", "Élan"]),
    "category": st.sampled_from(["", "Garden", "Home > Kitchen"]), "condition": st.integers(-1, len(CONDITIONS) - 1),
    "quantity": st.integers(1, 5000), "tag_each": st.none() | st.integers(1, 5_000_000),
    "gtin": st.none() | st.integers(10**9, 10**11 - 1), "weight": st.none() | st.integers(1, 5_000),
    "pallet": st.sampled_from(["", "P1", "P2"]),
})  # fmt: skip
DAYS = st.dates(dt.date(2020, 1, 1), dt.date(2026, 6, 1))
SALE = st.fixed_dictionaries({
    "title": LATIN, "sold_price": st.integers(1, 5_000_000), "fees": st.integers(0, 90_000), "listed_on": DAYS,
    "days": st.integers(0, 200), "condition": st.integers(0, len(CONDITIONS) - 1),
})  # fmt: skip
TEXT_FORMS: dict[str, Callable[[Rows], bytes]] = {
    f"{encoding} {name}": lambda rows, delimiter=delimiter, encoding=encoding, end=end: delimited(
        rows, delimiter, encoding, end
    )
    for (name, delimiter), (encoding, end) in zip(
        [("comma", ","), ("semicolon", ";"), ("tab", "\t"), ("pipe", "|")] * 2,
        [(encoding, end) for encoding in ("utf-8", "utf-8-sig", "utf-16", "cp1252") for end in ("\n", "\r\n")],
        strict=True,
    )
}
FORMS: dict[str, Callable[[Rows], bytes]] = TEXT_FORMS | {
    "all quoted": lambda rows: delimited_file([[*map(_text, row)] for row in rows], Dialect(quote_all=True)),
    "xlsx": xlsx,
    "xlsx of shared texts": lambda rows: workbook_file([[*map(_text, row)] for row in rows]),
    "ods": ods,
    "xls": xls,
}


def _text(cell: Any) -> str:
    return "" if cell is None else str(cell)


def words(text: str, number: int) -> str:
    """Something that is goods whatever was drawn; no two alike."""
    return " ".join(f"Mug {text} no. {number}".split())


def gtin(body: int | None) -> str:
    return "" if body is None else f"{body:011d}{check_digit(f'{body:011d}')}"


def manifest_rows(lines: list[dict[str, Any]]) -> Rows:
    header = [
        "sku",
        "description",
        "brand",
        "category",
        "condition",
        "quantity",
        "tag_each",
        "gtin",
        "weight_kg",
        "pallet",
    ]
    return [header, *[[
        f"K-{line['sku']:04d}", words(line["description"], number), line["brand"], line["category"],
        CONDITIONS[line["condition"]].value if line["condition"] >= 0 else "", line["quantity"],
        None if line["tag_each"] is None else line["tag_each"] / 100, gtin(line["gtin"]),
        None if line["weight"] is None else line["weight"] / 100, line["pallet"],
    ] for number, line in enumerate(lines)]]  # fmt: skip


@pytest.mark.parametrize("form", FORMS)
@settings(max_examples=12, deadline=None)
@given(st.lists(LINE, min_size=1, max_size=MOST))
def test_a_manifest_comes_back(form: str, lines: list[dict[str, Any]]) -> None:
    assume(not named_once([line["pallet"] for line in lines]))  # pallets named in the first row of a block are filled
    rows = manifest_rows(lines)
    read = read_manifest(FORMS[form](rows), "m", dict(zip(rows[0], rows[0], strict=True)), "USD")
    found = read.lines
    assert (read.problems.rows, read.problems.items) == (len(lines), ())
    for place, name in enumerate(rows[0]):
        if name in ("sku", "description", "brand", "category", "gtin", "pallet"):
            assert getattr(found, name).tolist() == [row[place] for row in rows[1:]], name
    assert found.condition.tolist() == [line["condition"] for line in lines]
    assert found.quantity.tolist() == [line["quantity"] for line in lines]
    np.testing.assert_array_equal(found.tag_each, [_number(line["tag_each"]) for line in lines])
    np.testing.assert_allclose(found.weight_kg, [_number(line["weight"]) / 100 for line in lines], rtol=1e-12)
    assert found.row.tolist() == list(range(2, len(lines) + 2))


def _number(value: int | None) -> float:
    return np.nan if value is None else float(value)


@pytest.mark.parametrize("form", FORMS)
@settings(max_examples=12, deadline=None)
@given(st.lists(SALE, min_size=1, max_size=MOST))
def test_a_history_comes_back(form: str, sales: list[dict[str, Any]]) -> None:
    header = ["order_ref", "title", "condition", "sold_price", "quantity", "fees", "listed_on", "sold_on"]
    sold = [sale["listed_on"] + dt.timedelta(sale["days"]) for sale in sales]
    rows = [header, *[[
        f"O-{number:05d}", words(sale["title"], number), CONDITIONS[sale["condition"]].value,
        sale["sold_price"] / 100, 1, sale["fees"] / 100, str(sale["listed_on"]), str(sold[number]),
    ] for number, sale in enumerate(sales)]]  # fmt: skip
    read = read_history(FORMS[form](rows), "s", dict(zip(header, header, strict=True)), "USD")
    assert (read.problems.rows, read.problems.items) == (len(sales), ())
    order = np.argsort(read.sales.row)
    found = read.sales.take(order)
    assert found.title.tolist() == [row[1] for row in rows[1:]]
    assert found.sold_price.tolist() == [sale["sold_price"] for sale in sales]
    assert found.fees.tolist() == [sale["fees"] for sale in sales]
    assert found.condition.tolist() == [sale["condition"] for sale in sales]
    assert found.listed_on.tolist() == [sale["listed_on"] for sale in sales]
    assert found.sold_on.tolist() == sold


@settings(max_examples=60, deadline=None)
@given(st.lists(ANY, min_size=1, max_size=MOST), st.sampled_from(["utf-8", "utf-16", "xlsx", "ods", "xls"]))
def test_words_of_any_script_come_back(texts: list[str], form: str) -> None:
    writers = {"xlsx": xlsx, "ods": ods, "xls": xls}
    rows = [["description", "quantity"], *[[words(text, number), 1] for number, text in enumerate(texts)]]
    data = writers[form](rows) if form in writers else delimited(rows, ",", form)
    assert read_manifest(data, "m", {}, "USD").lines.description.tolist() == [row[0] for row in rows[1:]]


@settings(max_examples=12, deadline=None)
@given(st.lists(st.tuples(DAYS, st.times()), min_size=1, max_size=MOST))
def test_days_of_a_workbook_come_back(moments: list[tuple[dt.date, dt.time]]) -> None:
    sold = [dt.datetime.combine(day, time.replace(microsecond=0)) for day, time in moments]
    rows = [["title", "sold_price", "sold_on"], *[[f"Mug no. {n}", 5, moment] for n, moment in enumerate(sold)]]
    assert read_history(xlsx(rows), "s.xlsx", {}, "USD").sales.sold_on.tolist() == [day for day, _ in moments]
