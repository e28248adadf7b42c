"""Where the service would ask, the command line names the --map to give; what is given is the answer."""

from pathlib import Path

import pytest

from api.cli.own_files import read_manifest, read_map
from models.values.errors import Rejected

CONTENT = "Item,Qty,Price\nBlue glass mug,2,12.99\nDesk lamp with shade,1,45.00\n"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "m.csv"
    path.write_text(CONTENT)
    return path


def test_the_question_names_the_map_with_our_guess_and_how_to_say_none(file: Path) -> None:
    with pytest.raises(Rejected) as raised:
        read_manifest(file, (), "USD")
    said = raised.value.message
    assert "Which column is the price tag of one unit" in said
    assert "'Price' (12.99, 45.00)" in said
    assert '--map tag_each="Price"' in said
    assert '--map tag_each="-"' in said


@pytest.mark.parametrize(("given", "tags"), [("tag_each=Price", [1299.0, 4500.0]), ("tag_line=Price", [649.5, 4500.0])])
def test_the_map_answers(file: Path, given: str, tags: list[float]) -> None:
    assert read_manifest(file, read_map([given]), "USD").lines.tag_each.tolist() == tags


def test_none_of_them_answers(file: Path) -> None:
    read = read_manifest(file, read_map(["tag_each=-"]), "USD")
    assert read.mapping["tag_each"] == "-"
    assert all(tag != tag for tag in read.lines.tag_each.tolist())


def test_answers_about_cells_are_keys_of_the_map() -> None:
    assert read_map(["dates_are=day_first", "condition:B=worn"]) == [
        ("dates_are", "day_first"),
        ("condition:B", "worn"),
    ]
    with pytest.raises(Rejected, match="must be one of day_first, month_first"):
        read_map(["dates_are=both"])


def test_one_heading_is_one_column(file: Path) -> None:
    with pytest.raises(Rejected, match="quantity: 'Price' is named for another column, too"):
        read_manifest(file, read_map(["quantity=Price", "tag_each=Price"]), "USD")
