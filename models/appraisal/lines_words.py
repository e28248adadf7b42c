"""How many lines of the lot does a caution mean?  All, none and a lot's only line are said as such."""

from models.values.problems import Caution


def part_of(count: int, total: int) -> str:
    """`2 of 3 lines`, `all 3 lines`, `the only line`."""
    if total == 1:
        return "the only line"
    return f"all {total:,} lines" if count == total else f"{count:,} of {total:,} lines"


def unknown_condition(count: int, total: int) -> Caution:
    """Lines whose condition nobody said."""
    counts = "It counts" if count == 1 else "They count"
    return Caution(
        f"Without a condition that we know: {part_of(count, total)}. {counts} as untested goods.",
        "Look at the photos, or ask the seller what condition they are in.",
    )


def priced_as_tested(count: int, total: int, dead_share: float, sales: int, share: float) -> Caution:
    """Untested lines; `sales` were made as untested at `share` of what working ones fetch."""
    own = ""
    if sales and share < 1:
        less = f"{1 - share:.0%} less than working ones"
        own = f" Sold as untested, as {sales:,} of your sales were, they fetch about {less}."
    is_or_are, counts = ("is", "It counts") if count == 1 else ("are", "They count")
    return Caution(
        f"{_first(part_of(count, total))} {is_or_are} untested. {counts} as goods that you test and then sell as"
        f" working, {dead_share:.0%} of them dead.{own}",
        "If you sell them as they come, bid lower, or raise the share that is dead.",
    )


def listed_too_late(count: int, total: int) -> Caution:
    """Lines that could not sell in time."""
    counts = "it counts" if count == 1 else "they count"
    return Caution(
        f"{_first(part_of(count, total))} would be listed too late to sell within the weeks you allow: {counts} as left"
        " over.",
        "Check your listing hours and what already waits.",
    )


def sold_before(count: int, total: int, elsewhere: int = 0, untold: int = 0) -> Caution:
    """Lines that are products of the seller's own history.

    `elsewhere` of them are in a condition they were not sold in, `untold` of them in none that we know.
    """
    beside = _beside(count, elsewhere, untold)
    if count == total:
        said = "is a product" if total == 1 else "are products"
        return Caution(
            f"{_first(part_of(count, total))} {said} you have sold before{beside}.",
            "Check that the condition is the one you sold them in.",
        )
    return Caution(_partly(count, total, beside), "What to look up first tells which of the others matter most.")


def _partly(count: int, total: int, beside: str) -> str:
    if total == 1:
        return "You have never sold the lot's only product before; its price rests on goods like it."
    if count == 0:
        return f"None of the {total:,} lines is a product you have sold before; all rest on goods like them."
    said = "is a product" if count == 1 else "are products"
    return f"{count:,} of {total:,} lines {said} you have sold before{beside}; the others rest on goods like them."


def _beside(count: int, elsewhere: int, untold: int) -> str:
    """How many of the products sold before come in a condition that own sales say less of."""
    told = ((elsewhere, "in another condition than you sold"), (untold, "without a condition that we know"))
    if count == 1:
        return "".join(f", but {how}" for number, how in told if number)
    return "".join(f", {'all' if number == count else f'{number:,}'} of them {how}" for number, how in told if number)


def _first(said: str) -> str:
    return said[:1].upper() + said[1:]
