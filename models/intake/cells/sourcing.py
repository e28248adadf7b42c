"""Which words say how a unit was sourced, that a sale was cancelled, that a listing has not sold, that goods are mixed?

Common practice, no source.
"""

import re
from collections.abc import Iterable, Sequence

from models.intake.cells.dates import Order, read_dates
from models.intake.cells.reading import Reading, Readings, read_column
from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, plain_text

BULK, SINGLE, NOT_SAID = 1, 0, -1


def _any(words: str) -> str:
    return rf"\b(?:{'|'.join(word_list(words))})\b"


_BULK = re.compile(
    _any("""
    bulk; pallets?; cases?; liquidations?; truck ?loads?; wholesale; (?:auction|box|job|returns?) ?lots?; lots?; loads?;
    gaylords?; closeouts?; manifest(?:ed)?; palettes?; posten; restposten; lote
""")
)
_SINGLE = re.compile(
    _any("""
    singles?; single finds?; finds?; thrift(?:ed)?; estate(?: sales?)?; garage(?: sales?)?; yard(?: sales?)?;
    flea(?: markets?)?; car boot; charity(?: shops?)?; hand ?picked; picked; individual(?:ly)?; one off;
    retail(?: arbitrage)?; arbitrage; donated; einzeln; einzelstück; flohmarkt; brocante
""")
)
_CANCELLED = re.compile(
    _any("""
        cancel+ed; cancel+ation; cancelado; cancelada; void(?:ed)?; unpaid; not paid; non[- ]?paying; payment failed;
        storniert; annul(?:é|ée|e|ee|ato|ata); geannuleerd
    """),
    re.IGNORECASE,
)
_CANCELLED_TITLE = re.compile(r"^[\[(*\s]*cancel+ed\s*[\])*:]|[\[(*]\s*cancel+ed\s*[\])*]\s*$", re.IGNORECASE)
_YES = frozenset({"true", "yes", "y", "1", "x", "ja", "oui", "si", "sí"})
_UNSOLD = frozenset(
    word_list("""
    actif; active; aktiv; available; draft; false; for sale; in stock; invendu; listed; live; no; non vendu; not
    sold; not yet; not yet sold; not-sold; not_sold; open; pending; still listed; unsold; unverkauft; nicht verkauft;
    zum verkauf; noch nicht verkauft; offen; nein; en vente; à vendre; pas vendu; non; en venta; a la venta; no vendido;
    sin vender; pendiente; in vendita; non venduto; invenduto; te koop; niet verkocht; nog niet verkocht; onverkocht;
    nee; en attente; in attesa; ausstehend
""")
)
_MIXED = re.compile(
    _any("""
    assorted; assortment; assort; asst; asstd; mixed; various; miscellaneous; misc; gemischte?; sortiert; diverse?;
    divers; assortis?; surtidos?; varios; assortiti; misto; gemengd
"""),
    re.IGNORECASE,
)
# One of them stands in each of those words: looked for as they are, they are found much faster.
_PARTS_OF_MIXED = (
    "assor", "asst", "mixed", "vario", "misc", "sortiert", "divers", "surtido", "misto", "gemengd"
)  # fmt: skip


def read_sourced(cells: Sequence[Cell]) -> Readings[int]:
    """1 bulk, 0 single find, -1 where nothing or nothing known is said; the latter is named.

    Examples
    --------
    >>> [reading.value for reading in read_sourced(["Pallet", "single find", "", "moon"])]
    [1, 0, -1, -1]
    """
    return read_column(cells, _sourced)


def _sourced(cell: Cell) -> Reading[int]:
    words = " ".join(re.split(r"[^\w]+|_", plain_text(cell).casefold())).strip()
    if not words:
        return Reading(NOT_SAID)
    bulk, single = bool(_BULK.search(words)), bool(_SINGLE.search(words))
    if bulk != single:
        return Reading(BULK if bulk else SINGLE)
    return Reading(NOT_SAID, "neither bulk nor single", "taken as unknown")


def says_cancelled(cell: Cell, header: str = "") -> bool:
    """True if a status, price or date cell says the sale was cancelled; under a header "cancelled" a yes or a day does.

    Examples
    --------
    >>> says_cancelled("Order cancelled by buyer"), says_cancelled("yes", "Cancelled?"), says_cancelled("Shipped")
    (True, True, False)
    >>> says_cancelled("2026-05-01", "Cancelled at"), says_cancelled("2", "Cancelled at")
    (True, False)
    """
    text = plain_text(cell)
    if _CANCELLED.search(header) and (text.lower() in _YES or read_dates([cell], Order.DAY)[0].value is not None):
        return True
    return bool(_CANCELLED.search(text))


def title_says_cancelled(title: Cell) -> bool:
    """True for "[CANCELLED] mug"; a cancelled stamp is goods.

    Examples
    --------
    >>> title_says_cancelled("[CANCELLED] Blue mug"), title_says_cancelled("Cancelled stamps, 40")
    (True, False)
    """
    return isinstance(title, str) and bool(_CANCELLED_TITLE.search(title))


def says_unsold(cell: Cell) -> bool:
    """True for words that stand in a price or date cell of what has not sold.

    Examples
    --------
    >>> says_unsold("Unsold"), says_unsold("12.00")
    (True, False)
    """
    return isinstance(cell, str) and " ".join(cell.casefold().split()).strip("()[]*. ") in _UNSOLD


def says_assorted(text: str) -> bool:
    """True if words say assorted, mixed or various: many different goods.

    Examples
    --------
    >>> says_assorted("Asst knit tops"), says_assorted("Hand mixer")
    (True, False)
    """
    return bool(_MIXED.search(text))


def saying_assorted(pieces: Iterable[tuple[list[str], str]]) -> set[str]:
    """Those of many texts that say so; most say nothing of the kind, which is told of a hundred at once.

    Parameters
    ----------
    pieces : iterable of (list of str, str)
        From `in_small_letters`.

    Examples
    --------
    >>> from models.intake.many import in_small_letters
    >>> saying_assorted(in_small_letters(["Hand mixer", "Asst knit tops"]))
    {'Asst knit tops'}
    """
    found: set[str] = set()
    for some, small in pieces:
        if any(part in small for part in _PARTS_OF_MIXED):
            found.update(filter(says_assorted, some))
    return found


def says_assorted_alone(text: str) -> bool:
    """True if words say nothing but that goods are mixed: a brand may carry such a word in its name.

    Examples
    --------
    >>> says_assorted_alone("Various"), says_assorted_alone("Mixed Berry & Co")
    (True, False)
    """
    return bool(_MIXED.fullmatch(text.removesuffix("brands").removesuffix("Brands").strip()))
