"""Which header is which column: words and content weighed together, and what is asked instead of guessed."""

import pytest

from models.intake.cells.word_lists import word_list
from models.intake.columns.column_doubts import SURE
from models.intake.columns.matching import Match, check_mapping, match_columns
from models.intake.columns.vocabulary import HISTORY, MANIFEST, Vocabulary
from models.intake.columns.vocabulary_abroad import MANIFEST as MANIFEST_ABROAD
from models.intake.confined import read_manifest_confined
from models.intake.grid import Cell
from models.intake.manifest import read_manifest
from models.values.errors import NeedsColumns, Rejected
from models.values.questions import Question

GOODS = ["Blue glass mug", "Desk lamp with shade", "Cordless drill 18V", "Mixer, red", "Tea towel"]
CENTS = ["12.99", "45.00", "99.50", "30.25", "4.99"]
OTHER_CENTS = ["10.99", "40.00", "89.50", "30.25", "3.99"]
FEW = ["2", "1", "4", "3", "2"]
CODES = ["A-1004", "A-1017", "B-2211", "C-0001", "C-0002"]
GTINS = ["036000291452", "730001100001"[:-1] + "1", "629104150021" + "3", "00614141000418", "9638507" + "4"]
STATES = ["TX", "OH", "NY", "CA", "TX"]
CONDITIONS = ["New", "Used - good", "Open box", "New", "Salvage"]
SALES_STATES = ["Shipped", "Paid", "Shipped", "Cancelled", "Shipped"]
LINE_TAGS = ["25.98", "45.00", "398.00", "90.75", "9.98"]


def match(vocabulary: Vocabulary, mapping: dict[str, str] | None = None, /, **columns: list[str]) -> Match:
    return matched(list(columns.items()), vocabulary, mapping)


def matched(
    columns: list[tuple[str, list[str]]], vocabulary: Vocabulary, mapping: dict[str, str] | None = None
) -> Match:
    headers: list[Cell] = [header for header, _ in columns]
    return match_columns(headers, [list(cells) for _, cells in columns], vocabulary, mapping or {})


def asked(
    columns: list[tuple[str, list[str]]], vocabulary: Vocabulary, mapping: dict[str, str] | None = None
) -> dict[str, Question]:
    with pytest.raises(NeedsColumns) as raised:
        matched(columns, vocabulary, mapping)
    assert raised.value.missing == tuple(one.key for one in raised.value.questions)
    return {one.key: one for one in raised.value.questions}


def test_a_state_of_conditions_is_the_condition_and_a_state_of_regions_is_dropped() -> None:
    columns = [("Item", GOODS), ("State", CONDITIONS), ("Retail", CENTS)]
    assert matched(columns, MANIFEST).headers()["condition"] == "State"
    columns = [("Item", GOODS), ("State", STATES), ("Retail", CENTS)]
    assert "condition" not in matched(columns, MANIFEST).places
    both = [("Title", GOODS), ("State", STATES), ("State", CONDITIONS), ("Sold price", CENTS)]
    assert matched(both, HISTORY).places["condition"] == 2


def test_a_status_of_conditions_is_the_condition_of_a_manifest() -> None:
    assert matched([("Item", GOODS), ("Status", CONDITIONS)], MANIFEST).places["condition"] == 1
    assert "condition" not in matched([("Item", GOODS), ("Status", SALES_STATES)], MANIFEST).places
    history = [("Title", GOODS), ("Stato", SALES_STATES), ("Sold price", CENTS)]
    assert matched(history, HISTORY).places["status"] == 1


def test_a_price_in_a_manifest_is_asked_with_examples_and_a_guess() -> None:
    question = asked([("Item", GOODS), ("Qty", FEW), ("Price", CENTS)], MANIFEST)["tag_each"]
    assert question.guess == "Price"
    assert 0.5 < question.confidence < SURE
    assert question.examples == ("12.99", "45.00", "99.50")
    assert [choice.value for choice in question.choices] == ["Price", "-"], "neither a title nor a count is a price"
    assert "Price: 12.99, 45.00, 99.50" in [choice.words for choice in question.choices]


@pytest.mark.parametrize("header", ["Preis", "Prix unitaire", "Precio", "Prezzo", "Prijs", "Unit Price", "Value"])
def test_other_words_for_price_are_asked_too(header: str) -> None:
    assert asked([("Item", GOODS), (header, CENTS)], MANIFEST)["tag_each"].guess == header


