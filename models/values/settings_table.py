"""The README's table of every setting, made from the registry: `python -m models.values.settings_table` prints it."""

import sys
from typing import Any

from models.values.fields import Declared, Unit
from models.values.settings import REGISTRY


def settings_table() -> str:
    """Markdown rows of all settings: key, default, range, meaning.

    Examples
    --------
    >>> print(settings_table().splitlines()[2])
    | `currency` | USD |  | Currency of every amount, ISO 4217; amounts are never converted. |
    """
    head = ["| setting | default | common range | meaning |", "|---|---|---|---|"]
    return "\n".join(head + [_row(declared) for declared in REGISTRY.values()])


def _row(declared: Declared) -> str:
    ranged = "" if declared.low is None else f"{_text(declared.low)} to {_text(declared.high)}"
    return f"| `{declared.key}` | {_default(declared)} | {ranged} | {meaning(declared)} |"


def meaning(declared: Declared) -> str:
    """The setting's sentence with its unit and, of a share, what it is a share of.

    Examples
    --------
    >>> meaning(REGISTRY["buying.premium"])
    "Buyer's premium (share of hammer price)."
    """
    unit = {
        Unit.SHARE: f"share of {declared.of_base}" if declared.of_base else "share, 0 to 1",
        Unit.MONEY: "amount",
        Unit.STEPS: "amount",
        Unit.CHOICE: " or ".join(declared.choices),
    }.get(declared.unit, str(declared.unit.value))
    if declared.unit in (Unit.TEXT, Unit.TEXTS, Unit.RIVALS, Unit.COUNT):
        return declared.says
    return f"{declared.says.rstrip('.')} ({unit})."


def _default(declared: Declared) -> str:
    if declared.default is None:
        return "unset"
    return "none" if declared.default == () else _text(declared.default)


def _text(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


if __name__ == "__main__":
    sys.stdout.write(settings_table() + "\n")
