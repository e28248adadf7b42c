"""Words name kinds of goods: whole words in any case and five languages; what only goes with such goods does not."""

import pytest

from models.values.goods_beside import BESIDE, WITH_BESIDE
from models.values.goods_kinds import GOODS_KINDS, USUALLY_NOT_LISTED
from models.values.goods_matching import goods_named
from models.values.goods_words import CATEGORIES, WORDS


@pytest.mark.parametrize(
    ("description", "kinds"),
    [
        ("Bike HELMET, size M", {"helmet"}),
        ("Fahrradhelm Größe M", {"helmet"}),
        ("Casco de bicicleta", {"helmet"}),
        ("Helmet bag", set()),
        ("helmets case pack of 6", {"helmet"}),
        ("Toy helmet", set()),
        ("Overwhelmed helmeted rider figure", set()),
        ("Siège-auto bébé", {"child_seat"}),
        ("Infant car seat with base", {"child_seat"}),
        ("Car seat covers, set of 2", set()),
        ("Car seat with car seat cover", {"child_seat"}),
        ("Gap filler, car seat gap filler", set()),
        ("Convertible crib, white", {"crib"}),
        ("Crib sheet 2 pk", set()),
        ("Cribbage board", set()),
        ("Powdered INFANT FORMULA 800 g", {"infant_formula"}),
        ("Formula dispenser for baby formula", {"infant_formula"}),
        ("Paracetamol 500 mg", {"medicine"}),
        ("Medicine cabinet with mirror", set()),
        ("Rouge à lèvres", {"cosmetics"}),
        ("Makeup bag", set()),
        ("Memory foam mattress", {"mattress"}),
        ("Mattress topper double", set()),
        ("Luftmatratze", set()),
        ("Protein powder 1 kg", {"food"}),
        ("Chocolate brown rug", set()),
        ("Powerbanks 10000 mAh", {"battery"}),
        ("Cells 3.7V Li-ion", {"battery"}),
        ("20V cordless drill", {"battery_inside"}),
        ("Dry hair spray", {"hazardous_post"}),
        ("Feuerzeug", {"hazardous_post"}),
        ("Matches any decor", set()),
        ("Parfüm 50 ml", {"hazardous_post", "often_copied"}),
        ("Designer handbag", {"often_copied"}),
        ("Over-ear headphones", {"often_copied"}),
        ("Headphone stand", set()),
        ("Running trainers", {"often_copied"}),
        ("Laptop 15 in", {"battery_inside", "personal_data"}),
        ("Laptop sleeve 15 in", set()),
        ("Trim router 600 W", set()),
        ("Kettle 220-240V", {"mains"}),
        ("Space heater 1500 W", {"often_recalled"}),
        ("Blue mug", set()),
        ("", set()),
        ("\U0001f525 \x00 '' =1+1", set()),
    ],
)
def test_words_name_kinds(description: str, kinds: set[str]) -> None:
    assert set(goods_named(description)) == kinds


@pytest.mark.parametrize(
    ("description", "category", "kinds"),
    [
        ("Grey, one size", "Baby > Car Seats", {"child_seat"}),
        ("Grey", "baby > CRIBS & Bassinets > x", {"crib"}),
        ("Grey", "Baby > Cribs and bassinets", {"crib"}),
        ("Helmet bag", "Sport > Helmets", set()),
        ("Grey", "Sport > Helmets and racks", set()),
        ("Lamp", "Home > Lighting", set()),
        ("Helmet", "Sport > Helmets", {"helmet"}),
    ],
)
def test_a_whole_part_of_the_category_names_a_kind(description: str, category: str, kinds: set[str]) -> None:
    assert set(goods_named(description, category)) == kinds


def test_what_named_it_is_told() -> None:
    assert dict(goods_named("2 x Power Bank")) == {"battery": "power bank"}


def test_tables_speak_of_the_same_kinds() -> None:
    assert set(WORDS) == set(GOODS_KINDS)
    assert set(CATEGORIES) | set(BESIDE) | set(WITH_BESIDE) <= set(GOODS_KINDS)
    assert {"child_seat", "helmet", "crib"} <= set(USUALLY_NOT_LISTED)


@pytest.mark.parametrize("kind", GOODS_KINDS)
def test_every_word_of_the_tables_names_its_kind(kind: str) -> None:
    words = [one.strip() for listed in WORDS[kind].values() for one in listed.split(",")]
    assert set(WORDS[kind]) >= {"en", "de", "fr", "es", "it"}
    assert all(one for one in words), "an empty word would match nothing"
    assert [one for one in words if kind not in goods_named(one)] == []
    assert [one for one in CATEGORIES.get(kind, "").split(",") if one and kind not in goods_named("", one)] == []
