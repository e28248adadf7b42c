"""Which rows of several files of one history stand in more than one?  Each counts once, and it is named."""

from collections import Counter
from collections.abc import Hashable, Sequence

from models.values.problems import Caution
from models.values.sale_parts import SalePart

_MARKS = (
    "title", "sku", "gtin", "order_ref", "listing_ref", "sold_price", "asking_price", "quantity", "condition", "fees",
    "refunded", "shipping_paid",
)  # fmt: skip
_DAYS = ("listed_on", "sold_on")
_MOST_NAMED = 6


def overlap_cautions(named: Sequence[tuple[str, SalePart]]) -> tuple[Caution, ...]:
    """One caution for each file with rows that an earlier file holds too.

    Parameters
    ----------
    named : sequence of (str, SalePart)
        Files in the order they came.

    Examples
    --------
    >>> from models.intake.history import read_history
    >>> part = read_history(b"order,title,sold_price\\nO1,Mug,8\\n", "a.csv", {}, "USD").part
    >>> overlap_cautions([("a.csv", part), ("b.csv", part)])[0].what
    'b.csv: all its rows (1) stand in a.csv too: each was counted once.'
    """
    cautions = []
    keys = [_keys(part) for _, part in named]
    known = [Counter(file) for file in keys]
    for number, (name, part) in enumerate(named):
        rows = _known_rows(keys[number], known[:number])
        if not rows:
            continue
        shared = [sum((known[number] & other).values()) for other in known[:number]]
        whose = named[shared.index(max(shared))][0] if max(shared) == len(rows) else "earlier files"
        cautions.append(_said(name, whose, [int(part.sales.row[row]) for row in rows], len(part)))
    return tuple(cautions)


def _keys(part: SalePart) -> list[Hashable]:
    """What each row says; NaN is no number here, since it does not equal itself."""
    columns = [[None if cell != cell else cell for cell in getattr(part.sales, name).tolist()] for name in _MARKS]
    columns += [getattr(part.sales, name).astype(str).tolist() for name in _DAYS]
    return list(zip(part.role.tolist(), *columns, strict=True))


def _known_rows(keys: Sequence[Hashable], earlier: Sequence[Counter[Hashable]]) -> list[int]:
    """The k-th equal row of a file is the k-th of another."""
    times: Counter[Hashable] = Counter()
    rows = []
    for row, key in enumerate(keys):
        times[key] += 1
        if any(file[key] >= times[key] for file in earlier):
            rows.append(row)
    return rows


def _said(name: str, whose: str, rows: Sequence[int], length: int) -> Caution:
    if len(rows) == length:
        what = f"{name}: all its rows ({length:,}) stand in {whose} too: each was counted once."
        return Caution(what, "See whether you meant to give another file.")
    listed = ", ".join(map(str, rows[:_MOST_NAMED])) + (", ..." if len(rows) > _MOST_NAMED else "")
    which, stand = (f"row {listed}", "stands") if len(rows) == 1 else (f"rows {listed}", "stand")
    what = f"{name}: {len(rows):,} of its {length:,} rows {stand} in {whose} too ({which}): each was counted once."
    return Caution(what, "Nothing is to be done where the files overlap on purpose.")
