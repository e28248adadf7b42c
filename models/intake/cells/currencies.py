"""Which currency does a cell say it is in?  Signs and codes are read and compared, amounts are never converted."""

import re
from collections.abc import Iterable

from models.intake.cells.word_lists import word_list

_CODES = frozenset(
    word_list("""
    AED; ARS; AUD; BGN; BHD; BRL; CAD; CHF; CLF; CLP; CNY; COP; CZK; DKK; EGP; EUR; GBP; HKD; HUF; IDR; ILS;
    INR; IQD; ISK; JOD; JPY; KES; KRW; KWD; LYD; MAD; MXN; MYR; NGN; NOK; NZD; OMR; PEN; PHP; PKR; PLN; QAR;
    RON; RUB; SAR; SEK; SGD; THB; TND; TRY; TWD; UAH; USD; UYU; UYW; VND; XAF; XOF; ZAR
""")
)
# Who writes its money with the sign: common practice, no source.
_SIGNS: dict[str, frozenset[str]] = {
    "$": frozenset(["USD", "AUD", "CAD", "NZD", "SGD", "HKD", "TWD", "MXN", "ARS", "CLP", "COP", "UYU"]),
    "£": frozenset({"GBP", "EGP"}),
    "€": frozenset({"EUR"}),
    "¥": frozenset({"JPY", "CNY"}),
    "₹": frozenset({"INR"}),
    "₩": frozenset({"KRW"}),
    "₺": frozenset({"TRY"}),
    "₽": frozenset({"RUB"}),
    "₪": frozenset({"ILS"}),
    "₫": frozenset({"VND"}),
    "₱": frozenset({"PHP"}),
    "₴": frozenset({"UAH"}),
    "฿": frozenset({"THB"}),
    "zł": frozenset({"PLN"}),
    "kč": frozenset({"CZK"}),
    "ft": frozenset({"HUF"}),
    "lei": frozenset({"RON"}),
    "kr": frozenset({"SEK", "NOK", "DKK", "ISK"}),
    "fr": frozenset({"CHF"}),
    "rs": frozenset({"INR", "PKR"}),
    "us$": frozenset({"USD"}),
    "u.s.$": frozenset({"USD"}),
    "c$": frozenset({"CAD"}),
    "ca$": frozenset({"CAD"}),
    "a$": frozenset({"AUD"}),
    "au$": frozenset({"AUD"}),
    "nz$": frozenset({"NZD"}),
    "s$": frozenset({"SGD"}),
    "hk$": frozenset({"HKD"}),
    "nt$": frozenset({"TWD"}),
    "mx$": frozenset({"MXN"}),
    "r$": frozenset({"BRL"}),
    "$us": frozenset({"USD"}),
    "$ca": frozenset({"CAD"}),
    "r": frozenset({"ZAR"}),
    "rm": frozenset({"MYR"}),
    "tl": frozenset({"TRY"}),
    "руб": frozenset({"RUB"}),
    "р": frozenset({"RUB"}),
    "円": frozenset({"JPY"}),
    "元": frozenset({"CNY"}),
}
_MEANINGS = _SIGNS | {code.lower(): frozenset({code}) for code in _CODES}


def _pattern(marks: Iterable[str]) -> re.Pattern[str]:
    parts = []
    for mark in sorted(marks, key=len, reverse=True):
        before = r"(?<![^\W\d_])" if mark[0].isalpha() else ""
        after = r"(?![^\W\d_])\.?" if mark[-1].isalpha() else ""
        spelled = re.escape(mark).replace(r"\$", r"\s?\$\s?") if len(mark) > 1 else re.escape(mark)  # "US $12"
        parts.append(before + spelled + after)
    return re.compile("|".join(parts), re.IGNORECASE)


