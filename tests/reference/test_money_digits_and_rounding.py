"""ISO 4217 list one: minor units 0, 3 and 4, else 2.  Rounding half-even: IEEE 754-2019, 4.3.1 (ties to even).

Pairs: .5 0, 2.5 2, -2.5 -2, 2.665 2.66, 1.005 1.00, .125 .12; half away from zero would give 1, 3, -3, 2.67, 1.01, .13.
"""

import pytest

from models.intake.cells.amounts import read_amounts
from models.values.money import minor_digits, to_minor, whole_minor, written

DIGITS = {
    0: "JPY KRW VND CLP ISK BIF DJF GNF KMF PYG RWF UGX UYI VUV XAF XOF XPF",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
    2: "USD EUR GBP CHF CAD AUD PLN SEK HUF INR",
}


@pytest.mark.parametrize(
    ("digits", "code"), [(digits, code) for digits, codes in DIGITS.items() for code in codes.split()]
)
def test_minor_units(digits: int, code: str) -> None:
    assert minor_digits(code) == digits
    assert len(written(0, code).partition(".")[2]) == digits


@pytest.mark.parametrize(
    ("major", "minor"), [("0.005", 0), ("0.025", 2), ("-0.025", -2), ("2.665", 266), ("1.005", 100), ("0.125", 12)]
)
def test_ties_go_to_even(major: str, minor: int) -> None:
    """1.005 is a trap: as a binary fraction it lies below the tie."""
    assert whole_minor(to_minor(major, "USD")) == minor


@pytest.mark.parametrize(
    ("cell", "code", "shown"),
    [
        ("1,234.50", "USD", "1234.50"),
        ("1234", "JPY", "1234"),
        ("1.234", "KWD", "1.234"),
        ("1.2345", "CLF", "1.2345"),
        (0.1 + 0.2, "USD", "0.30"),
    ],
)
def test_what_is_read_is_what_is_written(cell: str | float, code: str, shown: str) -> None:
    assert written(read_amounts({"cost": [cell]}, code, False)["cost"].minor[0], code) == shown
