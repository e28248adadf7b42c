"""What does the invented shop sell?  Invented brands, household goods, their honest tags and their hidden worth."""

import math
import random
from dataclasses import dataclass
from statistics import NormalDist

SEED = 20260701
BRANDS = (
    "Brundelow", "Tavrenick", "Ostrewell", "Pellinghast", "Yarnebrook", "Fennimarsh", "Quillowby",
    "Dorvestane", "Halbrunz", "Kestroven", "Oddersea", "Plovermoor", "Ruskenfell", "Sandelwick",
    "Thornquay", "Umberlode", "Vexamoor", "Zephrume", "Bravundel", "Drumlocket", "Grindelow",
    "Jorrickan", "Kelvandra", "Lomaverel", "Mistlehurn", "Nettlebray", "Orrinfold", "Pridwaith",
    "Quenlowick", "Skarrowby", "Tumbrewick", "Ulverdane", "Yolandry", "Braskettle", "Hobbinfeld",
)  # fmt: skip
NEW_BRANDS = ("Varrowick", "Elmstrake")  # in manifests only: never sold before
COLOURS = ("Red", "Grey", "White", "Black", "Sage", "Navy", "Cream", "Teal")


@dataclass(frozen=True)
class Kind:
    """A kind of goods: `low` and `high` bound its honest tags [major units], `kilos` is a unit's weight."""

    words: str
    low: float
    high: float
    kilos: float


@dataclass(frozen=True)
class Category:
    """`worth` shifts ln price; `peak` is the day of the year of the season, 0 for none; `swing` its ln rate swing."""

    name: str
    worth: float
    peak: int
    swing: float
    kinds: tuple[Kind, ...]


def _kinds(*rows: tuple[str, float, float, float]) -> tuple[Kind, ...]:
    return tuple(Kind(*row) for row in rows)


CATEGORIES = (
    Category("Kitchen > Appliances", 0.10, 0, 0.0, _kinds(
        ("2-Slice Toaster", 29, 69, 2), ("4-Slice Toaster", 49, 109, 3), ("Electric Kettle 1.7 L", 29, 89, 1.5),
        ("Hand Blender Set", 35, 95, 1.4), ("Stand Mixer 5 L", 149, 299, 8), ("Coffee Grinder", 35, 120, 1.6),
        ("Waffle Maker", 35, 79, 2.5), ("Slow Cooker 6 L", 49, 110, 6), ("Air Fryer 4 L", 79, 160, 5))),
    Category("Kitchen > Cookware", 0.0, 0, 0.0, _kinds(
        ("Cast Iron Skillet 26 cm", 29, 75, 2.6), ("Saucepan Set of 3", 59, 149, 4), ("Knife Block Set", 49, 139, 3),
        ("Baking Tin Set", 19, 45, 1.5), ("Dutch Oven 5 L", 69, 169, 5.5), ("Glass Storage Set of 10", 25, 55, 3))),
    Category("Home > Bedding", -0.12, 0, 0.0, _kinds(
        ("Duvet Cover Set Double", 35, 89, 1.6), ("Memory Foam Pillow Pair", 39, 85, 2.2),
        ("Weighted Blanket 7 kg", 59, 129, 7), ("Fleece Throw", 19, 45, 1.1),
        ("Mattress Topper Double", 69, 159, 4.5))),
    Category("Home > Lighting", -0.05, 0, 0.0, _kinds(
        ("Desk Lamp", 25, 75, 1.4), ("Floor Lamp", 59, 149, 5), ("Pendant Light", 39, 119, 1.8),
        ("Bedside Lamp Pair", 45, 99, 2.5), ("Wall Sconce Pair", 39, 95, 1.9))),
    Category("Garden > Hand Tools", -0.02, 135, 0.7, _kinds(
        ("Pruning Shears", 19, 49, 0.4), ("Garden Fork", 29, 65, 2.1), ("Telescopic Lopper", 35, 85, 1.7),
        ("Hose Reel 25 m", 49, 119, 5), ("Hedge Shears", 29, 69, 1.3))),
    Category("Garden > Outdoor", -0.15, 165, 0.9, _kinds(
        ("Folding Camp Chair Pair", 49, 109, 5.5), ("Parasol 2.7 m", 69, 159, 7), ("String Lights 20 m", 25, 59, 1.2),
        ("Table Fire Bowl", 69, 149, 6), ("Planter Set of 3", 35, 89, 4))),
    Category("Toys > Building Sets", 0.18, 338, 0.9, _kinds(
        ("Marble Run 150 Pieces", 35, 79, 1.8), ("Wooden Train Set 80 Pieces", 45, 119, 2.6),
        ("Magnet Tiles 60 Pieces", 39, 99, 1.9), ("Castle Brick Set 900 Pieces", 69, 149, 2.1),
        ("Crane Building Kit", 49, 129, 2.2))),
    Category("Toys > Games", -0.05, 340, 0.8, _kinds(
        ("Puzzle 1000 Pieces", 15, 29, 0.8), ("Strategy Board Game", 29, 75, 1.5), ("Family Card Game", 12, 27, 0.4),
        ("Table Football", 69, 149, 9), ("Wooden Chess Set", 35, 99, 2))),
    Category("Tools > Power Tools", 0.12, 0, 0.0, _kinds(
        ("Cordless Drill 18 V", 79, 189, 2.4), ("Orbital Sander", 45, 109, 1.9), ("Jigsaw 650 W", 49, 119, 2.4),
        ("Circular Saw 1200 W", 79, 169, 4), ("Heat Gun 2000 W", 35, 79, 1.1))),
    Category("Electronics > Audio", 0.05, 0, 0.0, _kinds(
        ("Bookshelf Speaker Pair", 89, 229, 6), ("Wireless Headphones", 49, 179, 0.5), ("Bedside Radio", 35, 99, 1.2),
        ("Portable Speaker", 29, 119, 0.9), ("Turntable", 99, 239, 5))),
)  # fmt: skip