def test_an_answer_settles_it_and_so_does_none_of_them() -> None:
    columns = [("Item", GOODS), ("Price", CENTS)]
    assert matched(columns, MANIFEST, {"tag_each": "price"}).headers() == {"description": "Item", "tag_each": "Price"}
    none = matched(columns, MANIFEST, {"tag_each": "-"})
    assert none.headers() == {"description": "Item", "tag_each": "-"}
    assert matched(columns, MANIFEST, none.headers()).places == none.places
    assert matched(columns, MANIFEST, {"tag_line": "Price"}).places == {"description": 0, "tag_line": 1}


def test_a_price_that_multiplies_to_the_retail_of_the_line_is_the_tag() -> None:
    columns = [("Item", GOODS), ("Qty", FEW), ("Price", CENTS), ("Ext Retail", LINE_TAGS)]
    assert matched(columns, MANIFEST).places == {"description": 0, "quantity": 1, "tag_each": 2, "tag_line": 3}


def test_two_tags_that_differ_are_asked_but_for_one_that_is_the_line_s() -> None:
    marked_down = [("Item", GOODS), ("Qty", FEW), ("Original Retail", CENTS), ("MSRP", OTHER_CENTS)]
    assert set(asked(marked_down, MANIFEST)) == {"tag_each"}
    lines = [("Item", GOODS), ("Qty", FEW), ("MSRP", CENTS), ("Retail", LINE_TAGS)]
    assert matched(lines, MANIFEST).headers()["tag_line"] == "Retail"
    repeated = [*(f"${text}" for text in CENTS), ""]
    same = [("Item", [*GOODS, "Jug"]), ("Qty", [*FEW, "1"]), ("MSRP", [*CENTS, ""]), ("Retail", repeated)]
    assert matched(same, MANIFEST).headers()["tag_each"] == "MSRP"


def test_two_equal_headers_are_asked_unless_they_hold_the_same_or_nothing() -> None:
    question = asked([("Item", GOODS), ("MSRP", CENTS), ("MSRP", OTHER_CENTS)], MANIFEST)["tag_each"]
    assert [choice.value for choice in question.choices] == ["MSRP", "MSRP (2)", "-"]
    answered = matched([("Item", GOODS), ("MSRP", CENTS), ("MSRP", OTHER_CENTS)], MANIFEST, {"tag_each": "MSRP (2)"})
    assert answered.places["tag_each"] == 2
    assert matched([("Item", GOODS), ("MSRP", CENTS), ("MSRP", CENTS)], MANIFEST).places["tag_each"] == 1
    assert matched([("Item", GOODS), ("MSRP", [""] * 5), ("MSRP", CENTS)], MANIFEST).places["tag_each"] == 2
    assert set(asked([("Item", GOODS), ("Item", GOODS[::-1])], MANIFEST)) == {"description"}


def test_two_counts_that_differ_are_asked() -> None:
    assert set(asked([("Item", GOODS), ("Qty", ["1"] * 5), ("Units", FEW)], MANIFEST)) == {"quantity"}


def test_a_file_without_headers_is_asked_with_guesses_by_content() -> None:
    columns = [("", CODES), ("", GOODS), ("", FEW), ("", CENTS), ("", GTINS)]
    questions = asked(columns, MANIFEST)
    assert {key: one.guess for key, one in questions.items()} == {
        "description": "column B", "quantity": "column C", "tag_each": "column D",
    }  # fmt: skip
    answers = {key: one.guess for key, one in questions.items()}
    assert matched(columns, MANIFEST, answers).places == {"description": 1, "quantity": 2, "tag_each": 3, "gtin": 4}


def test_barcodes_are_told_by_their_check_digits() -> None:
    assert matched([("Item", GOODS), ("Zzk", GTINS)], MANIFEST).places["gtin"] == 1
    assert "gtin" not in matched([("Item", GOODS), ("Zzk", ["100200300401"] * 5)], MANIFEST).places


def test_cells_of_people_are_never_shown() -> None:
    columns = [("Ding", GOODS), ("Buyer Name", ["Ann Poe"]), ("Q", ["a@b.example"]), ("R", STATES), ("Paid", CENTS)]
    for question in asked(columns, HISTORY).values():
        words = " ".join(choice.words for choice in question.choices)
        assert "Ann" not in words
        assert "b.example" not in words
        assert "OH" not in words


def test_who_the_goods_are_shipped_to_is_no_title() -> None:
    columns = [
        ("Ship to", ["Ann Poe", "Bo Lee"]),
        ("Street", ["1 Oak Way", "2 Elm Road"]),
        ("Sold for", ["5.00", "6.00"]),
    ]
    assert asked(columns, HISTORY)["title"].guess == ""


