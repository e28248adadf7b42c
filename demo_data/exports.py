"""What does the shop's own export look like?  One row a sold unit or a listing that waits, gaps and all."""

import datetime as dt
import random

from goods import normal, source
from market import AS_OF, END, Unit
from writing import Cell

HEADER: list[Cell] = [
    "Title", "Brand", "Category", "Condition", "Retail price", "Sold price", "Qty", "Listed on",
    "First listed on", "Sold on", "Asking price", "Cost", "Fees", "Shipping charged", "Shipping paid", "Refunded",
    "Listing minutes", "SKU", "UPC", "Lot", "Source", "Sourced", "Place", "Listing ref",
    "Order ref",
]  # fmt: skip
WORDING = {
    "sealed": "New", "opened": "Open box", "works": "Used - good", "worn": "Used - worn", "untested": "Untested",
    "salvage": "For parts",
}  # fmt: skip
RELIST_DAYS = 120


def history(units: list[Unit]) -> list[list[Cell]]:
    """Everything sold before AS_OF, and what was listed and had not sold on that day."""
    known = [unit for unit in units if unit.listed < AS_OF]
    return [HEADER] + [_row(unit, AS_OF) for unit in sorted(known, key=_listing)]


def new_quarter(units: list[Unit]) -> list[list[Cell]]:
    """The quarter after: what sold in it and what waits at its end; listings keep their reference."""
    later = [unit for unit in units if unit.sold is None or unit.sold >= AS_OF]
    until = END + dt.timedelta(days=1)
    return [HEADER] + [_row(unit, until) for unit in sorted(later, key=_listing)]


def _listing(unit: Unit) -> int:
    return unit.listing


def _row(unit: Unit, until: dt.date) -> list[Cell]:
    rng = source(f"row:{unit.listing}")
    sold = unit.sold is not None and unit.sold < until
    last = unit.sold if sold and unit.sold else until
    relisted = unit.listed + dt.timedelta(days=RELIST_DAYS * ((last - unit.listed).days // RELIST_DAYS))
    first = unit.listed.isoformat() if relisted != unit.listed else ""
    about = _about(rng, unit)
    pieces = 1 + (unit.with_it if sold else 0)
    minutes = f"{unit.minutes + 1.5 * (pieces - 1):g}" if rng.random() < 0.3 else ""
    asking = round(unit.price * 1.08) + 0.99 if sold else round(unit.product.tag * 0.55) + 0.99
    cost: Cell = round(unit.cost * pieces, 2) if rng.random() < 0.93 else ""
    money = _sold_cells(source(f"money:{unit.listing}"), unit, pieces) if sold else ["", "", "", ""]
    when: Cell = unit.sold.isoformat() if sold and unit.sold else ""
    price: Cell = unit.price if sold else ""
    return [
        *about[:5], price, pieces, relisted.isoformat(), first, when, asking, cost, *money,
        minutes, *about[5:], f"L{unit.listing}", f"O{unit.order + 50000}" if sold else "",
    ]  # fmt: skip


def _about(rng: random.Random, unit: Unit) -> list[Cell]:
    """What the thing is; a seller in a hurry leaves cells blank and tags are claims."""
    product = unit.product
    tag = product.tag if rng.random() < 0.95 else round(product.tag * (0.8 + 0.4 * rng.random()), 2)
    tag = tag if rng.random() > 0.012 else round(tag * (10 if rng.random() < 0.5 else 0.1), 2)
    kept = [rng.random() for _ in range(6)]
    sourced = ("bulk" if kept[5] < 0.96 else "") if unit.lot else "single"  # a blank one still names its lot
    return [
        product.title, product.brand if kept[0] < 0.95 else "", product.category.name if kept[1] < 0.98 else "",
        WORDING[unit.condition] if kept[2] < 0.96 else "", tag if kept[3] < 0.84 else "",
        product.sku if unit.lot else "", product.gtin if kept[4] < 0.55 else "", unit.lot, unit.source, sourced,
        "fair" if rng.random() < 0.05 else "web",
    ]  # fmt: skip


def _sold_cells(rng: random.Random, unit: Unit, pieces: int) -> list[Cell]:
    """Fees, postage charged and paid, refunded: amounts of the whole row."""
    charged = rng.choice((0.0, 4.95, 5.95, 7.95)) + (3.0 if unit.product.kind.kilos > 4 else 0.0)
    paid = round(3.9 + 1.05 * pieces * unit.product.kind.kilos * (1 + 0.1 * normal(rng)), 2)
    total = unit.price * pieces
    fees = round(0.125 * (total + charged) + 0.30, 2)
    refunded: Cell = ""
    if rng.random() < 0.045:
        refunded = total if rng.random() < 0.7 else round(total * 0.3, 2)
    return [fees, charged, paid, refunded]
