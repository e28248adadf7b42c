"""What do the three lots look like?  One tidy, one as a depot's clerk leaves it, one of a brand never sold before."""

import math
import random

from goods import Product, normal, source
from shop import RETURNS, picked
from writing import Cell

Line = tuple[Product, str, int]
TIDY_WORDS = {
    "sealed": "New", "opened": "Open box", "works": "Used, works", "worn": "Used, worn", "untested": "Untested return",
    "salvage": "Salvage",
}  # fmt: skip
MESSY_WORDS = {
    "sealed": ("NEW - SEALED", "brand new", "Shelf pull"), "opened": ("O/B", "OPEN BOX", "open box / like new"),
    "works": ("USED/GOOD", "Tested, working"), "worn": ("used - heavy wear",),
    "untested": ("Cust. return (untested)", "RETURNS UNTESTED"), "salvage": ("PARTS ONLY", "for parts or repair"),
}  # fmt: skip
QUANTITIES = ((1, 2, 3, 4, 6, 8, 12), (36, 24, 14, 11, 8, 5, 2))


def lines(purpose: str, known: list[Product], fresh: list[Product], counts: tuple[int, int]) -> list[Line]:
    """`counts` known and never-seen products, in mixed order."""
    rng = source(f"manifest:{purpose}")
    weights = [product.weight for product in known]
    chosen = rng.choices(known, weights, k=counts[0]) + fresh[: counts[1]]
    rng.shuffle(chosen)
    return [(product, picked(rng, RETURNS), rng.choices(*QUANTITIES)[0]) for product in chosen]


def tidy(contents: list[Line]) -> list[list[Cell]]:
    """A workbook with every column where it belongs, on two pallets."""
    rng = source("tidy")
    rows: list[list[Cell]] = [
        ["Item Description", "Brand", "Category", "Condition", "Qty", "Unit Retail", "Ext. Retail", "SKU", "UPC",
         "Weight (kg)", "Pallet"]
    ]  # fmt: skip
    for number, (product, condition, quantity) in enumerate(contents):
        tag = _claimed(rng, product)
        sku, gtin = _numbers(rng, product)
        rows.append([
            product.title, product.brand, product.category.name, TIDY_WORDS[condition], quantity, tag,
            round(tag * quantity, 2), sku, gtin, round(product.kind.kilos * quantity, 2),
            "P1" if number < len(contents) / 2 else "P2",
        ])  # fmt: skip
    return rows


def messy(contents: list[Line]) -> list[list[Cell]]:
    """A file with titles, an address, a repeated header, a note, totals and the slips of a long day."""
    rng = source("messy")
    header: list[Cell] = [
        "ITEM DESC.",
        "Mfr",
        "Dept",
        "Cond.",
        "QTY",
        "Unit MSRP",
        "Extended MSRP",
        "Item #",
        "UPC/EAN",
    ]
    body = [_messy_row(rng, line) for line in contents]
    _slips(body, contents)
    units = sum(int(row[4] or 1) for row in body)
    total = sum(_amount(row[6]) for row in body)
    half = len(body) // 2
    note: list[Cell] = ["** second half of the load: boxes may be crushed, sold as is **", *[""] * 8]
    return [
        ["LOT 7731 - MIXED HOUSEHOLD RETURNS", *[""] * 8],
        ["Hollow Lane Depot, Dock 4, 12 Example Road", *[""] * 8],
        [""] * 9, header, *body[:half], note, header, *body[half:],
        ["TOTAL", "", "", "", units, "", f"${total:,.2f}", "", ""],
    ]  # fmt: skip


def new_brand(contents: list[Line]) -> list[list[Cell]]:
    """Mostly goods of one brand that this shop never sold."""
    rng = source("new brand")
    rows: list[list[Cell]] = [["Product", "Brand", "Category", "Grade", "Units", "MSRP", "GTIN"]]
    for product, condition, quantity in contents:
        tag = _claimed(rng, product)
        rows.append(
            [product.title, product.brand, product.category.name, TIDY_WORDS[condition], quantity, tag, product.gtin]
        )
    return rows


def _claimed(rng: random.Random, product: Product) -> float:
    """The tag as the lot's seller claims it [major units]."""
    tag = product.tag if rng.random() < 0.7 else product.tag * math.exp(0.05 * normal(rng))
    return round(tag, 2)


def _numbers(rng: random.Random, product: Product) -> tuple[str, str]:
    return (product.sku if rng.random() < 0.9 else "", product.gtin if rng.random() < 0.8 else "")


def _messy_row(rng: random.Random, line: Line) -> list[Cell]:
    product, condition, quantity = line
    tag = _claimed(rng, product)
    title = product.title.upper() if rng.random() < 0.3 else product.title
    sku, gtin = _numbers(rng, product)
    wording = rng.choice(MESSY_WORDS[condition])
    brand = product.brand.upper() if rng.random() < 0.4 else product.brand
    dept = product.category.name if rng.random() < 0.9 else ""
    return [title, brand, dept, wording, quantity, f"${tag:,.2f}", f"${tag * quantity:,.2f}", sku, gtin]


def _amount(cell: Cell) -> float:
    return 0.0 if cell == "N/A" else float(str(cell).lstrip("$").replace(",", ""))


def _slips(body: list[list[Cell]], contents: list[Line]) -> None:
    wrong = contents[12][0].gtin
    body[4][4] = ""  # a blank quantity
    body[9][4:7] = [1, "$18,999.00", "$18,999.00"]  # an absurd tag
    body[12][8] = wrong[:-1] + str((int(wrong[-1]) + 1) % 10)  # the check digit cannot be
    body[15][8] = "2.4E+11"  # a number that a spreadsheet has spoilt
    body[20][4:7] = [6, "$205.75", "$1,234.50"]
    body[23][3] = "grade ???"  # no condition we know
    body[26][5:7] = ["N/A", "N/A"]
    body[30] = ["Assorted kitchen gadgets", "", "Kitchen", "Shelf pull", 12, "$9.99", "$119.88", "", ""]
