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
        ("Emballage ouvert", "opened"),
        ("Verpackung geöffnet", "opened"),
        ("Verpackung nicht geöffnet", "sealed"),
        ("Emballage jamais ouvert", "sealed"),
        ("Occasion, boîte ouverte", "worn"),
        ("Occasion - très bon état", "works"),
        ("Pas en bon état", None),
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


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("works", "Gebraucht - sehr gut; Gebraucht, gut; Gebraucht, guter Zustand; Geprüft, funktioniert"),
        ("works", "Occasion - très bon état; Testé, fonctionne; Usado - buen estado; Usado - bueno; Probado, funciona"),
        ("works", "Usato - buono; Usato - buone condizioni; Testato, funzionante; Gebruikt - goed; Getest en werkend"),
        ("opened", "Neu - geöffnete Verpackung; Geoeffnete Verpackung; Boîte ouverte; Neuf, emballage ouvert"),
        ("opened", "Caja abierta; Scatola aperta; Nuovo - confezione aperta; Geopende verpakking; Non sigillato"),
        ("untested", "Ungeprüfte Kundenretouren; Gebraucht, ungeprüft; Retours clients non testés; Resi non testati"),
        (
            "untested",
            "Retourenware; Devoluciones de clientes; No probado; Reso cliente; Klantretour, niet getest; Ongetest",
        ),
        ("salvage", "Für Bastler; Fuer Ersatzteile; Hors service; Voor onderdelen; Geprüft, defekt; Niet werkend"),
        ("worn", "Occasion - état correct; Occasion - usé; Gebraucht - gut, leichte Gebrauchsspuren"),
        ("sealed", "Neuf emballé; Nuovo sigillato; Jamais ouvert; Nunca abierto; Neu, keine Gebrauchsspuren"),
        (None, "Weniger gut; Mauvais état; Assez bon état; Niet goed; Funktioniert nicht; Gut?; Gut, ohne Akku"),
        (None, "Gut verpackt; Usato - buono, manca cavo; Ouvert, manque le câble; Special Occasion"),
    ],
)
def test_condition_wordings_abroad(name: str | None, words: str) -> None:
    listed = words.split("; ")
    read = read_conditions(listed)
    assert {word: name_of(one.value) for word, one in zip(listed, read, strict=True)} == dict.fromkeys(listed, name)
