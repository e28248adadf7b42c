"""What stands inside a sold price that is none of it: postage, sales tax?"""

import re
from collections.abc import Mapping

import numpy as np

from models.intake.cells.amounts import Amounts, read_amounts
from models.intake.cells.reading import AS_WRITTEN
from models.intake.cells.tax_words import tax_inside
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.fields.unread_money import money_unread
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray
from models.values.problems import Caution

_INSIDE = frozenset(
    word_list("""
    incl; including; included; includes; inclusive; with; plus; inkl; inklusive; einschliesslich; mit; samt; avec;
    compris; comprise; comprises; inclus; incluse; inclusief; met; plus; con; incluido; incluida; incluidos; incluidas;
    incluye; compreso; compresa; comprese; incluso; inclusa; z; wraz; total; gross; brutto; paid
""")
)
_POSTAGE = frozenset(
    word_list("""
    shipping; postage; delivery; p; carriage; versand; versandkosten; versandgebuhr; versandgebuhren; porto;
    portokosten; lieferung; port; livraison; expedition; envio; envios; portes; spedizione; spedizioni; consegna;
    verzending; verzendkosten; verzendkost; portokost; bezorging; wysylka; wysylki; wysylke; dostawa; dostawy
""")
)
_TAX = frozenset({"tax", "taxes", "vat", "gst", "mwst", "ust", "tva", "ttc", "iva", "btw"})
_GROSS_PRICE = re.compile(  # "gross amount" may be what fees are still to be taken from
    r"\b(?:gross|brutto|brut|bruto|lord[oa])\b.*(?:price|preis|vk|prix|precio|prezzo|prijs)\b"
    r"|(?:price|preis|vk|prix|precio|prezzo|prijs)\b.*\b(?:gross|brutto|brut|bruto|lord[oa])\b|\bbrutto\w*preis\b"
)
_MOST, _FEW = 0.9, 2  # of the rows with a tax, and rows, whose sums must come out
_CLOSE = 1.0  # minor unit
_OUTSIDE = frozenset(
    word_list("""
    excl; excluding; exclusive; without; before; net; ohne; exkl; exklusive; zzgl; hors; sans; sin; ex; exclusief;
    zonder; senza; escluso; esclusa; escluse; netto; bez; not
""")
)


def price_alone(
    table: Table,
    price: FloatArray,
    quantity: IntArray,
    amounts: dict[str, Amounts],
    currency: str,
    findings: Findings,
) -> tuple[FloatArray, tuple[Caution, ...]]:
    """Sold price of a unit without the postage and tax that its header says are inside.

    Parameters
    ----------
    table : Table
        The file.
    price : ndarray of shape (n_rows,)
        As read [minor units a unit].
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    amounts : dict
        Money columns [minor units a row]: postage charged and tax are taken out where the file has them.
    currency : str
        ISO 4217.
    findings : Findings
        Told of prices that are less than what should stand inside.

    Returns
    -------
    tuple
        [minor units a unit], and a caution for what stands inside, whether it was taken out or is not told.
    """
    header = table.headers.get("sold_price", "")
    cautions: list[Caution] = []
    proven = _tax_by_sums(table, amounts, quantity, currency)
    for name, what in _inside(header, proven):
        if name not in amounts:
            said = (
                f"The prices in '{header}' have {what} inside, and no column tells how much: they are too high by it."
            )
            cautions.append(Caution(said, f"Give a price without {what}, or a column with the {what} of each sale."))
            continue
        inside = np.nan_to_num(amounts[name].minor) / np.maximum(quantity, 1)
        bad = inside >= price
        findings.name_where(bad, name, table.columns[name], f"more {what} than the whole price", AS_WRITTEN)
        price = np.where(bad, price, price - inside)
        said = f"Prices in '{header}' have {what} inside: what '{table.headers[name]}' tells of it was taken out."
        cautions.append(Caution(said, f"See that they do; your local rules say what of {what} is yours to keep."))
    return price, tuple(cautions)


def postage_inside(header: str) -> bool:
    """True for the header of a price that says that postage is in it.

    Examples
    --------
    >>> postage_inside("Total incl. shipping"), postage_inside("Sold price")
    (True, False)
    """
    return any(name == "shipping_charged" for name, _ in _inside(header, None))


def _tax_by_sums(table: Table, amounts: Mapping[str, Amounts], quantity: IntArray, currency: str) -> bool | None:
    """Whether the column of tax stands inside the price, where price and tax come to a column beside them."""
    if "tax" not in amounts or "sold_price" not in amounts:
        return None
    for total in read_amounts(money_unread(table), currency, table.comma_likely).values():
        rows = len(total.minor)
        price, tax = (amounts[name].minor[:rows] for name in ("sold_price", "tax"))
        for whole in (price, price * quantity[:rows]):
            for inside, made in ((True, whole - tax), (False, whole + tax)):
                both = np.isfinite(made) & np.isfinite(total.minor) & (tax > 0)
                if both.sum() >= _FEW and (np.abs(made - total.minor)[both] <= _CLOSE).mean() >= _MOST:
                    return inside
    return None


def _inside(header: str, tax_is: bool | None) -> list[tuple[str, str]]:
    """Columns that tell what a price's header says is inside, and what that is; sums go before the header's words."""
    words = set(plain_words(header).split())  # "incl. tax" is none of them any more
    said = words if words & _INSIDE and not words & _OUTSIDE else set()
    inside = [("shipping_charged", "postage")] if said & _POSTAGE else []
    says_tax = bool(said & _TAX) or tax_inside(header) or bool(_GROSS_PRICE.search(plain_words(header)))
    return [*inside, ("tax", "sales tax")] if (says_tax if tax_is is None else tax_is) else inside
