"""How does an amount leave?  As a decimal string in major units, null where there is none."""

from models.values.money import written


def amount(minor: float | None, currency: str) -> str | None:
    """The written amount."""
    return None if minor is None else written(minor, currency)