def test_of_two_columns_that_are_alike_none_is_guessed() -> None:
    days = ["2026-05-01", "2026-05-02"]
    columns = [("Title", GOODS[:2]), ("Sold price", CENTS[:2]), ("Up", days), ("Gone", days[::-1])]
    question = asked(columns, HISTORY)["sold_on"]
    assert (question.guess, [choice.value for choice in question.choices]) == ("", ["Up", "Gone", "-"])
    assert asked(columns[:3], HISTORY)["sold_on"].guess == "Up"


ABROAD = [
    "description=Artikelbezeichnung|quantity=Menge|tag_each=UVP|tag_line=UVP gesamt|condition=Zustand|brand=Hersteller",
    "description=Désignation de l'article|quantity=Qté|tag_each=Prix public|condition=État|gtin=Code-barres",
    "description=Descripción|quantity=Cantidad|tag_each=PVP|condition=Estado|category=Categoría|sku=Código",
    "description=Descrizione|quantity=Quantità|tag_each=Prezzo di listino|condition=Condizioni|weight_kg=Peso",
    "description=Omschrijving|quantity=Aantal|tag_each=Adviesprijs|condition=Staat|brand=Merk|category=Categorie",
]
SALES_ABROAD = [
    "title=Artikel|sold_price=Verkaufspreis|sold_on=Verkauft am|listed_on=Eingestellt am|fees=Gebühren|cost=EK-Preis",
    "title=Titre|sold_price=Prix de vente|sold_on=Date de vente|listed_on=Date de mise en ligne|cost=Prix d'achat",
    "title=Título|sold_price=Precio de venta|sold_on=Fecha de venta|listed_on=Fecha de publicación|cost=Coste",
    "title=Titolo|sold_price=Prezzo di vendita|sold_on=Data di vendita|cost=Prezzo d'acquisto|order_ref=Numero ordine",
    "title=Titel|sold_price=Verkoopprijs|sold_on=Verkoopdatum|cost=Inkoopprijs|shipping=Verzendkosten",
]
CELLS = {
    "description": GOODS, "title": GOODS, "quantity": FEW, "condition": CONDITIONS, "gtin": GTINS, "sku": CODES,
    "tag_line": LINE_TAGS, "brand": ["Orrin", "Vell", "Quib", "Orrin", "Vell"], "category": ["Home"] * 5,
    "sold_on": ["2026-05-01", "2026-05-03"], "listed_on": ["2026-04-01", "2026-04-02"], "order_ref": CODES,
}  # fmt: skip


@pytest.mark.parametrize(
    ("vocabulary", "wanted"),
    [*((MANIFEST, wanted) for wanted in ABROAD), *((HISTORY, wanted) for wanted in SALES_ABROAD)],
    ids=["de", "fr", "es", "it", "nl"] * 2,
)
def test_headers_in_other_languages(vocabulary: Vocabulary, wanted: str) -> None:
    pairs = [pair.split("=") for pair in wanted.split("|")]
    columns = [(header, CELLS.get(column, CENTS)) for column, header in pairs]
    assert matched(columns, vocabulary).headers() == dict(pairs)


def test_words_abroad_belong_to_columns_that_exist() -> None:
    assert set(MANIFEST_ABROAD) <= set(MANIFEST.wordings)
    assert all(word_list(words) for words in MANIFEST_ABROAD.values())


def test_sure_columns_are_told_with_a_question() -> None:
    with pytest.raises(NeedsColumns) as raised:
        matched([("Item", GOODS), ("Brand", CODES), ("Price", CENTS)], MANIFEST)
    assert raised.value.found["description"] == "Item"
    assert "tag_each" not in raised.value.found


def test_confidence_is_between_nothing_and_one_and_grows_with_the_words() -> None:
    sure = matched([("Description", GOODS), ("Retail price (approx)", CENTS)], MANIFEST).confidence
    assert 0.5 < sure["tag_each"] < sure["description"] < 1
    assert matched([("A", GOODS)], MANIFEST, {"description": "A"}).confidence == {"description": 1.0}


def test_a_wrong_content_keeps_a_word_from_being_believed() -> None:
    assert matched([("Item", ["10044", "10046"]), ("Product", GOODS)], MANIFEST).places == {"description": 1, "sku": 0}
    assert matched([("Item", ["1", "2", "3"]), ("Product", GOODS)], MANIFEST).places == {"description": 1}
    columns = [("Sold", ["2026-01-02"]), ("Sold at", ["Market A"]), ("Price", ["5.00"]), ("Title", ["Mug"])]
    places = matched(columns, HISTORY).places
    assert (places["sold_on"], places["sold_price"]) == (0, 2)


