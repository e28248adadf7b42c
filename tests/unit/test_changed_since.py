"""What changed between two evaluations, as a list that a seller can read."""

from typing import Any

import pytest

from api.http.pages.change_words import change_words
from models.services.changed_since import Worked, changes, heading

FROZEN: dict[str, Any] = {"mapping": {"description": "Item", "brand": "Maker"}, "edits": []}
FREIGHT = {"key": "buying.freight", "value": "250.00"}
FEE = {"key": 'selling.by_category."Toys > Dolls".fee_share', "value": 0.2}


def document(**given: Any) -> dict[str, Any]:
    ceiling = {"verdict": "bid", "amount": given.pop("amount", "720.00")}
    plain = {"lot": {"currency": "USD"}, "as_of": "2026-06-30", "seed": 1, "assumptions": [FREIGHT]}
    return plain | {"bid_ceiling": ceiling} | given


BEFORE = Worked(document(), FROZEN, 1)


def since(now: dict[str, Any], frozen: dict[str, Any] = FROZEN, version: int = 1) -> list[dict[str, Any]]:
    return list(changes(BEFORE, Worked(now, frozen, version), {5: 4}))


def edit(row: int, prices: list[float], action: str | None = None) -> dict[str, Any]:
    return {"row": row, "looked_up": prices, "action": action}


def test_the_same_question_changed_nothing() -> None:
    assert since(document()) == []


def test_everything_that_differs_is_told_the_ceiling_first() -> None:
    freight = {"key": "buying.freight", "value": "120.00"}
    now = document(amount="0.00", as_of="2026-07-01", seed=5, assumptions=[FEE, freight])
    frozen = {"mapping": {"description": "Item", "sku": "Code"}, "edits": [edit(5, [1250.0], "skip"), edit(9, [100.0])]}
    assert since(now, frozen, 2) == [
        {"what": "bid ceiling", "from": "720.00", "to": "0.00"},
        {"what": "model version", "from": 1, "to": 2},
        {"what": "day", "from": "2026-06-30", "to": "2026-07-01"},
        {"what": "column of the manifest", "column": "brand", "from": "Maker", "to": None},
        {"what": "column of the manifest", "column": "sku", "from": None, "to": "Code"},
        {"what": "looked-up prices", "line": 4, "from": [], "to": ["12.50"]},
        {"what": "what to do with it", "line": 4, "from": None, "to": "skip"},
        {"what": "looked-up prices", "row": 9, "from": [], "to": ["1.00"]},
        {"what": "Freight a pallet", "key": "buying.freight", "from": "250.00", "to": "120.00"},
        {"what": "Selling fee: Toys > Dolls", "key": FEE["key"], "from": None, "to": 0.2},
        {"what": "seed", "from": 1, "to": 5},
    ]


def test_an_evaluation_that_did_not_keep_its_columns_is_not_said_to_have_changed_them() -> None:
    old = Worked(document(), {"edits": []}, 1)
    assert list(changes(old, Worked(document(), FROZEN, 1), {})) == []


def test_where_a_value_came_from_is_no_change() -> None:
    assert since(document(assumptions=[FREIGHT | {"source": "yours"}])) == []


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("buying.premium", "Buyer's premium"),
        ("lot.arrives_on", "Day the lot arrives"),
        ('selling.by_category."A ""b""".packing', 'Packing material an order: A ""b""'),
        ("no.such", "no.such"),
    ],
)
def test_settings_are_named_by_their_sentence(key: str, said: str) -> None:
    assert heading(key) == said


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"what": "bid ceiling", "from": "720.00", "to": "0.00"}, "bid ceiling: pass (before: $720)"),
        ({"what": "day", "from": "2026-06-30", "to": "2026-07-01"},
         "worked out as of: Wed 1 Jul 2026 (before: Tue 30 Jun 2026)"),
        ({"what": "model version", "from": 1, "to": 2}, "version of what was learned: 2 (before: 1)"),
        ({"what": "seed", "from": 1, "to": 2}, "seed: 2 (before: 1)"),
        ({"what": "looked-up prices", "line": 4, "from": [], "to": ["12.50", "9.00"]},
         "line 4, looked-up prices: $12.50, $9 (before: none)"),
        ({"what": "what to do with it", "line": 4, "from": None, "to": "skip"},
         "line 4, what to do with it: not worth a listing (before: what pays best)"),
        ({"what": "what to do with it", "row": 9, "from": "skip", "to": None},
         "row 9 of the manifest, what to do with it: what pays best (before: not worth a listing)"),
        ({"what": "column of the manifest", "column": "brand", "from": "Maker", "to": None},
         "column Brand: none (before: “Maker”)"),
        ({"what": "-", "key": "buying.premium", "from": 0.15, "to": 0.125}, "Buyer's premium: 12.5% (before: 15%)"),
        ({"what": "-", "key": "lot.current_bid", "from": None, "to": "310.00"},
         "The bid that stands now: $310 (before: not set)"),
    ],
)  # fmt: skip
def test_each_change_is_said_the_same_way(change: dict[str, Any], said: str) -> None:
    assert change_words(change, "USD") == said
