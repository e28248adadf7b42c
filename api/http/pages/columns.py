"""Which heading is which column?  The question as a seller reads it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from api.http.pages.said_words import Said, said_before
from models.store.records import FileFacts
from models.values.lines import LINE_COLUMNS, LINE_REQUIRED
from models.values.questions import SOLD_PRICE_IS, SOURCED_IS
from models.values.questions import Question as Asked
from models.values.sales import SALES_COLUMNS, SALES_REQUIRED

LABELS: Final[Mapping[str, str]] = {
    "title": "What was sold", "description": "What it is", "brand": "Brand", "category": "Category",
    "condition": "Condition", "tag_each": "Price tag of one unit (retail)", "tag_line": "Price tags of the whole row",
    "sold_price": "Price it sold for", "quantity": "Number of units", "listed_on": "Day it was listed",
    "first_listed_on": "Day it was first listed", "sold_on": "Day it sold", "asking_price": "Asking price",
    "cost": "What it cost you", "fees": "Selling fees", "shipping_charged": "Postage the buyer paid",
    "shipping_paid": "Postage you paid", "refunded": "Refunded amount", "listing_minutes": "Minutes to list it",
    "sku": "Your own number (SKU)", "gtin": "Barcode number (UPC, EAN)", "lot": "Lot it came from",
    "source": "Who you bought it from", "sourced": "Bought in bulk or singly", "place": "Where it was sold",
    "listing_ref": "Listing number", "order_ref": "Order number", "weight_kg": "Weight in kg", "pallet": "Pallet",
}  # fmt: skip
LOOK_BELOW: Final = 0.95  # confidence of a header under which its column is worth a look
PREFIX: Final = "column-"
NUMBER: Final = "number-"  # before the key of a question that a whole number answers too


def column_name(name: str) -> str:
    """A canonical column as a seller calls it; blank for the whole row."""
    return LABELS.get(name, name)


@dataclass(frozen=True)
class Column:
    """One column to be named; `chosen` is the header it is read from now, `unsure` asks for a look at it."""

    name: str
    label: str
    required: bool
    chosen: str
    unsure: bool


@dataclass(frozen=True)
class Question:
    """All columns of one file; `headers` is empty where they were not kept; `missing` must be said first.

    `asked` are the questions proper, with choices and our guess; the columns below them are only shown.
    """

    filename: str
    headers: tuple[str, ...]
    needed: tuple[Column, ...]
    helpful: tuple[Column, ...]
    asks_price: bool
    price_is: str  # what the sold price is for: "" or an answer
    asks_sourced: bool
    sourced_is: str  # how the goods came in: "" or an answer
    missing: tuple[str, ...]
    asked: tuple[Asked, ...]
    said: tuple[Said, ...]

    @property
    def asks(self) -> bool:
        """Until the needed columns are known."""
        return bool(self.missing)


def sales_question(filename: str, file: FileFacts) -> Question:
    """For a sold history."""
    return _question(filename, file, SALES_COLUMNS, SALES_REQUIRED)


def lines_question(filename: str, file: FileFacts) -> Question:
    """For a manifest."""
    return _question(filename, file, LINE_COLUMNS, LINE_REQUIRED)


def _question(filename: str, file: FileFacts, names: tuple[str, ...], needed: tuple[str, ...]) -> Question:
    asked = {one.key for one in file.questions}
    taken = {**file.found, **file.mapping}
    must = [name for name in needed if not asked and (file.missing or taken.get(name))]
    columns = [
        Column(name, LABELS[name], name in must, taken.get(name, ""), file.confidence.get(name, 1.0) < LOOK_BELOW)
        for name in names
        if name not in asked
    ]
    return Question(
        filename,
        file.headers,
        tuple(one for one in columns if one.required),
        tuple(one for one in columns if not one.required),
        "sold_price" in names and SOLD_PRICE_IS not in asked,
        file.mapping.get(SOLD_PRICE_IS, ""),
        "sourced" in names and not taken.get("sourced"),
        file.mapping.get(SOURCED_IS, ""),
        file.missing,
        file.questions,
        () if file.missing else said_before(file.mapping),
    )


def named_columns(fields: Mapping[str, str]) -> dict[str, str]:
    """The answer: every column that a header was chosen for, every question that a number or a choice answers."""
    chosen = {
        name.removeprefix(PREFIX): header for name, header in fields.items() if name.startswith(PREFIX) and header
    }
    numbers = {name.removeprefix(NUMBER): text.strip() for name, text in fields.items() if name.startswith(NUMBER)}
    return chosen | {name: text for name, text in numbers.items() if text}