@pytest.mark.parametrize("mapping", [{"colour": "Colour"}, {"sold_price_is": "lot"}, {"dates_are": "mixed"}])
def test_a_mapping_no_file_can_use_is_refused(mapping: dict[str, str]) -> None:
    with pytest.raises(Rejected):
        check_mapping(mapping)


def test_a_table_without_a_header_loses_no_row() -> None:
    data = b"A-1,Blue glass mug,2,12.99\nA-2,Desk lamp with shade,1,45.00\nA-3,Cordless drill 18V,4,99.50\n"
    with pytest.raises(NeedsColumns) as raised:
        read_manifest(data, "m.csv", {}, "USD")
    answers = {one.key: one.guess for one in raised.value.questions}
    assert answers == {"description": "column B", "quantity": "column C", "tag_each": "column D"}
    read = read_manifest(data, "m.csv", answers, "USD")
    assert read.lines.row.tolist() == [1, 2, 3]
    assert read.lines.tag_each.tolist() == [1299.0, 4500.0, 9950.0]
    assert read_manifest(data, "m.csv", read.mapping, "USD").lines.quantity.tolist() == [2, 1, 4]


def test_an_unknown_header_is_no_row() -> None:
    data = b"Ware X,Wieviel\nBlue glass mug,2\nDesk lamp,1\nDrill,4\n"
    with pytest.raises(NeedsColumns) as raised:
        read_manifest(data, "m.csv", {}, "USD")
    assert raised.value.headers == ("Ware X", "Wieviel")


def test_a_lone_date_of_a_history_is_the_day_it_sold() -> None:
    days = ["2026-05-01", "2026-05-02"]
    assert matched([("Item", GOODS), ("Price", CENTS), ("Date", days)], HISTORY).places["sold_on"] == 2
    both = [("Item", GOODS), ("Price", CENTS), ("Date", days), ("Sale date", days[::-1])]
    assert matched(both, HISTORY).places["sold_on"] == 3


def test_a_count_of_cases_gives_way_to_a_count_of_units() -> None:
    assert matched([("Item", GOODS), ("Cases", ["1"] * 5), ("Total Units", FEW)], MANIFEST).places["quantity"] == 2


def test_a_cost_is_never_guessed_to_be_a_tag() -> None:
    question = asked([("Beschreibung", GOODS), ("EK", OTHER_CENTS), ("VK", CENTS)], MANIFEST)["tag_each"]
    assert question.guess == "VK"


def test_how_sure_each_column_is_crosses_from_the_child() -> None:
    data = b"Item,Qty,Retail\nBlue glass mug,2,12.99\nDesk lamp,1,45.00\n"
    read = read_manifest_confined(data, "m.csv", {"tag_each": "Retail"}, "USD")
    assert read.confidence == read_manifest(data, "m.csv", {"tag_each": "Retail"}, "USD").confidence
    assert read.confidence["tag_each"] == 1
    assert SURE < read.confidence["description"] < 1


def test_a_day_of_purchase_is_asked_whose_it_is() -> None:
    days = ["2026-05-01", "2026-05-02"]
    columns = [("Item", GOODS), ("Sold for", CENTS), ("Purchase date", days)]
    assert asked(columns, HISTORY)["sold_on"].guess == "Purchase date"
    assert matched(columns, HISTORY, {"sold_on": "-"}).headers()["sold_on"] == "-"
    two = [("Item", GOODS), ("Sold for", CENTS), ("Sale date", days), ("Paid on", days[::-1])]
    assert matched(two, HISTORY).places["sold_on"] == 2, "either will do"


@pytest.mark.parametrize("header", ["Available Qty", "Stock", "On hand", "Q.tà", "Uds.", "Stk.", "Aantal stuks"])
def test_other_words_for_units(header: str) -> None:
    assert matched([("Item", GOODS), (header, FEW)], MANIFEST).places["quantity"] == 1


def test_a_list_of_one_column_loses_no_line() -> None:
    data = "\n".join(GOODS).encode()
    assert read_manifest(data, "m.csv", {"description": "column A"}, "USD").lines.description.tolist() == GOODS
    assert read_manifest(b"Ding\n" + data, "m.csv", {"description": "Ding"}, "USD").lines.description.tolist() == GOODS


def test_an_unknown_column_of_days_is_asked_about_where_sales_have_no_other() -> None:
    days = ["2026-05-01", "2026-05-02"]
    columns = [("Title", GOODS), ("Sold price", CENTS), ("Zzk", days)]
    assert asked(columns, HISTORY)["sold_on"].guess == "Zzk"
    assert set(asked([("Title", GOODS), ("Qwx", CENTS), ("Zzk", days)], HISTORY)) == {"sold_price"}
    assert matched([*columns, ("Sold on", days)], HISTORY).places["sold_on"] == 3