_IN_CELLS = _pattern(_MEANINGS)
_IN_HEADERS = re.compile(
    r"(?<![^\W\d_])(?:" + "|".join(sorted(_CODES)) + r")(?![^\W\d_])|(?<![^\W\d_])(?:zł|kč|kr|lei)(?![^\W\d_])|"
    r"(?<![^\W\d_])(?:us|ca|au|nz|hk|nt|mx)\s?\$|(?<![^\W\d_])[acsr]\$|[$£€¥₹₩₺₽₪₫₱₴฿]",
    re.IGNORECASE,
)
_NAMED_MONEY = {"euro": "eur", "euros": "eur", "us dollars": "usd", "canadian dollars": "cad", "sterling": "gbp"}
_IN_WORDS = re.compile(
    rf"(?:\b(?i:in|currency|prices?)\b|\d)\W{{0,3}}(?:({'|'.join(sorted(_CODES))})\b|((?i:{'|'.join(_NAMED_MONEY)}))\b)|"
    rf"\b({'|'.join(sorted(_CODES))})\s?\d"
)
_LETTERED = frozenset({"zł", "kč", "kr", "lei"})  # signs that no other word of a header is


def marks_in(text: str) -> list[str]:
    """Currency signs and codes of a money cell, in lower case and without blanks.

    Examples
    --------
    >>> marks_in("US $12"), marks_in("1.234,50 EUR"), marks_in("$12 AUD"), marks_in("12")
    (['us$'], ['eur'], ['$', 'aud'], [])
    """
    return ["".join(found.lower().rstrip(".").split()) for found in _IN_CELLS.findall(text)]


def surest(marks: Iterable[str]) -> str:
    """The mark that leaves the fewest currencies; "" for none.

    Examples
    --------
    >>> surest(["$", "aud"]), surest([])
    ('aud', '')
    """
    return min(marks, key=lambda mark: len(_MEANINGS[mark]), default="")


def amount_without_marks(text: str) -> str:
    """A money cell without its currency signs and codes.

    Examples
    --------
    >>> amount_without_marks("-$ 12"), amount_without_marks("12 kr.")
    ('-  12', '12  ')
    """
    return _IN_CELLS.sub(" ", text)


def header_marks(header: str) -> list[str]:
    """Currency signs and codes of a header; words such as "try" and "all" are only codes in capitals.

    Examples
    --------
    >>> header_marks("Unit Retail (EUR)"), header_marks("Cost $"), header_marks("Try on"), header_marks("Cena [zł]")
    (['eur'], ['$'], [], ['zł'])
    >>> header_marks("Price (US $)"), header_marks("Cost$")
    (['us$'], ['$'])
    """
    found = _IN_HEADERS.findall(header)
    return ["".join(mark.lower().split()) for mark in found if _is_mark(mark)]


def marks_said(text: str) -> list[str]:
    """Currency signs of a title or note, and codes where it says that its amounts are in them.

    Examples
    --------
    >>> marks_said("All prices in GBP"), marks_said("Total retail: €165.00"), marks_said("CAD drawings, try them")
    (['gbp'], ['€'], [])
    """
    codes = [code or _NAMED_MONEY.get(money.lower(), "") or before for code, money, before in _IN_WORDS.findall(text)]
    return [code.lower() for code in codes] + [mark for mark in header_marks(text) if not mark.isalpha()]


def without_marks(header: str) -> str:
    """A header without its currency signs and codes.

    Examples
    --------
    >>> without_marks("Unit Retail (EUR)")
    'Unit Retail ( )'
    """
    return _IN_HEADERS.sub(lambda found: " " if _is_mark(found[0]) else found[0], header)


def _is_mark(text: str) -> bool:
    return text.isupper() or not text.isalpha() or text.lower() in _LETTERED


def fits(mark: str, currency: str) -> bool:
    """True if a mark can mean the currency.

    Examples
    --------
    >>> fits("$", "CAD"), fits("€", "USD"), fits("us$", "CAD")
    (True, False, False)
    """
    return currency in _MEANINGS.get(mark, frozenset())


def contradict(marks: Iterable[str]) -> bool:
    """True if no one currency can be meant by all marks.

    Examples
    --------
    >>> contradict(["$", "us$"]), contradict(["$", "€"]), contradict([])
    (False, True, False)
    """
    meanings = [_MEANINGS[mark] for mark in marks]
    return bool(meanings) and not frozenset.intersection(*meanings)
