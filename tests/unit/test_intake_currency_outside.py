"""A currency that no cell and no header writes: in number formats, in typed cells, in titles and notes."""

import pytest
from intake_files import Tall, ods
from manifest_reading import said, saved, sheet_of

from models.intake.files.number_formats import currency_styles
from models.intake.manifest import read_manifest

ROWS = (["Item", "Qty", "Retail"], ["Mug", 2, 9.5], ["Jug", 3, 24.0])


def formatted(*formats: str) -> bytes:
    book, sheet = sheet_of(*ROWS)
    for row, code in enumerate(formats, start=2):
        sheet.cell(row, 3).number_format = code
    return saved(book)


def cautions(data: bytes, name: str, currency: str = "USD") -> str:
    return said(read_manifest(data, name, {}, currency))


@pytest.mark.parametrize("code", ["#,##0.00\\ [$€-407]", '"€"#,##0.00', "[$EUR] #,##0.00", "[Red]€0.00"])
def test_number_formats_of_another_currency_are_named(code: str) -> None:
    data = formatted(code, code)
    assert "but the currency in force is USD" in cautions(data, "m.xlsx")
    assert "currency" not in cautions(data, "m.xlsx", "EUR")


@pytest.mark.parametrize("code", ["#,##0.00", '0" pcs"', "[$-409]0.00", "[Red]0.00"])
def test_number_formats_without_a_currency_say_nothing(code: str) -> None:
    assert "currency" not in cautions(formatted(code, code), "m.xlsx")


def test_formats_of_two_currencies_are_mixed() -> None:
    assert "mixes currency signs" in cautions(formatted("[$€-407]0.00", "[$£-809]0.00"), "m.xlsx")


def test_formats_that_follow_the_reader_s_country_say_nothing() -> None:
    cells = '<cellXfs><xf numFmtId="44"/></cellXfs>'
    code = '<numFmts><numFmt numFmtId="44" formatCode="&quot;$&quot;0.00"/></numFmts>'
    assert currency_styles(f"<styleSheet>{code}{cells}</styleSheet>".encode()) == {}


def test_typed_currencies_and_tall_cells_of_an_ods() -> None:
    rows = [["Brand", "Item", "Qty", "Retail"], [Tall("Orrin", 2), "Mug", 2, (9.5, "EUR")], ["", "Jug", 3, (24, "EUR")]]
    done = read_manifest(ods(rows), "m.ods", {}, "USD")
    assert "The file marks its amounts EUR" in said(done)
    assert done.lines.brand.tolist() == ["Orrin", "Orrin"]
    assert "currency" not in cautions(ods(rows), "m.ods", "EUR")


@pytest.mark.parametrize(
    "title", ["Prices in GBP", "Load 7 - all amounts in GBP", "Total retail: £91.00", "Currency: GBP", "91.00 GBP"]
)
def test_a_title_says_the_currency_where_no_cell_does(title: str) -> None:
    text = f"{title}\nItem,Qty,Retail\nMug,2,9.50\nJug,3,24.00\n"
    assert "currency in force is USD" in cautions(text.encode(), "m.csv")
    assert "currency" not in cautions(text.encode(), "m.csv", "GBP")
    assert "currency" not in cautions(text.replace(",9.50", ",$9.50").encode(), "m.csv")


@pytest.mark.parametrize("title", ["CAD tools load", "TRY NOW", "Load 7 for Ron", "Lot in PA"])
def test_words_that_only_look_like_codes_say_nothing(title: str) -> None:
    assert "currency" not in cautions(f"{title}\nItem,Qty,Retail\nMug,2,9.50\n".encode(), "m.csv")
