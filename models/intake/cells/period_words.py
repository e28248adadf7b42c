"""Which words name a stretch of time or a sum over one, and no goods: "February 2026", "Total for March", "Q1"?

Common practice, no source.
"""

import re

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, plain_text

_MONTHS = "|".join(
    word_list("""
    january; february; march; april; may; june; july; august; september; october; november; december; jan; feb; mar;
    apr; jun; jul; aug; sept?; oct; nov; dec; januar; jänner; februar; märz; mai; juni; juli; oktober; dezember;
    janvier; février; mars; avril; juin; juillet; août; septembre; octobre; novembre; décembre; enero; febrero; marzo;
    abril; mayo; junio; julio; agosto; septiembre; octubre; noviembre; diciembre; gennaio; febbraio; aprile; maggio;
    giugno; luglio; settembre; ottobre; dicembre; januari; februari; maart; mei; augustus
""")
)
_PERIOD = (
    rf"(?:{_MONTHS})\.?(?:\W+(?:\d{{4}}|'?\d{{2}}))?|[12]\d{{3}}(?:[-/.](?:0?[1-9]|1[0-2]))?|(?:0?[1-9]|1[0-2])[/.][12]\d{{3}}"
    r"|q[1-4](?:\W+\d{2,4})?|(?:[1-4]\.?\s*)?(?:quarter|quartal|trimestre|kwartaal)(?:\W+\d{2,4})?"
    r"|(?:week|kw|woche|semaine|semana|settimana)\W*\d{1,2}|year[ -]to[ -]date|month[ -]to[ -]date|ytd|mtd"
    r"|(?:this|last) year|jahr|year|month|monat|mois|mes|mese|maand|année|año|anno|jaar"
)
_SUM = (
    r"(?:(?:grand|sub|running|monthly|yearly|annual|overall|period|gross|net|sales)[\s-]*)*totals?|sums?"
    r"|(?:gesamt|zwischen|monats|jahres)?summe|gesamt(?:betrag|umsatz|erlös)?|(?:sous|sub)[\s-]?total|somme|suma|totale?|totaal"
    r"|eindtotaal|subtotaal|umsatz|revenue|takings|turnover|omzet|fatturato|chiffre d'affaires"
)
_BESIDE = (
    r"for|of|the|sales?|sold|in|to|so far|all|items?|orders?|usd|eur|gbp|cad|aud|chf|[$€£]|für|im|der|alle|verkäufe"
    r"|pour|du|de|des|ventes|en|ventas|di|vendite|per|van|voor|verkopen|général|general|generale|[-–:=().,/]|\d{4}"
)
_FIGURE = (
    r"avg|average|mean|median|ø|durchschnitt|schnitt|moyenne|promedio|media|gemiddelde?|best|worst|highest|lowest|biggest"
    r"|max(?:imum)?|min(?:imum)?|number|count|anzahl|nombre|número|numero|aantal|profit|gewinn|bénéfice|beneficio|utile|winst"
    r"|fees?|gebühren|frais|comisiones|commissioni|expenses?|costs?|kosten|ausgaben|gastos|spese|balance|saldo|goal|target"
)
_PERIOD_ONLY = re.compile(rf"(?:{_PERIOD})(?:\s*(?:[-–/&]|to|and|bis|und|et|y|e|en)\s*(?:{_PERIOD}))?", re.IGNORECASE)
_FIGURE_WORDS = re.compile(
    rf"(?:(?:net|gross|my|total|monthly|yearly)\s+)*(?:{_FIGURE})\b\.?"
    rf"(?:\W+(?:{_BESIDE}|{_PERIOD}|{_FIGURE}|day|price|prices|value|net|gross|(?:verkaufs)?preis|prix|precio|prezzo|prijs)\b)*\W*",
    re.IGNORECASE,
)
_SUM_WORDS = re.compile(
    rf"(?:(?:{_BESIDE})\s*)*(?:(?:{_PERIOD})\s*(?:{_BESIDE})*\s*)?(?:{_SUM})(?:\s*(?:{_BESIDE})|\s*(?:{_PERIOD})\b)*",
    re.IGNORECASE,
)
_LONGEST = 60  # characters


def names_period(cell: Cell) -> bool:
    """True for the name of a month, a quarter or a year and nothing else.

    Examples
    --------
    >>> [names_period(cell) for cell in ("February", "März 2026", "Year to date", "Q1 2026", "March hare mug")]
    [True, True, True, True, False]
    >>> names_period("Jan - Mar 2026"), names_period("Week 2")
    (True, True)
    """
    text = plain_text(cell).strip(" :.")
    return 0 < len(text) <= _LONGEST and bool(_PERIOD_ONLY.fullmatch(text))


def names_sum_of_period(cell: Cell) -> bool:
    """True for words that say total, of a stretch of time or of all, and name no goods.

    Examples
    --------
    >>> [names_sum_of_period(cell) for cell in ("Total for March", "Grand total (USD)", "Summe Februar", "Total gym")]
    [True, True, True, False]
    """
    text = plain_text(cell).strip(" :.")
    return 0 < len(text) <= _LONGEST and bool(_SUM_WORDS.fullmatch(text))


def names_figure(cell: Cell) -> bool:
    """True for words that say a mean, an extreme, a count or a cost of sales, and name no goods.

    Examples
    --------
    >>> [names_figure(cell) for cell in ("Avg. sale", "Best month", "Net profit 2026", "Best friends mug", "Max")]
    [True, True, True, False, True]
    """
    text = plain_text(cell).strip(" :.")
    return 0 < len(text) <= _LONGEST and bool(_FIGURE_WORDS.fullmatch(text))
