"""--map for several files: a column may be named once for each."""

from collections.abc import Mapping
from dataclasses import dataclass

import pytest

from api.cli.named_columns import Named
from models.values.errors import NeedsColumns
from models.values.questions import Question


@dataclass
class Sheet:
    mapping: Mapping[str, str]


def sheet(*headers: str) -> object:
    """A reader of a file with these headers, which knows no trade words."""

    def read(mapping: Mapping[str, str]) -> Sheet:
        found = {column: header for column, header in mapping.items() if header in headers}
        if "title" not in found:
            raise NeedsColumns("which?", ["title"], headers)
        return Sheet(found)

    return read


PAIRS = [("title", "Ware"), ("brand", "Marke"), ("title", "Artikel"), ("brand", "Hersteller"), ("pallet", "Palette")]


@pytest.mark.parametrize(
    ("headers", "taken"),
    [
        (("Ware", "Marke"), {"title": "Ware", "brand": "Marke"}),
        (("Artikel", "Marke"), {"title": "Artikel", "brand": "Marke"}),
        (("Artikel", "Hersteller"), {"title": "Artikel", "brand": "Hersteller"}),
        (("Ware",), {"title": "Ware"}),
    ],
)
def test_the_header_that_the_file_has_is_taken(headers: tuple[str, ...], taken: dict[str, str]) -> None:
    assert Named(PAIRS, ("title", "brand")).read(sheet(*headers)).mapping == taken  # type: ignore[arg-type,type-var]


def test_an_answer_that_a_file_rules_out_gives_way_to_another_one_given() -> None:
    def read(mapping: Mapping[str, str]) -> Sheet:
        if mapping["dates_are"] == "day_first":
            raise NeedsColumns("?", ["dates_are"], ["Sold"], [Question("dates_are", "?", (), why="02/16")])
        return Sheet(mapping)

    both = [("dates_are", "day_first"), ("dates_are", "month_first")]
    assert Named(both, ()).read(read).mapping == {"dates_are": "month_first"}  # type: ignore[type-var]
    with pytest.raises(NeedsColumns):
        Named(both[:1], ()).read(read)  # type: ignore[type-var]


def test_a_file_with_none_of_them_asks() -> None:
    with pytest.raises(NeedsColumns):
        Named(PAIRS, ("title", "brand")).read(sheet("Preis"))  # type: ignore[arg-type,type-var]
