"""Which header is which column, where the table begins, which rows are data."""

import pytest
from intake_files import delimited, xlsx

from models.intake.columns.matching import check_mapping, match_columns
from models.intake.columns.vocabulary import HISTORY, MANIFEST, Vocabulary
from models.intake.grid import Grid
from models.intake.shape.header import find_header
from models.intake.shape.rows import sort_rows
from models.intake.shape.table import read_table
from models.values.errors import NeedsColumns, Rejected


def matched(headers: list[str], vocabulary: Vocabulary, mapping: dict[str, str] | None = None) -> dict[str, str]:
    places = match_columns(headers, [[] for _ in headers], vocabulary, mapping or {}).places
    return {column: headers[place] for column, place in places.items()}


MANIFESTS = [
    """description=Item Description|sku=Item #|brand=Mfr|condition=Cond.|quantity=QTY|tag_each=Unit Retail|
    tag_line=Ext. Retail|gtin=UPC|category=Dept""",
    """description=Product Name|quantity=Units|tag_each=MSRP ($)|tag_line=Total MSRP|weight_kg=Weight (lbs)|
    pallet=Pallet ID""",
    "description=Bezeichnung|brand=Marke|condition=Zustand|quantity=Menge|tag_each=UVP|tag_line=UVP gesamt|gtin=EAN",
    "description=Désignation|brand=Marque|condition=État|quantity=Quantité|tag_each=Prix public",
    "description=description|tag_each=Retail Value Each",
    "description=Item Title|=Our Cost|tag_each=Tag Price",
]
HISTORIES = [
    """title=Listing Title|sold_price=Sold For|sold_on=Order Date|listed_on=Date Listed|sold_count=Qty Sold|cost=COGS|
    fees=Selling Fees|shipping_paid=Postage Cost|shipping_charged=Shipping Charged|=Buyer Name|=Ship To City|
    order_ref=Order Number|sku=Custom Label|place=Sales Channel""",
    "title=Artikel|sold_price=Verkaufspreis|sold_on=Verkauft am|listed_on=Eingestellt am|fees=Gebühren|quantity=Anzahl",
    """title=Item|sold_price=Price|asking_price=List Price|tag_each=MSRP|lot=Purchase Lot|sourced=How sourced|
    status=Status""",
]


@pytest.mark.parametrize(
    ("vocabulary", "wanted"),
    [*((MANIFEST, wanted) for wanted in MANIFESTS), *((HISTORY, wanted) for wanted in HISTORIES)],
    ids=range(len(MANIFESTS) + len(HISTORIES)),
)
def test_common_wordings(vocabulary: Vocabulary, wanted: str) -> None:
    pairs = [pair.strip().split("=") for pair in wanted.split("|")]
    assert matched([header for _, header in pairs], vocabulary) == {
        column: header for column, header in pairs if column
    }


@pytest.mark.parametrize("vocabulary", [MANIFEST, HISTORY], ids=["manifest", "history"])
def test_every_canonical_name_and_every_wording_names_its_column_alone(vocabulary: Vocabulary) -> None:
    for column, wordings in vocabulary.wordings.items():
        assert column in matched([column, *vocabulary.required], vocabulary)
        for wording in wordings[:1]:
            assert matched([wording, *vocabulary.required], vocabulary).get(column) in (wording, column)


@pytest.mark.parametrize(
    "header", ["Buyer Name", "Recipient Address", "Customer email", "Ship to name", "Image URL", "Order total"]
)
def test_buyers_and_addresses_are_never_taken(header: str) -> None:
    assert header not in matched([header, "title", "sold_price"], HISTORY).values()


def test_a_given_mapping_wins_and_frees_the_other_column() -> None:
    headers = ["Description", "What", "Price", "Retail"]
    assert matched(headers, MANIFEST, {"description": "what", "tag_each": "Price", "brand": "Nowhere"}) == {
        "description": "What",
        "tag_each": "Price",
    }


def test_content_decides_between_two_readings() -> None:
    samples = [["10044", "10045"], ["Blue mug", "Desk lamp"]]
    assert match_columns(["Item", "Product"], samples, MANIFEST, {}).places == {"description": 1, "sku": 0}
    dates, places = [["2026-01-02"], ["Market A"]], [["5.00"], ["Mug"]]
    assert (
        match_columns(["Sold", "Sold on", "Price", "Title"], [*dates, *places], HISTORY, {}).places["sold_price"] == 2
    )


def test_what_is_missing_is_asked_with_the_headers_of_the_file() -> None:
    with pytest.raises(NeedsColumns) as asked:
        matched(["Thing", "Amount got"], HISTORY)
    assert asked.value.missing == ("title", "sold_price")
    assert asked.value.headers == ("Thing", "Amount got")


@pytest.mark.parametrize("mapping", [{"colour": "Colour"}, {"sold_price_is": "lot"}])
def test_a_mapping_no_file_can_use_is_refused(mapping: dict[str, str]) -> None:
    with pytest.raises(Rejected):
        check_mapping(mapping)


