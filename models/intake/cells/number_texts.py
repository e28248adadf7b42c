"""What number does a text write?  Which sign is the decimal one is decided for a whole column, never for one cell."""

import re
from collections import Counter
from collections.abc import Iterable
from decimal import Decimal

_SPACED_GROUPS = re.compile(r"(?<=\d)[ '’](?=\d{3}(?!\d))")
_SHAPE = re.compile(r"\d[\d.,]*|[.,]\d+")
_MINUS = "-−–"
_DASH_CENTS = re.compile(r"[.,]\s*[-–—]+$")  # 12,- and 12.–
_MAYBE = {",": "?,", ".": "?."}  # "1,234" and "1.234": three digits after a single sign say nothing


def bare(text: str) -> tuple[str, bool]:
    """Digits, points and commas of a number, and whether it is below zero; ("", False) if it is no number.

    Examples
    --------
    >>> bare("(1 234,50)"), bare("12.00-"), bare("- 5"), bare("1'234.50"), bare("abc")
    (('1234,50', True), ('12.00', True), ('5', True), ('1234.50', False), ('', False))
    """
    text = _DASH_CENTS.sub("", text.strip()).strip()
    below = False
    if text.startswith("(") and text.endswith(")"):
        text, below = text[1:-1].strip(), True
    if text[:1] in _MINUS and text:
        text, below = text[1:].strip(), True
    elif text[-1:] in _MINUS and text:
        text, below = text[:-1].strip(), True
    text = _SPACED_GROUPS.sub("", text.removeprefix("+").strip())
    return (text, below) if _SHAPE.fullmatch(text) else ("", False)


def decimal_sign(core: str) -> str | None:
    """What a number says about its column's decimal sign.

    Returns
    -------
    str or None
        "." or "," where the number shows it, "" where there is nothing to tell, "?." or "?," where that sign may
        be either, None if the number is malformed.

    Examples
    --------
    >>> [decimal_sign(core) for core in ("1,234.50", "12,5", "1.234.567", "1,234", "12", "1,2,3")]
    ['.', ',', ',', '?,', '', None]
    """
    points, commas = core.count("."), core.count(",")
    if not points and not commas:
        return ""
    if points and commas:
        decimal = "." if core.rfind(".") > core.rfind(",") else ","
        group = "," if decimal == "." else "."
        head, _, _ = core.rpartition(decimal)
        return decimal if core.count(decimal) == 1 and _grouped(head, group) else None
    sign = "." if points else ","
    if points + commas > 1:
        return ("," if sign == "." else ".") if _grouped(core, sign) else None
    head, _, tail = core.partition(sign)
    if len(tail) == 3 and 1 <= len(head) <= 3 and not head.startswith("0"):
        return _MAYBE[sign]
    return sign


def _grouped(head: str, group: str) -> bool:
    """Groups of three, or of two before the last as in 1,23,456."""
    first, *others = head.split(group)
    if not others:
        return True
    return 1 <= len(first) <= 3 and len(others[-1]) == 3 and all(len(part) in (2, 3) for part in others)


def decimal_of(core: str, comma: bool) -> tuple[Decimal | None, bool]:
    """The number, and whether its own shape contradicts the column's decimal sign.

    Parameters
    ----------
    core : str
        From `bare`.
    comma : bool
        The column writes a decimal comma.

    Examples
    --------
    >>> decimal_of("1.234", comma=True), decimal_of("1.234", comma=False), decimal_of("12.50", comma=True)
    ((Decimal('1234'), False), (Decimal('1.234'), False), (Decimal('12.50'), True))
    """
    style = "," if comma else "."
    sign = decimal_sign(core)
    if sign is None:
        return None, False
    if sign.startswith("?"):
        plain = core.replace(",", ".") if sign[1] == style else core.replace(sign[1], "")
        return Decimal(plain), False
    group = "." if sign == "," else ","
    plain = core.replace(group, "").replace(",", ".").rstrip(".") if sign else core
    return Decimal(plain), bool(sign) and sign != style


def votes(cores: Iterable[str]) -> Counter[str]:
    """How often each answer of `decimal_sign` is given by a column.

    Examples
    --------
    >>> sorted(votes(["1,50", "2,75", "1.234"]).items())
    [(',', 2), ('?.', 1)]
    """
    return Counter(sign for core in cores if core and (sign := decimal_sign(core)))


def writes_comma(column: Counter[str], whole_file: Counter[str], digits: int, likely: bool) -> bool:
    """Does a column write a decimal comma?  Its own evidence, else the file's, else what is usual.

    Parameters
    ----------
    column, whole_file : Counter
        Votes of this column and of all columns of money.
    digits : int
        Digits after the decimal sign that the currency has: with other than three, "1.234" alone is a thousand.
    likely : bool
        Nothing else being known.

    Examples
    --------
    >>> writes_comma(votes(["1,50"]), Counter(), 2, False), writes_comma(votes(["1.234", "5"]), Counter(), 2, False)
    (True, True)
    """
    for counted in (column, whole_file):
        if counted[","] != counted["."]:
            return counted[","] > counted["."]
    if digits != 3 and column["?."] != column["?,"]:
        return column["?."] > column["?,"]
    return likely
