"""Which words label a total, and what does it sum?  The whole file, its own part, or rows instead of units.

Common practice, no source: these are the trade's words.
"""

import re

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell

_WHOSE = "|".join(
    word_list("""
    grand; sub; running; pallet; skid; box; carton; gaylord; bin; crate; palette; truck; lot; page; overall; manifest;
    order; column; report; final; net; file; sheet; load
""")
)
_COUNTED = "|".join(
    word_list("""
    units?; items?; pieces; pcs; cases?; cartons?; packs?; boxes; qty; quantity; retail; msrp; value; lines?; lots?;
    cost; price; amount; skus?; ext;
    extended; rrp; pallets?
""")
)
TOTALS_ABROAD = "|".join(
    word_list("""
    (?:gesamt|zwischen)?summen?(?: gesamt)?:?; gesamt:?; somme:?; sous[ -]total:?; total g[eé]n[eé]ral:?; suma:?;
    totale(?: generale)?:?; totaal:?; sum:?; übertrag:?; (?:carried|brought) forward:?;
    razem:?; ogó[łl]em:?; [łl][ąa]cznie:?; celkem:?; spolu:?; összesen:?; (?:genel )?toplam:?; итого:?; всего:?;
    summa:?; totalt:?; i alt:?; yhteens[äa]:?; σύνολο:?; total geral:?;
    合計; 小計; 総計; 合计; 小计; 总计; 합계; 소계; 총계
""")
)
_TOTAL = re.compile(
    rf"(?:(?:{_WHOSE})[\s-]*)*totals?(?:\s+(?:{_COUNTED}))*\s*[:=]?\s*(?:\d[\d.,\s]*)?|{TOTALS_ABROAD}", re.IGNORECASE
)
_PLACE = r"(?:pallet|skid|box|carton|gaylord|bin|crate|palette|plt|lot|truck|load|page|section)"
_OF_PLACE = re.compile(  # "PALLET A TOTAL", "Sub-total for pallet 2"
    rf"{_PLACE}\s*(?:#|no\.?)?\s*[\w-]{{1,8}}\s*[-:]?\s*(?:sub[\s-]?)?totals?\s*:?|"
    rf"(?:sub[\s-]?)?totals?\s*[-:]?\s*(?:of|for)?\s*{_PLACE}\s*(?:#|no\.?)?\s*[\w-]{{1,8}}\s*:?",
    re.IGNORECASE,
)
_NAMED = re.compile(
    r"\b(?:sub[\s-]?)?totals?\b|\b(?:gesamt)?summe\b|\bgesamt\b|\btotale\b|\btotaal\b|\bsomme\b|\bsuma\b", re.IGNORECASE
)
_PARTS_OF_NAMED = ("tot", "sum", "somme", "gesamt")
_NO_GOODS = re.compile(r"sub[\s-]?totals?\b|zwischensumme\b|sous[ -]total\b|subtotaal\b", re.IGNORECASE)
TOTALS = re.compile(
    rf"(?:{_TOTAL.pattern})|(?:{_OF_PLACE.pattern})|(?:{_NO_GOODS.pattern}).*", re.IGNORECASE | re.DOTALL
)  # in one: every cell of goods is held against it
_SUM = re.compile(
    r"[\w .#:/-]{1,30}\b(?:sub)?totals?\s*:?|(?:sum|total) (?:of|for) [\w .#:/-]{1,30}|"
    r"all (?:pallets|lots|units|items|goods|lines|cases)\s*:?",
    re.IGNORECASE,
)
_OF_ALL = re.compile(
    r"all (?:pallets|lots|units|items|goods|lines|cases)\b|"
    r"(?:grand|overall|manifest|report|file|order|truck|final|net)[\s-]*totals?\b|gesamt(?:summe)?\b|summe gesamt\b|"
    r"total g[eé]n[eé]ral\b|totale generale\b|eindtotaal\b",
    re.IGNORECASE,
)
_OF_PART = re.compile(
    r"(?:sub|pallet|skid|box|carton|gaylord|bin|crate|palette|page)[\s-]*totals?\b|(?!total)\S*\d\S*\s*[-:]?\s*(?:sub[\s-]?)?totals?\b|"
    r"zwischensumme\b|sous[ -]total\b|"
    r"subtotaal\b",
    re.IGNORECASE,
)
_OF_MONEY = re.compile(
    r"(?:\w+[\s-]+)?totals?\s+(?:ext(?:ended)?\.?\s+)?(?:retail|msrp|rrp|uvp|value|cost|price|amount)s?\b",
    re.IGNORECASE,
)
_OF_ROWS = re.compile(r"(?:\w+[\s-]+)?totals?\s+(?:lines?|lots?|skus?|pallets?)\b", re.IGNORECASE)


