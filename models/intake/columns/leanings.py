"""Of several columns that could be one of ours, which is likelier by a word in its header?  It is asked all the same.

Common practice, no source.
"""

from collections.abc import Mapping

from models.intake.cells.word_lists import word_list


def _weights(likelier: Mapping[float, str]) -> Mapping[str, float]:
    return {word: weight for weight, words in likelier.items() for word in word_list(words)}


_LEANINGS: Mapping[str, Mapping[str, float]] = {
    "quantity": _weights({  # what is in the lot, before what was only ordered or cannot be sold
        0.3: "shipped; sent; loaded; delivered; actual; geliefert; expediee; expediees; enviado; spedito",
        0.2: "received; counted; scanned; erhalten; recue; recues; recibido; ricevuto; ontvangen",
        -0.2: "ordered; requested; expected; planned; bestellt; commandee; commandees; pedido; ordinato",
        -0.3: "damaged; short; missing; backordered; returned; defective; defekt; open; left; bad",
    }),
    "sold_price": _weights({  # what was paid for the goods alone, before what was only asked, offered or shared out
        0.3: "sold; accepted; agreed; final; achieved; realised; realized; zuschlag; adjuge; remate; aggiudicazione",
        0.2: "net; netto; neto; nette",
        -0.2: "gross; brutto; brut; bruto; lordo; total; offer; bid; gebot",
        -0.4: """
            limit; reserve; minimum; counter; start; listed; asking; markdown; reduced; tag; share; estimate; discount;
            discounts; returns; tax; taxes; vat; payout
        """,
    }),
    "title": _weights({
        0.3: "thing; things; what; goods; ware; waren; chose; cosa; cosas",
        -0.4: "where; note; notes; remark; remarks; comment; comments; who; place; wo; bemerkung",
    }),
}  # fmt: skip

# Of units that are not, or not all, in the lot: no part of its sum.
ELSEWHERE = (_LEANINGS["quantity"].keys() - {"damaged", "defective", "defekt", "bad"}) | frozenset(
    word_list("removed; remaining; sold; pulled; held; kept; cancelled; original; rejected; available; reserved")
)


def leaning(column: str, header: str) -> float:
    """Small log-odds that a header's plain words speak for a column, or against it.

    Parameters
    ----------
    column : str
        Canonical column.
    header : str
        Plain words.

    Examples
    --------
    >>> leaning("quantity", "qty shipped") > 0 > leaning("quantity", "qty damaged"), leaning("brand", "qty shipped")
    (True, 0.0)
    """
    weights = _LEANINGS.get(column)
    return sum(weights.get(word, 0.0) for word in header.split()) if weights else 0.0
