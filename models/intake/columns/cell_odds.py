"""Which columns of a manifest do cells tell, whatever the header says, or though it usually says another?

The weights are rules of thumb, common practice, no source; tests hold what they decide, not their size.
"""

from collections.abc import Collection

from models.intake.columns.evidence import content_fit
from models.intake.columns.glances import Glance
from models.intake.columns.header_words import about_people

_CODES_OR_NAMES = frozenset({"item", "style"})  # headers of the name of what is sold, unless their cells are codes
_CODES = 2.5
_CONDITIONS = 2.3  # with the share of such cells: above what is a mere guess, below what a header names
_SHORTEST_CODE = 4  # characters
_HALF, _MOST = 0.5, 0.8


def by_cells(header: str, seen: Glance, named: Collection[str]) -> dict[str, float]:
    """{column: log-odds} of what a column's cells tell beside its header.

    Parameters
    ----------
    header : str
        Plain words.
    seen : Glance
        What its cells look like.
    named : collection of str
        The columns that the header names: what it says of them is weighed elsewhere.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> by_cells("item", glance(["K-1041", "118203"]), ["description"])
    {'sku': 3.0}
    >>> by_cells("return status", glance(["New", "Open box"]), []), by_cells("zork", glance(["Mug", "Jug"]), [])
    ({'condition': 3.3}, {})
    """
    odds = {}
    if header in _CODES_OR_NAMES and _are_codes(seen):
        odds["sku"] = _CODES + content_fit("sku", seen)
    says_condition = seen.condition > _HALF and seen.condition > seen.region
    if "condition" not in named and says_condition and not about_people(header):
        odds["condition"] = _CONDITIONS + seen.condition
    return odds


def _are_codes(seen: Glance) -> bool:
    """Most are one word with digits in it, and do not count the rows from one."""
    filled = [text for text in seen.texts if text]
    codes = sum(len(text) >= _SHORTEST_CODE and " " not in text and any(map(str.isdigit, text)) for text in filled)
    from_one = seen.rising and min(filter(None, seen.numbers), default=0.0) <= 1
    return codes > _MOST * len(filled) and not from_one and seen.cents < _HALF
