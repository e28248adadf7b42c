"""Is an amount written with more digits than its money has?"""

from decimal import Decimal

from models.values.money import minor_digits


def digits_fault(exact: Decimal, currency: str) -> str:
    """What is wrong with the digits of a finite amount in major units; blank where nothing is."""
    digits = minor_digits(currency)
    if exact == round(exact, digits):
        return ""
    return f"{currency} has {digits} digits after the point" if digits else f"{currency} has whole amounts only"