def says_total(cell: Cell) -> bool:
    """True for a cell that labels a total: "Total", "Grand total:", "Total units 182".

    Examples
    --------
    >>> says_total("Sub-total"), says_total("TOTAL UNITS: 182"), says_total("PALLET A TOTAL"), says_total("Total gym")
    (True, True, True, False)
    """
    if not isinstance(cell, str) or not 0 < len(cell) < 60:
        return False
    return bool(TOTALS.fullmatch(cell.strip()))


def sums_needed(cell: Cell) -> int:
    """How many numbers beside these words must be sums for it to be a total; 0 for words that name none.

    Examples
    --------
    >>> sums_needed("Kitchen total"), sums_needed("Total gym"), sums_needed("Blue mug")
    (1, 2, 0)
    """
    if not isinstance(cell, str) or len(cell) > 60:
        return 0
    small = cell.casefold()  # most goods are told apart without the slower search
    if not may_name_sum(small) or not (found := _NAMED.search(cell)):
        return 0
    return 1 if found.end() >= len(cell.rstrip(": ")) else 2


def may_name_sum(small: str) -> bool:
    """False for words, in small letters, among which no sum can be named.

    Examples
    --------
    >>> may_name_sum("kitchen total"), may_name_sum("blue mug")
    (True, False)
    """
    return any(part in small for part in _PARTS_OF_NAMED)


def labels_sum(cell: Cell) -> bool:
    """True for a label of a total where no goods are named beside it: "PLT-1 total", "All pallets".

    Examples
    --------
    >>> labels_sum("PLT-1 total"), labels_sum("All pallets:"), labels_sum("Total gym")
    (True, True, False)
    """
    return isinstance(cell, str) and bool(_SUM.fullmatch(cell.strip()))


def total_of_all(text: str) -> bool:
    """True for a total whose words say that it sums the whole file.

    Examples
    --------
    >>> total_of_all("GRAND TOTAL 8 32"), total_of_all("Sub-total"), total_of_all("Total")
    (True, False, False)
    """
    return bool(_OF_ALL.match(text))


def total_of_part(text: str) -> bool:
    """True for a total whose words say that it sums its own part alone.

    Examples
    --------
    >>> total_of_part("Sub-total"), total_of_part("Pallet total 8"), total_of_part("Grand total")
    (True, True, False)
    """
    return bool(_OF_PART.match(text) or _OF_PLACE.match(text))


def total_of_rows(text: str) -> bool:
    """True for a total that counts lines or pallets, not units.

    Examples
    --------
    >>> total_of_rows("Total SKUs 4"), total_of_rows("Total units 4")
    (True, False)
    """
    return bool(_OF_ROWS.match(text))


def total_of_money(text: str) -> bool:
    """True for a total whose words say that it sums money, not units.

    Examples
    --------
    >>> total_of_money("Total retail 165"), total_of_money("Total units 4")
    (True, False)
    """
    return bool(_OF_MONEY.match(text))


def may_be_goods(cell: Cell) -> bool:
    """True for a total's label that goes on with words, as goods may be called.

    Examples
    --------
    >>> may_be_goods("Subtotal slimming brief"), may_be_goods("Sub-total:"), may_be_goods("Pallet total 5")
    (True, False, False)
    """
    found = _NO_GOODS.match(cell.strip()) if isinstance(cell, str) else None
    return found is not None and any(map(str.isalpha, found.string[found.end() :]))
