"""What an assumption does to the ceiling: both ends of its range, by the same reading as the ceiling itself."""

from typing import Any

import pytest
from stored_lot import stored_lot, under

from models.appraisal.assumptions import assumption_documents
from models.appraisal.judge import judge
from models.values.in_force import InForce, in_force
from models.values.settings import REGISTRY

STORED = stored_lot()
HELD = under()
RANGED = {key for key, declared in REGISTRY.items() if declared.low is not None}


def told(held: InForce = HELD) -> list[dict[str, Any]]:
    return assumption_documents(STORED, held)


def ceiling(document: dict[str, Any]) -> str:
    return f"{judge(STORED, under(document).settings).ceiling.amount / 100:.2f}"


def test_every_setting_in_force_is_told_once() -> None:
    keys = [one["key"] for one in told()]
    assert set(keys) == set(REGISTRY) | {'selling.by_category."Toys".fee_share'}
    assert len(keys) == len(set(keys))


def test_ceilings_are_told_where_there_is_a_range_and_nowhere_else() -> None:
    assert {one["key"] for one in told() if one["ceiling_low"] is not None} == RANGED
    for one in told():
        assert (one["ceiling_low"] is None) == (one["ceiling_high"] is None) == (one["low"] is None)


def test_what_the_seller_gave_is_no_assumption() -> None:
    by_key = {one["key"]: one for one in told(under({"buying": {"freight": 300}}))}
    assert (by_key["buying.freight"]["source"], by_key["buying.freight"]["ceiling_low"]) == ("yours", None)


@pytest.mark.parametrize(
    ("key", "low", "high"),
    [("freight", 150, 450), ("tax_rate", 0.0, 0.10), ("premium", 0.05, 0.25), ("payment_surcharge", 0.0, 0.04)],
)
def test_an_unknown_buying_term_is_shown_as_the_two_ceilings_it_makes(key: str, low: float, high: float) -> None:
    one = next(one for one in told() if one["key"] == f"buying.{key}")
    assert one["ceiling_low"] == ceiling({"buying": {key: high}})
    assert one["ceiling_high"] == ceiling({"buying": {key: low}})
    assert one["held"] == []


def test_the_ceiling_in_force_lies_between_both() -> None:
    now = float(ceiling({}))
    for one in told():
        if one["ceiling_low"] is not None:
            assert float(one["ceiling_low"]) <= now <= float(one["ceiling_high"]), one["key"]


def test_widest_first_and_untold_ones_last() -> None:
    widths = [float(one["ceiling_high"]) - float(one["ceiling_low"]) if one["ceiling_low"] else -1.0 for one in told()]
    assert widths == sorted(widths, reverse=True)
    assert widths[0] > 50
    assert widths[-1] == -1.0


def test_a_scaled_assumption_names_what_both_ends_keep() -> None:
    by_key = {one["key"]: one for one in told()}
    assert "keeps which lines are listed" in by_key["lot.missing_share"]["held"][0]
    assert "held" not in by_key["goals.confidence"]


def test_a_learned_setting_has_its_range_too() -> None:
    held = in_force([], {"selling": {"postage_each": "3.10"}, "effort": {"minutes_first": 31.0}})
    by_key = {one["key"]: one for one in told(held)}
    postage, first = by_key["selling.postage_each"], by_key["effort.minutes_first"]
    assert (postage["source"], first["source"]) == ("learned", "learned")
    assert float(postage["ceiling_low"]) < float(postage["ceiling_high"])
    assert float(first["ceiling_low"]) <= float(first["ceiling_high"])  # learned beyond its range, both ends below it


def test_amounts_of_another_currency_have_no_range() -> None:
    by_key = {one["key"]: one for one in told(in_force([{"currency": "JPY"}]))}
    assert by_key["buying.freight"]["ceiling_low"] is None
    assert by_key["buying.premium"]["ceiling_low"] is not None


def test_the_ends_of_a_general_key_are_what_giving_it_does() -> None:
    """A seller's general word takes back what was learned of categories, so both ends hold everywhere."""
    learned = {"selling": {"postage_each": "1.00", "by_category": {"Toys": {"postage_each": "5.00"}}}}
    by_key = {one["key"]: one for one in told(in_force([], learned))}
    one = by_key["selling.postage_each"]
    ends = [judge(STORED, in_force([{"selling": {"postage_each": end}}], learned).settings) for end in ("8", "0")]
    assert [one["ceiling_low"], one["ceiling_high"]] == [f"{end.ceiling.amount / 100:.2f}" for end in ends]
    of_toys = by_key['selling.by_category."Toys".postage_each']
    assert float(of_toys["ceiling_high"]) < float(one["ceiling_high"])
    assert [told.split(":")[0] for told in one["held"]] == ["selling.postage_each"] * len(one["held"])
