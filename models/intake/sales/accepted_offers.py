"""What did goods sell for where a buyer's offer was accepted?  For the offer, not for the price that was asked."""

from dataclasses import replace

from models.intake.columns.glances import quick_number
from models.intake.grid import Cell
from models.intake.sales.price_or_asked import says_fetched
from models.intake.shape.table import Table
from models.values.problems import Caution

_ACCEPTED = "accepted_offer"


def with_accepted_offers(table: Table) -> tuple[Table, tuple[Caution, ...]]:
    """The table with accepted offers as sold prices beside a price that does not say it was paid; and what is said.

    Parameters
    ----------
    table : Table
        The file; a column of accepted offers is used for nothing else.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import HISTORY
    >>> from models.intake.shape.table import read_table
    >>> data = b"Item,Price,Accepted offer,Sold on\\nMug,8,6,2025-02-01\\nJug,9,,2025-02-02\\n"
    >>> table, cautions = with_accepted_offers(read_table(data, "s.csv", HISTORY, {}))
    >>> table.columns["sold_price"], cautions[0].what
    (['6', '9'], "Rows that sold for an accepted offer: 1. Their price is 'Accepted offer', not 'Price'.")
    """
    if _ACCEPTED not in table.columns:
        return table, ()
    offers, header = table.columns[_ACCEPTED], table.headers[_ACCEPTED]
    price = table.headers.get("sold_price", "")
    if "sold_price" not in table.columns or says_fetched(price):
        reason = f"'{price}' says what things sold for" if price else "no price of a sale stands beside it"
        what = f"'{header}' was not read: {reason}."
        return table, (Caution(what, "If it is what things sold for, say that it is the sold price."),)
    accepted = [(quick_number(cell) or 0) > 0 for cell in offers]
    cells: list[Cell] = [
        offer if use else cell for use, offer, cell in zip(accepted, offers, table.columns["sold_price"], strict=True)
    ]
    what = f"Rows that sold for an accepted offer: {sum(accepted):,}. Their price is '{header}', not '{price}'."
    check = f"If '{price}' is what they sold for all the same, say that no column holds accepted offers."
    return replace(table, columns={**table.columns, "sold_price": cells}), (Caution(what, check),) * any(accepted)
