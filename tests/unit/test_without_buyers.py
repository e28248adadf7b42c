"""What is kept of a file with buyers' names reads just as the file did, without them."""

import datetime as dt

from intake_files import delimited, xlsx

from models.intake.history import read_history
from models.intake.sales.without_buyers import without_buyers

ROWS = [
    ["Orders of May", "", "", "", ""],
    ["", "", "", "", ""],
    ["Order number", "Title", "Sold price", "Buyer name", "Sale date"],
    ["O1", "Mug, blue", 8.25, "Anna Example", dt.date(2026, 5, 1)],
    ["", "", "", "", ""],
    ["O2", "Jug", 9, "Bert Example", dt.date(2026, 5, 13)],
]


def test_a_workbook_becomes_text_with_the_same_rows() -> None:
    data = xlsx(ROWS)
    clean = without_buyers(data, "may.xlsx", {}, "USD")
    assert clean is not None
    assert b"Example" not in clean
    one, other = (read_history(file, "may.xlsx", {}, "USD").sales for file in (data, clean))
    assert one.row.tolist() == other.row.tolist() == [4, 6]
    assert one.sold_on.tolist() == other.sold_on.tolist()
    assert one.sold_price.tolist() == other.sold_price.tolist() == [825, 900]


def test_decimal_commas_stay_so() -> None:
    data = delimited([["Titel", "Verkaufspreis", "Käufer"], ["Tasse", "1,50", "Anna"], ["Kanne", "2,00", "Bert"]], ";")
    clean = without_buyers(data, "mai.csv", {}, "EUR")
    assert clean is not None
    assert read_history(clean, "mai.csv", {}, "EUR").sales.sold_price.tolist() == [150, 200]
    assert b"Anna" not in clean


def test_a_file_of_several_sheets_is_not_kept() -> None:
    assert without_buyers(xlsx(ROWS, others={"More": ROWS}), "may.xlsx", {"sheet": "Sheet"}, "USD") is None
