"""Lines that a manifest strikes out itself, and costs among its goods, are no goods, and named."""

import pytest
from intake_files import delimited

from models.intake.manifest import ReadManifest, read_manifest


def read(*said: str, header: str = "Status") -> ReadManifest:
    rows = [[f"Mug {at}", 2, 9, words] for at, words in enumerate(("", "", "", *said))]
    return read_manifest(
        delimited([["Description", "Qty", "Retail", header], *rows]), "m.csv", {"tag_is": "unit"}, "USD"
    )


@pytest.mark.parametrize(
    "words",
    ["VOID", "cancelled", "Canceled by buyer", "MISSING", "missing from pallet", "not included", "PULLED",
     "Removed from lot", "sold", "Withdrawn.", "storniert", "fehlt", "annulé", "anulowane"],
)  # fmt: skip
@pytest.mark.parametrize("header", ["Status", "Note", "Bemerkung", "Condition notes"])
def test_a_line_that_is_struck_out_is_set_aside_and_named(words: str, header: str) -> None:
    done = read(words, header=header)
    assert len(done.lines) == 3
    assert [(one.row, one.reason) for one in done.problems.items if one.done == "set aside"] == [
        (5, "struck out by the file itself")
    ]


@pytest.mark.parametrize("words", ["missing lid", "not included: remote", "Included", "sold as is", "pulled thread"])
def test_a_note_on_goods_leaves_them_lines(words: str) -> None:
    assert len(read(words, header="Note").lines) == 4


@pytest.mark.parametrize("words", ["tags removed", "order cancelled, restocked"])
def test_a_doubtful_phrase_is_named_and_the_line_kept(words: str) -> None:
    done = read(words, header="Note")
    assert len(done.lines) == 4
    assert any("(row 5)" in one.what and "not in the lot" in one.what for one in done.cautions)


def test_what_is_said_of_most_lines_is_said_of_the_lot() -> None:
    done = read("pulled", "pulled", "pulled", "pulled")
    assert len(done.lines) == 7
    assert any("not in the lot" in one.what for one in done.cautions)


def test_a_column_that_says_whether_a_line_is_included() -> None:
    assert len(read("yes", "no", "y", "N", header="Included").lines) == 5


@pytest.mark.parametrize("words", ["Freight estimate", "Est. freight", "Pallet deposit", "Fuel surcharge"])
def test_a_cost_among_the_goods_is_set_aside(words: str) -> None:
    data = delimited([["Description", "Qty", "Retail"], ["Mug", 3, 9], ["Jug", 2, 5], [words, 1, 180]])
    done = read_manifest(data, "m.csv", {"tag_is": "unit"}, "USD")
    assert (len(done.lines), done.problems.items[0].reason) == (2, "a cost, not goods")