def test_the_header_is_found_below_titles_and_before_its_repeats() -> None:
    header = ["Item", "Brand", "Qty", "Unit Retail"]
    rows = [["Load 7", "", "", ""], ["12 Dock Road", "", "", ""], [], header, ["Mug", "Orrin", "2", "9"], header]
    assert find_header(Grid("", rows, 1), MANIFEST, {}).index == 3


def test_a_mapping_finds_a_header_no_word_of_which_is_known() -> None:
    rows = [["Lot of things"], ["Was ist es", "Wieviel"], ["Mug", "2"]]
    found = find_header(Grid("", rows, 1), MANIFEST, {"description": "Was ist es"})
    assert (found.index, found.recognised) == (1, True)


def test_a_file_of_one_column() -> None:
    table = read_table(b"description\r\nBlue mug, large\r\nJug\r\n", "x.csv", MANIFEST, {})
    assert table.columns["description"] == ["Blue mug, large", "Jug"]
    assert table.rows.tolist() == [2, 3]


def test_the_sheet_that_speaks_the_trades_words_is_read_and_the_others_are_told() -> None:
    lines = [["Description", "Qty", "MSRP"], ["Mug", 2, 9.5]]
    table = read_table(xlsx([["Welcome"], ["How to bid"]], {"Lines": lines}), "x.xlsx", MANIFEST, {})
    assert table.columns["description"] == ["Mug"]
    assert "'Lines'" in table.cautions[0].what
    assert "'Sheet'" in table.cautions[0].what


HEADER = ["Description", "Brand", "Qty", "Unit Retail", "Ext. Retail"]
LINE = ["Blue mug", "Orrin", "2", "5.00", "10.00"]
OTHER = ["Desk lamp", "Vell", "1", "20.00", "20.00"]


def kept_of(*rows: list[str]) -> list[int]:
    grid = Grid("", [HEADER, *rows], 1)
    columns = {"description": 0, "brand": 1, "quantity": 2, "tag_each": 3, "tag_line": 4}
    return [place - 1 for place in sort_rows(grid, range(1), grid.rows[0], columns, "description").data]


@pytest.mark.parametrize(
    "row",
    [
        ["", "", "", "", ""],
        [],
        HEADER,
        ["DESCRIPTION", "BRAND", "QTY", "UNIT RETAIL", ""],
        ["Total", "", "3", "", "30.00"],
        ["GRAND TOTAL:", "", "3", "", "30.00"],
        ["Sub-total", "", "3", "", "30.00"],
        ["", "Total units", "3", "", ""],
        ["", "", "Total", "", "30.00"],
        ["Summe", "", "3", "", "30,00"],
        ["", "", "3", "", "30.00"],
        ["Pallet 3 of 5 - 182 units", "", "", "", ""],
        ["All sales are final.", "", "", "", ""],
        ["* tags are estimates", "", "", "", ""],
        ["", "", "", "", "see page 2"],
        ["-----", "-----", "---", "----", "----"],
    ],
)
def test_these_are_not_rows(row: list[str]) -> None:
    assert kept_of(LINE, OTHER, row) == [0, 1]


@pytest.mark.parametrize(
    "row",
    [
        ["Total gym trainer", "Quib", "1", "90", "90"],
        ["Total", "Morrow", "1", "4.00", "4.00"],  # cereal of that name
        ["Blue mug", "Orrin", "2", "5.00", "10.00"],
        ["Notebook", "Orrin", "2", "5.00", ""],
        ["", "Orrin", "2", "5.00", "10.00"],  # set aside later, but a row
        ["Teapot", "", "", "", ""],
        ["Summer dress", "", "3", "", ""],
        ["90210", "Orrin", "3", "1", "3"],
    ],
)
def test_these_are_rows(row: list[str]) -> None:
    assert kept_of(LINE, OTHER, row) == [0, 1, 2]


def test_capitals_alone_are_a_heading_where_goods_follow_and_may_be_goods_where_none_do() -> None:
    assert kept_of(LINE, ["KITCHEN", "", "", "", ""], OTHER) == [0, 2]
    assert kept_of(LINE, OTHER, ["CONTACT LENSES", "", "", "", ""]) == [0, 1, 2]


def test_what_stands_alone_below_the_total_is_a_note() -> None:
    assert kept_of(
        LINE, OTHER, ["Total", "", "3", "", "30"], ["Freight", "", "", "250", ""], ["J. Doe", "", "", "", ""]
    ) == [0, 1]


def test_row_numbers_are_those_of_the_spreadsheet() -> None:
    data = delimited([["Load 7"], [], ["Description", "Qty", "Brand"], ["Mug\nblue", "1", "a"], [], ["Jug", "2", "b"]])
    assert read_table(data, "x.csv", MANIFEST, {}).rows.tolist() == [4, 6]
