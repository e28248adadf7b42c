"""Costs that a history taught by category: where they hold, and what goes before them."""

from typing import Any

from models.values.in_force import in_force

LEARNED = {"selling": {"fee_share": 0.1, "by_category": {"Toys": {"fee_share": 0.14, "postage_each": "2.00"}}}}


def held(*given: dict[str, Any], category: str = "Toys > Dolls") -> tuple[float, float]:
    """Fee share and postage [minor units] in force for a category."""
    selling = in_force(given, LEARNED).settings.selling_for(category)
    return selling.fee_share, selling.postage_each


def keys(*given: dict[str, Any]) -> dict[str, tuple[Any, str]]:
    """What is told of categories: value and origin by key."""
    told = in_force(given, LEARNED).assumptions
    return {one.key: (one.value, one.source) for one in told if one.key.startswith("selling.by_category")}


def test_a_learned_category_goes_before_what_was_learned_in_all_and_says_so() -> None:
    assert held() == (0.14, 200.0)
    assert held(category="Garden") == (0.1, 0.0)
    assert keys() == {
        'selling.by_category."Toys".fee_share': (0.14, "learned"),
        'selling.by_category."Toys".postage_each': ("2.00", "learned"),
    }


def test_learned_costs_have_the_usual_range() -> None:
    told = {one.key: one for one in in_force([], LEARNED).assumptions}
    assert (told['selling.by_category."Toys".fee_share'].low, told['selling.by_category."Toys".fee_share'].high) == (
        0.08, 0.16,
    )  # fmt: skip


def test_the_sellers_own_word_for_the_whole_shop_goes_before_it() -> None:
    shop = {"selling": {"fee_share": 0.11}}
    assert held(shop) == (0.11, 200.0)
    assert list(keys(shop)) == ['selling.by_category."Toys".postage_each']
    both = {"selling": {"fee_share": 0.11, "postage_each": "0.50"}}
    assert held(both) == (0.11, 50.0)
    assert in_force([both], LEARNED).settings.by_category == {}


def test_a_word_of_the_lot_or_the_source_does_too() -> None:
    for given in (({"selling": {"fee_share": 0.11}}, {}, {}), ({}, {"selling": {"fee_share": 0.11}}, {})):
        assert held(*given) == (0.11, 200.0)


def test_the_sellers_own_word_for_the_category_goes_first_of_all() -> None:
    own = {"selling": {"fee_share": 0.11, "by_category": {"Toys": {"fee_share": 0.2}}}}
    assert held(own) == (0.2, 200.0)
    assert keys(own)['selling.by_category."Toys".fee_share'] == (0.2, "yours")


def test_what_the_seller_says_of_a_part_leaves_the_rest_as_learned() -> None:
    part = {"selling": {"by_category": {"Toys > Dolls": {"postage_each": "3.00"}}}}
    assert held(part) == (0.14, 300.0)
    assert held(part, category="Toys > Kites") == (0.14, 200.0)
    assert held(part | {"goals": {}}, category="Toys") == (0.14, 200.0)


def test_manifests_may_spell_a_category_otherwise() -> None:
    assert held(category="TOYS  > dolls") == (0.14, 200.0)
    assert held(category=" toys ") == (0.14, 200.0)
    assert held(category="Toysmith") == (0.1, 0.0)


def test_a_category_is_the_same_however_it_is_spelled() -> None:
    for spelled in ("toys", "TOYS ", "Toys"):
        own = {"selling": {"by_category": {spelled: {"fee_share": 0.2}}}}
        assert held(own) == (0.2, 200.0)
        assert keys(own)['selling.by_category."Toys".fee_share'] == (0.2, "yours")
    lot, shop = (
        {"selling": {"by_category": {name: {"packing": cost}}}} for name, cost in (("A>b", "2"), ("a > B", "3"))
    )
    assert in_force([lot, {}, shop]).settings.by_category == {"a > B": {"packing": 200.0}}