@dataclass(frozen=True)
class Product:
    """One thing the trade knows; `tag` is what it honestly carries [major units], `worth` and `rate` are hidden."""

    title: str
    brand: str
    category: Category
    kind: Kind
    sku: str
    gtin: str
    tag: float
    worth: float  # shift of ln price: brand, brand in category, the thing itself
    rate: float  # sales a day while in stock, out of season
    weight: float  # how often it comes in


def source(kind: str) -> random.Random:
    """A generator for one purpose: the same numbers on every machine and in every version."""
    return random.Random(f"{SEED}:{kind}")  # noqa: S311  an invented shop needs no secrets


def normal(rng: random.Random) -> float:
    """A standard normal."""
    return NormalDist().inv_cdf(max(rng.random(), 1e-12))


def gtin_of(number: int) -> str:
    """A 12-digit number with its GS1 check digit; leading 2 is the range set aside for in-house numbers."""
    digits = f"2{number:010d}"
    total = sum(int(digit) * (3 if place % 2 == 0 else 1) for place, digit in enumerate(digits))
    return digits + str(-total % 10)


def products(count: int, first: int, brands: tuple[str, ...], purpose: str) -> list[Product]:
    """`count` products numbered from `first`; brands and products by Zipf's law."""
    rng = source(purpose)
    seen: set[str] = set()
    made: list[Product] = []
    while len(made) < count:
        product = _product(rng, first + len(made), len(made), brands)
        if product.title not in seen:
            seen.add(product.title)
            made.append(product)
    return made


def _product(rng: random.Random, number: int, rank: int, brands: tuple[str, ...]) -> Product:
    brand = rng.choices(brands, [1 / (place + 1) ** 0.8 for place in range(len(brands))])[0]
    category = rng.choices(CATEGORIES, [len(one.kinds) for one in CATEGORIES])[0]
    kind = rng.choice(category.kinds)
    share = min(max(0.45 + 0.9 * _brand_worth(brand) + 0.22 * normal(rng), 0), 1)
    tag = math.floor(kind.low + share * (kind.high - kind.low)) + 0.99
    worth = _brand_worth(brand) + 0.08 * normal(source(f"{brand}:{category.name}")) + 0.16 * normal(rng)
    weight = 1 / (rank + 6) ** 0.7
    rate = math.exp(math.log(0.015) + 0.9 * category.worth + 0.8 * normal(rng)) + 0.5 * weight
    return Product(
        f"{brand} {kind.words} {rng.choice(COLOURS)}", brand, category, kind, f"HG-{number:05d}",
        gtin_of(number * 7919 % 10**9 + 4 * 10**9), tag, worth, rate, weight,
    )  # fmt: skip


def _brand_worth(brand: str) -> float:
    return 0.16 * normal(source(f"brand:{brand}"))
