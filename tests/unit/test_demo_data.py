"""The demo files: made again byte for byte, and as the README describes them."""

import csv
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

from models.values.given import read_given

FOLDER = Path(__file__).parents[2] / "demo_data"
MADE = (
    "sold_history.csv", "new_quarter.csv", "manifest_tidy.xlsx", "manifest_messy.csv", "manifest_new_brand.csv",
)  # fmt: skip


def rows_of(name: str) -> list[dict[str, str]]:
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="module")
def made_again(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("made")
    subprocess.run([sys.executable, "-B", FOLDER / "make.py", folder], check=True, capture_output=True, timeout=60)
    return folder


@pytest.mark.parametrize("name", MADE)
def test_make_writes_the_same_bytes(made_again: Path, name: str) -> None:
    assert (made_again / name).read_bytes() == (FOLDER / name).read_bytes()


def check_digit(digits: str) -> int:
    """GS1 General Specifications 7.9: weights 3, 1, 3, ... from the right."""
    return -sum(int(digit) * (3, 1)[place % 2] for place, digit in enumerate(reversed(digits))) % 10


def test_every_gtin_of_the_history_is_valid() -> None:
    gtins = {row["UPC"] for row in rows_of("sold_history.csv") if row["UPC"]}
    assert len(gtins) > 300
    assert all(len(gtin) == 12 and check_digit(gtin[:-1]) == int(gtin[-1]) for gtin in gtins)


def test_history_covers_three_years_with_unsold_listings() -> None:
    rows = rows_of("sold_history.csv")
    sold = [row for row in rows if row["Sold price"]]
    waiting = [row for row in rows if not row["Sold price"]]
    assert 5500 <= len(sold) <= 6500
    assert len(waiting) >= 300
    assert all(row["Listed on"] and not row["Sold on"] for row in waiting)
    assert min(row["Sold on"] for row in sold)[:7] == "2023-07"
    assert max(row["Sold on"] for row in sold)[:7] == "2026-06"
    assert {row["Sourced"] for row in rows} == {"bulk", "single", ""}
    assert all(row["Lot"] for row in rows if row["Sourced"] == "bulk")


def test_new_quarter_goes_on_where_the_history_ends() -> None:
    waiting = {row["Listing ref"] for row in rows_of("sold_history.csv") if not row["Sold price"]}
    later = rows_of("new_quarter.csv")
    sold = [row["Sold on"] for row in later if row["Sold on"]]
    assert waiting <= {row["Listing ref"] for row in later}
    assert (min(sold)[:7], max(sold)[:7]) == ("2026-07", "2026-09")


def test_new_brand_was_never_sold() -> None:
    brands = {row["Brand"] for row in rows_of("manifest_new_brand.csv")}
    sold = {row["Brand"] for row in rows_of("sold_history.csv")}
    assert brands - sold == {"Varrowick"}


def test_messy_manifest_has_its_slips() -> None:
    text = (FOLDER / "manifest_messy.csv").read_text(encoding="utf-8")
    for slip in ('"$1,234.50"', '"$18,999.00"', "2.4E+11", "grade ???", "TOTAL", "N/A", "Assorted", "**"):
        assert slip in text
    assert text.count("ITEM DESC.") == 2


def test_workbook_holds_no_time_of_making() -> None:
    with zipfile.ZipFile(FOLDER / "manifest_tidy.xlsx") as bundle:
        assert {part.date_time for part in bundle.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_settings_are_settings() -> None:
    given = read_given(tomllib.loads((FOLDER / "settings.toml").read_text(encoding="utf-8")))
    assert given["currency"] == "USD"
