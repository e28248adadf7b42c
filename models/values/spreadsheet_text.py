"""How is a text written into a table that a spreadsheet may open?  So that it is shown, never run."""

RISKY = ("=", "+", "-", "@", "\t", "\r")


def harmless(text: str) -> str:
    """A leading apostrophe before what a spreadsheet would take for a formula.

    Examples
    --------
    >>> harmless("=1+1"), harmless("-3"), harmless("mug")
    ("'=1+1", "'-3", 'mug')
    """
    return "'" + text if text.startswith(RISKY) else text
