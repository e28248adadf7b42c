"""Boxes of one thing are told: each is counted as a unit."""

import pytest
from intake_files import delimited

from models.intake.manifest import ReadManifest, read_manifest


def read(*names: str) -> ReadManifest:
    rows = [[name, 1, 899] for name in names]
    return read_manifest(delimited([["Description", "Qty", "Retail"], *rows]), "m.csv", {"tag_is": "unit"}, "USD")


@pytest.mark.parametrize(
    "names",
    [
        ["Sofa box 1 of 3", "Sofa box 2 of 3", "Sofa box 3 of 3"], ["Desk (box 1/2)", "Desk (box 2/2)"],
        ["Bed, ctn 1 of 2", "Bed, ctn 2 of 2"], ["Schrank Karton 1 von 2", "Schrank Karton 2 von 2"],
        ["Armoire (colis 1/2)", "Armoire (colis 2/2)"], ["Carton 1/2 shelf", "Carton 2/2 shelf"],
    ],
)  # fmt: skip
def test_boxes_of_one_thing_are_told_and_stay_lines(names: list[str]) -> None:
    done = read("Mug", *names)
    assert len(done.lines) == 1 + len(names)
    [told] = [one.what for one in done.cautions if "box of several" in one.what]
    assert told.startswith(f"{len(names)} lines are")
    assert f"'{names[0]}' (row 3)" in told


@pytest.mark.parametrize(
    "name", ["Box of 12 pens", "Socket set 1/2 drive", "Book 1 of 3", "Carton 3/1", "Box 1/2 inch", "Gift box 2 of 300"]
)
def test_other_words_are_not(name: str) -> None:
    assert not any("box of several" in one.what for one in read("Mug", name).cautions)
