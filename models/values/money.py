"""How is money written and rounded?  Integer minor units inside, decimal strings in major units outside (ISO 4217)."""

import math
from decimal import ROUND_HALF_EVEN, Decimal, InvalidOperation

from models.values.errors import Rejected

# ISO 4217 list one, column "minor unit"; every code not named here has two.
_NO_DIGITS = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THREE_DIGITS = "BHD IQD JOD KWD LYD OMR TND"
_FOUR_DIGITS = "CLF UYW"
# ISO 4217 list one, active codes of money, as known by heart in 2026.
_CODES = frozenset(
    """
    AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD
    CDF CHE CHF CHW CLF CLP CNY COP COU CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS
    GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD
    KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK
    NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP
    STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD USN UYI UYU UYW UZS VED VES VND VUV WST
    XAF XCD XCG XOF XPF YER ZAR ZMW ZWG
    """.split()  # noqa: SIM905  180 quoted words would be three pages
)
# Signs that a reader of English cannot take for another currency's; every other amount begins with its code.
_SIGNS = {"USD": "$", "EUR": "€", "GBP": "£", "JPY": "¥", "INR": "₹", "KRW": "₩"}
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
        If it is not a code of the standard.

    References
    ----------
    ISO 4217:2015, list one.

    Examples
    --------
    >>> [minor_digits(code) for code in ("USD", "JPY", "KWD", "CLF")]
    [2, 0, 3, 4]
    """
    if currency not in _CODES:
        raise Rejected(f"'{currency}' is not a currency code of ISO 4217: three capital letters such as USD")
    return _DIGITS.get(currency, 2)


def is_currency(code: str) -> bool:
    """Is it a code of ISO 4217?

    Examples
    --------
    >>> is_currency("USD"), is_currency("dollars")
    (True, False)
    """
    return code in _CODES


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


def in_words(minor: float, currency: str) -> str:
    """An amount as a sentence writes it: sign or code, thousands apart, no cents where they are zero.

    Parameters
    ----------
    minor : float
        [minor units], rounded half-even to whole ones.
    currency : str
        ISO 4217.

    Examples
    --------
    >>> in_words(133990, "USD"), in_words(1899900, "USD"), in_words(-123456, "JPY")
    ('$1,339.90', '$18,999', '−¥123,456')
    >>> in_words(150000, "CHF").split()
    ['CHF', '1,500']
    """
    exact = Decimal(written(minor, currency))
    digits = f"{abs(exact):,}"
    whole, _, cents = digits.partition(".")
    said = digits if cents.strip("0") else whole
    return ("−" if exact < 0 else "") + _SIGNS.get(currency, f"{currency}\N{NO-BREAK SPACE}") + said
