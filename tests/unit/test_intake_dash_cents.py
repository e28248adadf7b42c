"""Amounts of whole francs and euros are written with a dash for the cents: 59.- is money."""

import pytest

from models.intake.manifest import read_manifest


@pytest.mark.parametrize("cents", [".-", ",-", ".–", ",--", ",—"])
@pytest.mark.parametrize("header", ["Katalogpreis", "Katalogpreis CHF", "Ausstellungspreis", "Worth"])
def test_a_dash_stands_for_the_cents(cents: str, header: str) -> None:
    text = f"Artikel;Anzahl;{header}\nUhr;2;59{cents}\nSofa;1;1'289{cents}\nLampe;4;49{cents}\n"
    done = read_manifest(text.encode(), "m.csv", {"tag_each": header}, "CHF")
    assert done.lines.tag_each.tolist() == [5900, 128900, 4900]


def test_a_catalogue_price_is_a_tag() -> None:
    done = read_manifest(b"Artikel;Anzahl;Katalogpreis\nUhr;2;59.-\nSofa;1;89.-\n", "m.csv", {"tag_is": "unit"}, "CHF")
    assert done.mapping["tag_each"] == "Katalogpreis"
