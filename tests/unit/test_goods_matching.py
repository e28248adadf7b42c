"""Words name kinds of goods: whole words in any case and five languages; what only goes with such goods does not."""

import pytest

from models.values.conditions import CONDITIONS
from models.values.goods_beside import BESIDE, WITH_BESIDE
from models.values.goods_kinds import GOODS_KINDS, USUALLY_NOT_LISTED
from models.values.goods_matching import goods_named
from models.values.goods_together import TOGETHER
from models.values.goods_words import CATEGORIES, WORDS

PERHAPS = "maybe_not_listed"


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
        ("Formula dispenser and baby formula", {"infant_formula"}),
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


@pytest.mark.parametrize(
    "goods",
    [
        "Light mount for bike helmet", "Helmet wall display stand", "Bluetooth helmet intercom", "Car seat for pets",
        "Baby car seat rain cover", "Crib notes, exam", "Cot travel sheet", "Formula pitcher", "Baby formula maker",
        "Insulin pen needle 31G", "Shampoo basin", "Inflatable mattress double", "Baby wash gentle formula 12 oz",
    ],
)  # fmt: skip
def test_something_for_such_goods_is_none(goods: str) -> None:
    assert not {*USUALLY_NOT_LISTED, PERHAPS} & set(goods_named(goods))


@pytest.mark.parametrize(
    ("goods", "words"),
    [
        ("Gladiator helmet plastic costume", "helmet"),
        ("Collectible mini rugby helmet", "helmet"),
        ("Action figure with helmet", "helmet"),
        ("Bike helmet light 200 lm", "helmet"),
        ("Sun shade for infant car seat", "car seat"),
        ("Booster seat cushion", "booster seat"),
        ("Racing car seat bucket", "car seat"),
        ("Cat helmet", "helmet"),
        ("Mattress firm pillow", "mattress"),
        ("Powder formula 12.6oz", "formula"),
        ("Ready to feed 32 fl", "ready to feed"),
        ("Wooden cradle", "cradle"),
        ("Aspirin box", "aspirin"),
        ("Helmet case 12", "helmet"),
        ("Casque moto jouet", "casque moto"),
    ],
)
def test_words_that_leave_it_open_are_a_caution_only(goods: str, words: str) -> None:
    found = goods_named(goods)
    assert found[PERHAPS] == words
    assert not set(USUALLY_NOT_LISTED) & set(found)


@pytest.mark.parametrize(
    ("goods", "kind"),
    [
        ("Bike helmet, bag", "helmet"),
        ("Bike helmet / cover", "helmet"),
        ("Baby crib & sheet", "crib"),
        ("Baby crib with toy bar", "crib"),
        ("Infant car seat w/ canopy", "child_seat"),
        ("Infant car seat, isofix compatible", "child_seat"),
        ("Helmets case 12", "helmet"),
        ("Bike helmet light blue", "helmet"),
        ("Lipstick light pink", "cosmetics"),
        ("Formula plant based 12.9oz, baby", "infant_formula"),
        ("Helmet case 6 pcs", "helmet"),
        ("Mattress pillow top, queen", "mattress"),
        ("Rear facing seat 0-13 kg", "child_seat"),
        ("Stroller travel system", "child_seat"),
        ("Infant CS base", "child_seat"),
        ("Formula RTF 8oz", "infant_formula"),
        ("Organic formula toddler 12-36m", "infant_formula"),
        ("Ready to feed infant 32 oz", "infant_formula"),
        ("Toddler milk powder", "infant_formula"),
        ("Pack & play", "crib"),
        ("Rocking baby cradle", "crib"),
        ("Padded crib bumper pad", "banned_sleep"),
        ("Honey cough drops", "medicine"),
        ("Ski-Helm", "helmet"),
    ],
)
def test_the_thing_itself_stays_off_the_list(goods: str, kind: str) -> None:
    assert kind in goods_named(goods)


@pytest.mark.parametrize(
    ("goods", "kinds"),
    [
        ("Cordless vacuum", {"battery_inside"}),
        ("Rechargeable fan", {"battery_inside"}),
        ("Cordless glass kettle", set()),
        ("Laptop bag 15.6", set()),
        ("Tablet case 10 inch", set()),
        ("Charger for 15 inch laptop", set()),
        ("Water purification tablets", set()),
        ("Chlorine tablets", {"hazardous_post"}),
        ("Canned air duster", {"hazardous_post"}),
        ("Electric air duster", set()),
        ("12V car battery", {"hazardous_post"}),
        ("Car battery charger", set()),
        ("Drill battery 18V", {"battery"}),
        ("Portable power station 500Wh", {"battery"}),
        ("Phone locked to account", {"battery_inside", "personal_data"}),
        ("Phone case 5G", set()),
        ("Android phone 64GB with case", {"battery_inside", "personal_data"}),
        ("Tablet 10 in water resistant", {"battery_inside", "personal_data"}),
    ],
)
def test_words_beside_decide_what_is_posted_and_wiped(goods: str, kinds: set[str]) -> None:
    assert set(goods_named(goods)) == kinds


@pytest.mark.parametrize("category", ["Toys > Costumes & Accessories", "Pet Supplies", "Dolls"])
def test_in_categories_of_toys_and_pets_no_word_keeps_a_line_off_the_list(category: str) -> None:
    assert dict(goods_named("Helmet and perfume", category)) == {
        PERHAPS: "helmet", "hazardous_post": "perfume", "often_copied": "perfume",
    }  # fmt: skip


def test_what_named_it_is_told() -> None:
    assert dict(goods_named("2 x Power Bank")) == {"battery": "power bank"}


def test_tables_speak_of_the_same_kinds() -> None:
    assert set(WORDS) | {PERHAPS} == set(GOODS_KINDS)
    assert PERHAPS not in USUALLY_NOT_LISTED
    assert GOODS_KINDS[PERHAPS].cautioned == set(CONDITIONS)
    assert {kind for row in TOGETHER for kind in row.kinds} <= set(WORDS)
    assert set(CATEGORIES) | set(BESIDE) | set(WITH_BESIDE) <= set(GOODS_KINDS)
    assert {"child_seat", "helmet", "crib"} <= set(USUALLY_NOT_LISTED)


@pytest.mark.parametrize("kind", WORDS)
def test_every_word_of_the_tables_names_its_kind(kind: str) -> None:
    words = [one.strip() for listed in WORDS[kind].values() for one in listed.split(",")]
    assert set(WORDS[kind]) >= {"en", "de", "fr", "es", "it"}
    assert all(one for one in words), "an empty word would match nothing"
    assert [one for one in words if kind not in goods_named(one)] == []
    assert [one for one in CATEGORIES.get(kind, "").split(",") if one and kind not in goods_named("", one)] == []
