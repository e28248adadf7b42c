"""How is money written and rounded?  Integer minor units inside, decimal strings in major units outside (ISO 4217)."""

import math
from decimal import ROUND_HALF_EVEN, Decimal, InvalidOperation

from models.values.errors import Rejected

# ISO 4217 list one, column "minor unit"; every code not named here has two.
_NO_DIGITS = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THREE_DIGITS = "BHD IQD JOD KWD LYD OMR TND"
_FOUR_DIGITS = "CLF UYW"
_DIGITS = (
    dict.fromkeys(_NO_DIGITS.split(), 0)
    | dict.fromkeys(_THREE_DIGITS.split(), 3)
    | dict.fromkeys(_FOUR_DIGITS.split(), 4)
)


def minor_digits(currency: str) -> int:
    """Digits after the point of one currency.

    Parameters
    ----------
    currency : str
        ISO 4217 alphabetic code, three capitals.

    Returns
    -------
    int
        Number of digits; two for every code that the standard gives two.

    Raises
    ------
    Rejected
        If the code is not three capital letters.

    References
    ----------
    ISO 4217:2015, list one.

    Examples
    --------
    >>> [minor_digits(code) for code in ("USD", "JPY", "KWD", "CLF")]
    [2, 0, 3, 4]
    """
    if len(currency) != 3 or not currency.isascii() or not currency.isalpha() or not currency.isupper():
        raise Rejected(f"'{currency}' is not a currency code of three capital letters such as USD.")
    return _DIGITS.get(currency, 2)


def to_minor(major: Decimal | float | int | str, currency: str) -> float:
    """Minor units of an amount in major units, not rounded: 1234.5 USD is 123450.0.

    Raises
    ------
    Rejected
        If the amount is not a finite number.

    Examples
    --------
    >>> to_minor("1234.50", "USD"), to_minor(7, "JPY")
    (123450.0, 7.0)
    """
    try:
        exact = Decimal(str(major))
    except InvalidOperation as error:
        raise Rejected(f"'{major}' is not an amount of money.") from error
    if not exact.is_finite():
        raise Rejected(f"'{major}' is not an amount of money.")
    return float(exact.scaleb(minor_digits(currency)))


def whole_minor(amount: float) -> int:
    """The one place money is rounded: half-even to whole minor units.

    Examples
    --------
    >>> [whole_minor(amount) for amount in (0.5, 2.5, -2.5, 266.5)]
    [0, 2, -2, 266]
    """
    return int(Decimal(amount).to_integral_value(rounding=ROUND_HALF_EVEN))


def floor_minor(amount: float) -> int:
    """Whole minor units not above `amount`; a millionth of a unit is forgiven, which is what binary fractions lose.

    Examples
    --------
    >>> floor_minor(230000 / 1.15), floor_minor(99.99)
    (200000, 99)
    """
    return math.floor(amount + 1e-6)


def written(minor: float, currency: str) -> str:
    """Decimal string in major units with exactly the currency's digits.

    Examples
    --------
    >>> written(123450, "USD"), written(1234, "JPY"), written(-5, "KWD")
    ('1234.50', '1234', '-0.005')
    """
    digits = minor_digits(currency)
    return f"{Decimal(whole_minor(minor)).scaleb(-digits):.{digits}f}"
