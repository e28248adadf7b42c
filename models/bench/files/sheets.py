"""What do the files hold that are written, changed and read again?  Invented goods, every cell as text."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from models.intake.cells.gtin import check_digit
from models.values.streams import stream

MANIFEST, HISTORY = "manifest", "history"
BRANDS = ("Orrin", "Velda", "Tasko", "Nimbra", "Quell", "Brœgger", "Élan & Fils")
GOODS = ("mug", "kettle", "garden hose", "desk lamp", "floor mat", "drill", "milk pan", "winter coat", "rain boots")
MAKES = ("blue", "steel", "large", "folding", "cordless", "oak", 'with 5" rim', "plain, matt")
CATEGORIES = ("Home > Kitchen", "Home > Light", "Garden", "Tools", "Clothing > Coats")
CONDITIONS = ("New", "Open box", "Used - good", "Tested working", "Untested", "Salvage")
HEADERS = {
    MANIFEST: ("SKU", "Item Description", "Brand", "Category", "Condition", "Qty", "Unit Retail", "UPC", "Weight kg"),
    HISTORY: ("Order number", "SKU", "Title", "Condition", "Sold price", "Quantity", "Fees", "Date listed",
              "Date sold"),
}  # fmt: skip
COLUMNS = {
    MANIFEST: ("sku", "description", "brand", "category", "condition", "quantity", "tag_each", "gtin", "weight_kg"),
    HISTORY: ("order_ref", "sku", "title", "condition", "sold_price", "quantity", "fees", "listed_on", "sold_on"),
}
_DAY_ZERO = np.datetime64("2025-01-01")
_PRODUCTS = 20_000


@dataclass(frozen=True)
class Sheet:
    """A clean table: `header` and rows of texts; column j is COLUMNS[kind][j]."""

    kind: str
    header: tuple[str, ...]
    rows: list[list[str]]


def small_sheet(kind: str, seed: int, rows: int = 30) -> Sheet:
    """A short clean table, another one for each seed."""
    return Sheet(kind, HEADERS[kind], list(_rows(kind, seed, rows, different=True)))


def long_rows(kind: str, rows: int, different: bool) -> Iterator[list[str]]:
    """The rows of a long clean table; `different`: no two of one thing, else of 20,000 things."""
    yield list(HEADERS[kind])
    yield from _rows(kind, 1, rows, different)


def _rows(kind: str, seed: int, count: int, different: bool) -> Iterator[list[str]]:
    rng = stream(seed, f"bench {kind} file")
    products = rng.permutation(count) if different else rng.integers(0, _PRODUCTS, count)
    makes = rng.integers(0, len(MAKES), (count, 2)) if different else np.stack([products % 7, products % 5], axis=1)
    units, states, days = (
        rng.integers(1, 12, count),
        rng.integers(0, len(CONDITIONS), count),
        rng.integers(0, 300, count),
    )
    for number, product in enumerate(products.tolist()):
        brand, goods = BRANDS[product % len(BRANDS)], GOODS[product % len(GOODS)]
        words = f"{brand} {goods} {MAKES[makes[number, 0]]} no. {product} {MAKES[makes[number, 1]]}"
        price = f"{3 + (product * 37) % 19_000 / 100:.2f}"
        state = CONDITIONS[states[number]]
        if kind == MANIFEST:
            body = f"{36_000_000_000 + product * 7:011d}"
            yield [f"K{product:06d}", words, brand, CATEGORIES[product % 5], state, str(units[number]), price,
                   f"{body}{check_digit(body)}", f"{.1 + product % 90 / 10:.1f}"]  # fmt: skip
        else:
            listed = _DAY_ZERO + days[number]
            sold = f"{listed + 1 + product % 60}" if product % 4 else ""
            yield [f"O{number:07d}" if sold else "", f"K{product:06d}", words, state, price if sold else "", "1",
                   f"{float(price) * .12:.2f}" if sold else "", str(listed), sold]  # fmt: skip
