"""Does a column hold amounts of money, whatever it is taken for?  Its header's words and its cells together.

Common practice, no source.
"""

import re

from models.intake.cells.money_words import other_money
from models.intake.cells.price_words import price_sort, says_line
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.columns.column_names import is_lettered
from models.intake.columns.glances import Glance
from models.intake.columns.header_words import may_be_guessed

_READABLE = re.compile("[a-z]{3}")
_MOST = 0.5  # of the cells that say anything
_MEASURES = frozenset(
    word_list("""
    weight; gewicht; poids; peso; kg; lb; lbs; oz; gram; grams; length; lange; width; breite; height; hohe; depth;
    tiefe; dimension; dimensions; masse; cube; cubic; volume; volumen; size; grosse; cm; mm; inch; inches; percent;
    prozent; rate; rating; stars; score; version; hours; minutes; time; date; year; month; week; day; days; age; id;
    number; sku; upc; ean; gtin; code; lat; latitude; longitude; qty; menge; anzahl; aantal; cantidad; quantita;
    address; addresses; adresse; anschrift; lieferadresse; direccion; indirizzo; adres; zip; zipcode; postcode; plz;
    phone; telephone; telefon; telefono; street; city; country; iban; barcode; quantite; units; pieces; count; page;
    line number; views; watchers; power; watt; watts; volt; volts; rank
""")
)


def looks_like_money(header: str, seen: Glance) -> bool:
    """True for a column of amounts: its header speaks of money over numbers, or most cells are written like money.

    Parameters
    ----------
    header : str
        As the file has it.
    seen : Glance
        What its cells look like.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> looks_like_money("Price", glance(["5", "7"])), looks_like_money("Qty", glance(["5", "7"]))
    (True, False)
    >>> looks_like_money("Zork", glance(["5.00", "7.25"])), looks_like_money("Weight kg", glance(["5.00", "7.25"]))
    (True, False)
    >>> looks_like_money("Ship to address 1", glance(["7", "9"])), looks_like_money("Postage", glance(["7", "9"]))
    (False, True)
    """
    if not _are_numbers(seen):
        return False
    if price_sort(header):
        return True
    if seen.rising:
        return False
    words = set(plain_words(header).split())
    if words & _MEASURES:
        return False
    named = bool(other_money(header)) or (says_line(header) and seen.cents > 0)
    return named or seen.cents >= _MOST


def may_be_money(header: str, seen: Glance) -> bool:
    """True for a column of numbers that no word of its header calls something else.

    Parameters
    ----------
    header : str
        As the file has it.
    seen : Glance
        What its cells look like.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> [may_be_money(header, glance(["5", "9"])) for header in ("Zork", "Height", "Line", "Sales tax")]
    [True, False, False, False]
    """
    words = plain_words(header)
    named = bool(set(words.split()) & _MEASURES) or bool(other_money(header)) or not may_be_guessed(words)
    return _are_numbers(seen) and not seen.rising and not named


def says_nothing(header: str) -> bool:
    """True for a header that is none, or whose script or letters tell nothing here.

    Examples
    --------
    >>> says_nothing("column B"), says_nothing("\u05de\u05d7\u05d9\u05e8"), says_nothing("C3"), says_nothing("Zork")
    (True, True, True, False)
    """
    return is_lettered(header) or not _READABLE.search(plain_words(header))


def _are_numbers(seen: Glance) -> bool:
    return bool(seen.filled) and seen.number >= _MOST and max(seen.gtin, seen.date) <= _MOST
