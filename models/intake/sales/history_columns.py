"""All columns of one file of sold history, read; rows that are no sale and no listing are set aside or told apart."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from models.intake.cells.amounts import Amounts, file_writes_comma
from models.intake.cells.reading import ASIDE
from models.intake.fields.money_columns import money_columns
from models.intake.fields.number_columns import minutes_column, quantity_column
from models.intake.fields.text_columns import condition_column, gtin_column, sourced_column, text_column
from models.intake.fields.unread_dates import unread_days_cautions
from models.intake.fields.unread_money import unread_cautions
from models.intake.grid import Cell, written_cell
from models.intake.sales.accepted_offers import with_accepted_offers
from models.intake.sales.bare_postage import settled_postage, with_postage_column
from models.intake.sales.clear_outs import set_clear_outs_aside
from models.intake.sales.discount_column import less_discount
from models.intake.sales.fee_columns import fees_of_sale
from models.intake.sales.goods_lists import with_lists_apart
from models.intake.sales.headings import with_headings
from models.intake.sales.history_table import HistoryTable, Sort
from models.intake.sales.made_on import made_on
from models.intake.sales.order_lines import less_discounts, taken_off
from models.intake.sales.orders_filled import with_orders_filled
from models.intake.sales.price_basis import ORDER, price_basis
from models.intake.sales.price_proofs import ROW
from models.intake.sales.refunds_said import refunds_untold
from models.intake.sales.repeats import set_repeats_aside
from models.intake.sales.sale_currencies import set_other_currencies_aside, set_other_signs_aside
from models.intake.sales.sale_days import sale_days
from models.intake.sales.sale_inside import price_alone
from models.intake.sales.sale_money import MONEY_COLUMNS, unit_amounts
from models.intake.sales.sale_orders import order_prices
from models.intake.sales.sale_pieces import Counts, unit_counts, unsure_count, with_variations
from models.intake.sales.sale_rows import Events, name_events, row_events
from models.intake.sales.sale_state import (
    set_cancelled_aside,
    set_kept_aside,
    set_unpaid_aside,
    set_unpriced_aside,
    with_end_days,
    with_ends_of,
    without_unsold_words,
)
from models.intake.sales.sums_aside import set_sums_aside
from models.intake.sales.unsold_rows import name_undated, none_sold, unsold_rows
from models.intake.sales.unsold_units import with_unsold_counted
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.problems import Caution
from models.values.questions import DATES_ARE
from models.values.sale_parts import NEVER

_WORDS = ("title", "brand", "category", "sku", "lot", "source", "place", "listing_ref", "order_ref")
_BESIDE = ("tax", "amount", "shipping", "discount")  # money that is none of ours, but tells what is
_IF_IT_COUNTS = (
    "If one of them is what things sold for, their tag, or a fee or postage you paid, say which column that is."
)

_IF_A_DAY = "If one of them is the day a thing was listed or sold, say which column that is."


@dataclass(frozen=True)
class HistoryColumns:
    """`named` holds every column of `Sales`, one entry a row of the file; `gone` are sales that came to nothing.

    `made_on` is the day a file of listings says it was made, NaT where it does not.
    """

    table: Table
    sort: Sort
    named: Mapping[str, Any]
    counts: Counts
    events: Events
    gone: BoolArray
    cautions: tuple[Caution, ...]
    made_on: np.datetime64


def read_columns(read: HistoryTable, mapping: Mapping[str, str], currency: str, findings: Findings) -> HistoryColumns:
    """Read every column once.

    Parameters
    ----------
    read : HistoryTable
        The file.
    mapping : mapping
        What the seller said of it.
    currency : str
        ISO 4217.
    findings : Findings
        Told of every doubt; sets rows aside.
    """
    table, headed = with_headings(read.table, findings)
    table, offers = with_accepted_offers(with_variations(with_lists_apart(table, findings), findings))
    table = with_orders_filled(table, findings)
    unsold, waiting = unsold_rows(table, findings)
    table, ends = with_end_days(without_unsold_words(with_unsold_counted(table, findings)), unsold)
    findings.name_mended(table.mended)
    findings.name_notes(table.notes)
    gone = _set_no_sales_aside(table, findings)
    strangers = set_other_currencies_aside(table, currency, findings)
    amounts, signs = money_columns(table, (*MONEY_COLUMNS, *_BESIDE), currency, findings, mapping)
    amounts, summed = fees_of_sale(table, amounts, currency, findings)
    amounts, postage = settled_postage(table, amounts, read.sort, mapping, currency, findings)
    table = with_postage_column(table, amounts)
    set_other_signs_aside(table, amounts, currency, findings)
    if "sold_price" in amounts:
        set_sums_aside(table, amounts["sold_price"].minor, findings)
    off = taken_off(table, amounts, findings)
    events = row_events(table, read.sort, amounts, findings)
    repeats = set_repeats_aside(table, events.fee, findings)
    words = {name: text_column(table, name, findings) for name in _WORDS}
    untitled = (words["title"] == "") & ~events.any & ~findings.aside
    findings.name_where(untitled, "title", table.cells("title"), "no title", ASIDE)
    comma = file_writes_comma(table.having(MONEY_COLUMNS), table.comma_likely)
    counts = unit_counts(_with_events_counted(table, events), findings)
    unsure = unsure_count(table, counts.table)
    unsold |= none_sold(table, counts.sold == 0, findings)
    quantity = quantity_column(counts.table, comma, findings)
    basis, proven = price_basis(table, quantity, amounts, mapping, currency, findings)
    money = unit_amounts(_of_sales(amounts, events), table, quantity, basis == ROW, findings)
    inside_of = np.minimum(quantity, 1) if basis == ORDER else quantity
    price, discounts = less_discount(table, money["sold_price"], inside_of, amounts, currency)
    price, inside = price_alone(table, price, inside_of, amounts, currency, findings)
    unread = unread_cautions(table, _by_header(table, amounts), quantity, currency, _IF_IT_COUNTS)
    made = made_on(read.table) if read.sort is Sort.LISTINGS else {}
    others = {header: cells for header, cells in read.table.unread.items() if header not in made}
    unread = (*unread, *unread_days_cautions(replace(read.table, unread=others), _IF_A_DAY))
    del amounts  # a million rows' readings are not held while the other columns are read
    unsold &= ~events.any
    money["asking_price"] = np.where(
        unsold & np.isnan(money["asking_price"]) & (price > 0), price, money["asking_price"]
    )
    worth = money["asking_price"], money["tag_each"]
    none = events.any | unsold
    price = np.where(none, np.nan, price)
    of_orders = np.where(events.any, 0, quantity)
    shared = order_prices(table, price, of_orders, worth, findings, basis == ORDER)
    money["sold_price"] = less_discounts(shared, quantity, off, table)
    set_unpriced_aside(table, money["sold_price"], none, findings)
    set_clear_outs_aside(table, money["sold_price"], money["asking_price"], quantity, findings)
    running = np.isnan(money["sold_price"]) & ~events.any
    days = sale_days(with_ends_of(table, running), mapping.get(DATES_ARE), findings)
    days["sold_on"] = np.where(unsold, np.datetime64("NaT", "D"), days["sold_on"])
    name_undated(table, money["sold_price"] > 0, findings)
    minutes = minutes_column(table, comma, findings) / np.maximum(quantity, 1)
    name_events(table, events, findings)
    named: dict[str, Any] = (
        words | money | days | {"quantity": _told(counts.table, quantity), "listing_minutes": minutes}
    )
    named |= {
        "row": table.rows,
        "condition": condition_column(table, findings, mapping),
        "sourced": sourced_column(table, findings, mapping),
        "gtin": gtin_column(table, findings),
    }
    told = (*headed, *waiting, *offers, *discounts, *signs, *strangers, *inside, *unsure, *proven, *ends, *postage)
    untold = refunds_untold(table, money["refunded"], (money["sold_price"] > 0) & ~none & ~findings.aside)
    told += (*summed, *unread, *repeats, *untold)
    return HistoryColumns(table, read.sort, named, counts, events, gone, told, max(made.values(), default=NEVER))


def _by_header(table: Table, amounts: Mapping[str, Amounts]) -> dict[str, FloatArray]:
    return {table.headers[name]: read.minor for name, read in amounts.items() if name in table.headers}


def _set_no_sales_aside(table: Table, findings: Findings) -> BoolArray:
    """Rows that say that the sale came to nothing; a later file of the same order undoes an earlier one."""
    before = findings.aside.copy()
    set_cancelled_aside(table, findings)
    set_unpaid_aside(table, findings)
    gone = findings.aside & ~before
    set_kept_aside(table, findings)
    return gone


def _with_events_counted(table: Table, events: Events) -> Table:
    """A refund of "-1" units is one."""
    if "quantity" not in table.columns or not events.any.any():
        return table
    cells: list[Cell] = [
        "1" if event else cell for cell, event in zip(table.columns["quantity"], events.any.tolist(), strict=True)
    ]
    return replace(table, columns={**table.columns, "quantity": cells})


def _of_sales(amounts: Mapping[str, Amounts], events: Events) -> Mapping[str, Amounts]:
    """Without what rows of refunds and fees tell, which was read for itself."""
    if not events.any.any():
        return amounts
    blank = np.where(events.any, np.nan, 0.0)
    return {name: replace(read, minor=read.minor + blank) for name, read in amounts.items()}


def _told(table: Table, quantity: IntArray) -> IntArray:
    """Units, 0 where the file does not count: another file may."""
    if "quantity" not in table.columns:
        return np.zeros(len(table), dtype=np.int64)
    blank = np.array([written_cell(cell).strip() == "" for cell in table.columns["quantity"]], dtype=bool)
    return np.where(blank, 0, quantity)
