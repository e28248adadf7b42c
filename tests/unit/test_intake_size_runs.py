"""Sizes in columns of their own, one row a size, and descriptions that lost their ends."""

import pytest

from models.estimate.products import build_book, match
from models.intake.cells.cut_off import cut_off_cautions
from models.intake.cells.size_runs import size_places
from models.intake.manifest import ReadManifest, read_manifest


def read(text: str) -> ReadManifest:
    return read_manifest(text.encode(), "load.csv", {}, "USD")


def test_units_are_the_sum_of_the_sizes() -> None:
    done = read("Style Description,S,M,L,XL,Unit Retail\nPolo navy,2,4,4,2,20\nPolo red,1,-,,0,20\nTotal,3,4,4,2,\n")
    assert done.lines.quantity.tolist() == [12, 1]
    assert [caution.what for caution in done.cautions] == [
        "The file counts units by size, in 'S' to 'XL': the units of a line are their sum."
    ]


def test_a_run_that_says_nothing_is_one_unit_and_named_and_zeros_are_set_aside() -> None:
    done = read(
        "Description,S,M,L,Unit Retail\nPolo navy,,,,20\nPolo red,0,0,0,20\nPolo tan,1,1,some,20\n" + "Cap,1,2,,9\n" * 9
    )
    assert done.lines.quantity.tolist() == [1] + [3] * 9
    assert [(item.row, item.done) for item in done.problems.items] == [
        (2, "counted as 1"),
        (3, "set aside"),
        (4, "set aside"),
    ]


def test_the_files_own_count_stands_and_is_held_against_the_sizes() -> None:
    done = read("Description,S,M,L,XL,Qty,Unit Retail\nPolo navy,2,4,4,2,12,20\nPolo red,1,1,1,0,4,20\n")
    assert done.lines.quantity.tolist() == [12, 4]
    assert [(item.row, item.reason) for item in done.problems.items] == [
        (3, "the quantity is not the sum of its sizes")
    ]
    assert done.cautions == ()


@pytest.mark.parametrize(
    ("names", "places"),
    [
        (["Item", "XS", "S", "M", "L"], (1, 2, 3, 4)),
        (["Item", "12M", "18M", "2T"], (1, 2, 3)),
        (["Item", "6", "6.5", "7", "7.5"], (1, 2, 3, 4)),
        (["Item", "1", "2", "3"], ()),
        (["Item", "S", "Colour", "L", "XL"], ()),
    ],
)
def test_headers_of_a_run(names: list[str], places: tuple[int, ...]) -> None:
    assert size_places(names, [["Polo"], *[["2", "", 3]] * (len(names) - 1)]) == places


def test_a_size_on_each_row_is_one_item() -> None:
    """As many lines as the file has rows, all the same product."""
    rows = "".join(f"Polo navy,{size},{units},20.00\n" for size, units in (("S", 2), ("M", 4), ("L", 4)))
    lines = read(f"Description,Size,Qty,Unit Retail\n{rows}").lines
    assert lines.quantity.tolist() == [2, 4, 4]
    book, _ = build_book(lines.description[:0], lines.sku[:0], lines.gtin[:0])
    assert len(set(match(book, lines.description, lines.sku, lines.gtin).product.tolist())) == 1


def test_forty_rows_of_one_unit_share_one_item() -> None:
    lines = read("Description,SKU,Unit Retail\n" + "Blue mug,M-1,9.99\n" * 40).lines
    book, _ = build_book(lines.description[:0], lines.sku[:0], lines.gtin[:0])
    assert (len(lines), len(set(match(book, lines.description, lines.sku, lines.gtin).product.tolist()))) == (40, 1)


def test_descriptions_that_end_at_one_length_are_a_caution() -> None:
    colours = ("Amber", "Azure", "Beige", "Black", "Brown", "Cream")
    cut = [f"{colour} stretch denim jean, straight leg, size 12"[:40] for colour in colours]
    assert "end at 40 characters" in cut_off_cautions([*cut, "Mug", "A jug of glass"])[0].what
    assert cut_off_cautions(["Mug of glass", "Jug of glass", "Large pot", "Blue pan with lid"]) == ()
    assert "with dots" in cut_off_cautions([f"{colour} stretch denim..." for colour in colours])[0].what
