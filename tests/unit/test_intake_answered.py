"""What a seller answers is understood where it is clear, and where it is not, it is said why."""

import pytest
from intake_files import delimited, xlsx

from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.values.errors import NeedsColumns

LOTS = [
    ["Description", "Qty"], ["Lot 882 - Tools", ""], ["Hammer", 2], ["Saw", 1], ["Lot 883 - Toys", ""], ["Ball", 4],
    ["Kite", 1],
]  # fmt: skip
SHEETS = xlsx([["Read me"]], {"Pallet 1 (Kitchen)": LOTS[:1] + LOTS[2:4], "Pallet 2 (Garden)": LOTS[:1] + LOTS[5:]})


@pytest.mark.parametrize("said", ["882", "Lot 882", "LOT882", "lot no. 0882", " tools ", "Tool", "Lot 882 - Tools"])
def test_a_part_of_a_lots_name_is_enough(said: str) -> None:
    done = read_manifest(delimited(LOTS), "m.csv", {"lot_is": said}, "USD")
    assert done.lines.description.tolist() == ["Hammer", "Saw"]


@pytest.mark.parametrize(
    ("said", "told"),
    [("88", "'88' is none of the lots in the file."), ("lot", "'lot' fits 2 lots: 'Lot 882 - Tools', ")],
)
def test_an_answer_that_fits_none_or_several_lots_is_told_so(said: str, told: str) -> None:
    with pytest.raises(NeedsColumns) as asked:
        read_manifest(delimited(LOTS), "m.csv", {"lot_is": said}, "USD")
    assert asked.value.message.startswith(told)
    assert asked.value.questions[0].words.startswith(told)


@pytest.mark.parametrize("said", ["Pallet 2 (Garden)", "2", "garden", "pallet2"])
def test_a_part_of_a_sheets_name_is_enough(said: str) -> None:
    assert read_manifest(SHEETS, "m.xlsx", {"sheet_is": said}, "USD").lines.description.tolist() == ["Ball", "Kite"]


@pytest.mark.parametrize(("said", "told"), [("9", "none of the sheets"), ("Pallet", "fits 2 sheets")])
def test_an_answer_that_fits_no_sheet_is_told_so(said: str, told: str) -> None:
    with pytest.raises(NeedsColumns, match=told):
        read_manifest(SHEETS, "m.xlsx", {"sheet_is": said}, "USD")


def test_an_answer_for_another_file_is_told_where_one_sheet_alone_holds_lines() -> None:
    one = xlsx(LOTS[:1] + LOTS[2:4])
    done = read_manifest(one, "m.xlsx", {"sheet_is": "Garden"}, "USD")
    assert done.cautions[0].what == "'Garden' is none of the sheets in the file. Only 'Sheet' holds lines: it was read."
    assert len(read_manifest(delimited(LOTS[:1] + LOTS[2:4]), "m.csv", {"sheet_is": "Garden"}, "USD").cautions) == 0


def test_a_column_that_is_not_there_is_told_with_the_question() -> None:
    with pytest.raises(NeedsColumns) as asked:
        read_manifest(b"Stuff,Nums\nHammer,2\n", "m.csv", {"description": "Foo"}, "USD")
    assert asked.value.questions[0].words.startswith("The file has no column 'Foo'. ")
    with pytest.raises(NeedsColumns, match="No column of case sizes is called 'Foo'"):
        read_manifest(b"Item,Cases\nHammer,2\n", "m.csv", {"quantity_is": "Foo"}, "USD")


@pytest.mark.parametrize("said", ["day_first", "Day first", "DAY-FIRST"])
def test_fixed_answers_are_understood_in_any_case(said: str) -> None:
    data = b"Title,Sold price,Date sold\nMug,8,03/04/2026\n"
    assert str(read_history(data, "s.csv", {"dates_are": said}, "USD").sales.sold_on[0]) == "2026-04-03"
