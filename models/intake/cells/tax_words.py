"""Do words beside an amount say that a tax on sales is inside it, or still to come?  Nothing is ever taken off.

Common practice, no source.
"""

import re

_TAX = r"(?:vat|gst|hst|qst|mwst|ust|tva|iva|btw|moms|(?:sales |purchase )?tax(?:es)?)"
_INSIDE = re.compile(
    rf"\(?\s*(?:\b(?:incl(?:uding|usive|uded|uido|uida)?|inc|inkl(?:usive)?|with|mit|avec|con|compresa)\b\.?\s*(?:of\s+)?(?:all\s+)?{_TAX}\b"
    rf"|\b{_TAX}\s+(?:incl(?:uding|usive|uded|us|use|uido|uida|usa)?|inc|inkl)\b|\bttc\b)\.?\s*\)?",
    re.IGNORECASE,
)
_OUTSIDE = re.compile(
    rf"\(?\s*(?:(?:\b(?:excl(?:uding|usive)?|exc|ex|exkl|zzgl|plus|without|before|net(?:to)? of|hors|senza|sin)\b|\+)"
    rf"\.?\s*(?:of\s+)?{_TAX}\b|\b{_TAX}\s+(?:excl(?:uding|usive|uded|us|uido)?|exc|exkl|extra)\b)\.?\s*\)?",
    re.IGNORECASE,
)


def tax_inside(text: str) -> bool:
    """True if a header or a cell says that a tax on sales is in its amounts.

    Examples
    --------
    >>> [tax_inside(text) for text in ("RRP inc. VAT", "UVP (inkl. MwSt)", "PVP IVA incluido", "RRP ex VAT", "Price")]
    [True, True, True, False, False]
    """
    return bool(_INSIDE.search(text))


def without_tax_words(text: str) -> str:
    """A header or an amount without such words.

    Examples
    --------
    >>> without_tax_words("RRP inc. VAT"), without_tax_words("12.00 + VAT"), without_tax_words("Sales tax")
    ('RRP', '12.00', 'Sales tax')
    """
    without = _OUTSIDE.sub(" ", _INSIDE.sub(" ", text)).strip()
    return without or text
