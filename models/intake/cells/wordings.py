"""How does a header read once case, signs, accents and abbreviations are gone?  Headers and trade words meet here."""

import re
import unicodedata

from models.intake.cells.currencies import without_marks
from models.intake.cells.tax_words import without_tax_words
from models.intake.grid import Cell, written_cell

_HUMP = re.compile(r"(?<=[a-z])(?=[A-Z])")
_NOT_WORD = re.compile(r"[^0-9a-z]+")
_SAME = {
    "no": "number", "nr": "number", "num": "number", "nbr": "number", "amt": "amount", "desc": "description",
    "descr": "description", "ext": "extended", "extd": "extended", "ea": "each", "cond": "condition",
    "cat": "category", "ship": "shipping", "qnty": "qty", "quant": "qty", "quantity": "qty", "quantities": "qty",
    "pcs": "pieces", "pc": "pieces", "pct": "percent", "wt": "weight", "mfr": "manufacturer", "mfg": "manufacturer",
    "min": "minutes", "mins": "minutes", "minute": "minutes", "prod": "product", "sell": "selling",
    "orig": "original", "canceled": "cancelled", "ges": "gesamt", "unt": "unit", "in": "", "per": "", "the": "",
    "of": "", "a": "", "an": "",
    "de": "", "du": "", "des": "", "del": "", "della": "", "di": "", "la": "", "le": "", "les": "", "el": "", "al": "",
    "l": "", "d": "", "der": "", "die": "", "das": "", "von": "", "van": "", "het": "", "een": "", "un": "", "une": "",
    "en": "", "par": "", "por": "", "pro": "", "je": "", "nbre": "nombre",
}  # fmt: skip


def plain_words(header: Cell) -> str:
    """The header as lower-case words: accents folded, currency marks gone, abbreviations spelled out.

    Examples
    --------
    >>> plain_words("Ext. Retail (USD)"), plain_words("unitRetail\\n"), plain_words("Item #:"), plain_words("Menge à")
    ('extended retail', 'unit retail', 'item number', 'menge')
    """
    text = _HUMP.sub(
        " ", without_marks(without_tax_words(written_cell(header)).replace("#", " number ").replace("%", " percent "))
    )
    text = unicodedata.normalize("NFKD", text).casefold()
    text = "".join(character for character in text if not unicodedata.combining(character))
    words = (_SAME.get(word, word) for word in _NOT_WORD.sub(" ", text).split())
    return " ".join(word for word in words if word)
