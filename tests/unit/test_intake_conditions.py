"""Which state a condition wording means, as files really spell it; what is taken back or qualified is not believed."""

import pytest

from models.intake.cells.conditions import read_conditions
from models.values.conditions import name_of


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("New", "sealed"),
        ("BRAND NEW - SEALED", "sealed"),
        ("NWT", "sealed"),
        ("Overstock", "sealed"),
        ("Shelf Pulls", "sealed"),
        ("Never used", "sealed"),
        ("Neu (OVP)", "sealed"),
        ("Open Box", "opened"),
        ("O/B", "opened"),
        ("New other (see details)", "opened"),
        ("new, box damaged", "opened"),
        ("New - damaged packaging", "opened"),
        ("Used - Like New", "opened"),
        ("Tested, working", "works"),
        ("Refurbished - Grade A", "works"),
        ("Used - Very Good", "works"),
        ("tested return", "works"),
        ("Used", "worn"),
        ("Pre-owned", "worn"),
        ("Fair", "worn"),
        ("gebraucht", "worn"),
        ("Scratch & Dent", "worn"),
        ("Customer Returns", "untested"),
        ("UNTESTED CUSTOMER RETURN", "untested"),
        ("As-Is", "untested"),
        ("used, not tested", "untested"),
        ("Salvage", "salvage"),
        ("Beschadigd", "salvage"),
        ("uszkodzony", "salvage"),
        ("HS pour pièces", "salvage"),
        ("Retour, niet getest", "untested"),
        ("Verpackung beschädigt", "opened"),
        ("For parts or not working", "salvage"),
        ("Doesn't work", "salvage"),
        ("non-functional", "salvage"),
        ("Tested - does not power on", "salvage"),
        ("Très bon état", "works"),
        ("Refurbished, like new", "works"),
        ("100% new", "sealed"),
        ("90% new", None),
        ("Grade B", None),
        ("3000", None),
        ("banana", None),
        ("Nuevo en caja", "sealed"),
        ("New, never opened or used", "sealed"),
        ("New - no defects or damage", "sealed"),
        ("Works great", "works"),
        ("Refurbished, new battery", "works"),
        ("Neu, OVP beschädigt", "opened"),
        ("Seal broken", "opened"),
        ("Not in box - new", "opened"),
        ("DOA", "salvage"),
        ("Warehouse_Damage", "salvage"),
        ("Unsellable", "salvage"),
        ("Nuovo difettoso", "salvage"),
        ("Returned - new", "untested"),
        ("Untested, for parts", "salvage"),
        ("Open box, cosmetic damage", "worn"),
        ("Used, no box", "worn"),
        ("Tested working, damaged box", "works"),
        ("Customer return, box torn", "untested"),
        ("1000 - New", "sealed"),
        ("Neuf avec étiquette", "sealed"),
        ("Neuf sans étiquette", "opened"),
        ("Excellent, used once", "works"),
    ],
)
def test_condition_wordings(words: str, name: str | None) -> None:
    (reading,) = read_conditions([words])
    assert name_of(reading.value) == name
    assert bool(reading.doubt) == (name is None)


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Not sealed", "opened"),
        ("Unsealed new", "opened"),
        ("Not brand new", "worn"),
        ("isn't new", "worn"),
        ("Nicht neu", "worn"),
        ("Niet nieuw", "worn"),
        ("New - stained", "worn"),
        ("New, shelf wear", "worn"),
        ("Nicht getestet", "untested"),
        ("Never been tested or inspected", "untested"),
        ("New w/ defects", "salvage"),
        ("Neu mit Mängeln", "salvage"),
        ("Neuf avec défaut", "salvage"),
        ("nuovo con un difetto", "salvage"),
        ("New - incomplete", "salvage"),
        ("Not in working order", "salvage"),
        ("Tested: no. Broken", "salvage"),
        ("ne fonctionne pas", "salvage"),
        ("Not refurbished", None),
        ("Not defective", None),
        ("No missing parts", None),
        ("Not a return", None),
        ("no returns or salvage", None),
        ("New, missing remote", None),
        ("Working - no charger", None),
        ("Mostly new", None),
        ("Looks new", None),
        ("NEW?", None),
        ("New 7/10", None),
        ("Expired new", None),
        ("New, blade gone", None),
    ],
)
def test_a_good_condition_that_is_taken_back_or_qualified_is_not_believed(words: str, name: str | None) -> None:
    (reading,) = read_conditions([words])
    assert name_of(reading.value) == name
    assert bool(reading.doubt) == (name is None)
