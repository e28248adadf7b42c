"""Which headers speak of a fee that each sale is charged?  Not of postage, of subscriptions, or of buyers' own fees.

Common practice, no source.
"""

import re

from models.intake.cells.wordings import plain_words

_FEE = re.compile(
    r"\b(?:fees?|charges?|commissions?|comisi?on(?:es)?|commissione|commissioni|commissie|frais)\b|gebuhr(?:en)?\b|provision(?:en)?\b"
    r"|\b(?:ads?|advertising|promotions?|promoted|werbe)\s?(?:costs?|spend|kosten)\b"
)
_NO_FEE = re.compile(
    r"\b(?:shipping|postage|delivery|labels?|versand\w*|porto|port|livraison|envio|spedizione|refund(?:s|ed)?|returns?|"
    r"restocking|insertion|einstellgebuhr(?:en)?|upgrades?|store|shop|subscription|abo|monthly|percent|rate|share|id|type|"
    r"date|buyer|buyers|kaufer|number|count|name|notes?|currency|quote|credits?|rebates?|reimbursed?)\b|^listing fees?$"
)


def is_sale_fee(header: str) -> bool:
    """True for the header of a column of fees of single sales.

    Examples
    --------
    >>> [is_sale_fee(header) for header in ("Final value fee - fixed", "Ad fee", "Werbegebühr", "Fees")]
    [True, True, True, True]
    >>> [is_sale_fee(header) for header in ("Shipping fee", "Fee %", "Store subscription fee", "Listing fee")]
    [False, False, False, False]
    """
    words = plain_words(header)
    return bool(_FEE.search(words)) and not _NO_FEE.search(words)
