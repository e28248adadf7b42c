"""What changed between two evaluations, as a list that a seller can read."""

from typing import Any

import pytest
from stored_lot import stored_lot, under

from api.http.pages.change_words import change_words
from models.appraisal.ceiling_moves import Move, ceiling_moves
from models.appraisal.judge import read_ceiling
from models.services.changed_since import Worked, changes, heading, ranked

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
        ({"what": "-", "key": 'selling.by_category."Kitchen".packing', "from": "1.00", "to": "2.50", "moves": "-40.00"},
         "Packing material an order (Kitchen): $2.50 (before: $1), which alone lowers the ceiling by $40"),
        ({"what": "-", "key": "buying.freight", "from": "250.00", "to": "120.00", "moves": "130.00"},
         "Freight a pallet: $120 (before: $250), which alone raises the ceiling by $130"),
        ({"what": "-", "key": "buying.freight", "from": "250.00", "to": "250.10", "moves": "0.00"},
         "Freight a pallet: $250.10 (before: $250)"),
        ({"what": "-", "key": "lot.current_bid", "from": None, "to": "310.00"},
         "The bid that stands now: $310 (before: not set)"),
    ],
)  # fmt: skip
def test_each_change_is_said_the_same_way(change: dict[str, Any], said: str) -> None:
    assert change_words(change, "USD") == said


PREMIUM = {"what": "Buyer's premium", "key": "buying.premium", "from": 0.15, "to": 0.1}
OTHER = {"what": "Freight a pallet", "key": "buying.freight", "from": "250.00", "to": "120.00"}
VERSION = {"what": "model version", "from": 1, "to": 2}
SEEDS = {"what": "seed", "from": 1, "to": 2}


def total(to: str) -> dict[str, Any]:
    return {"what": "bid ceiling", "from": "700.00", "to": to}


def named(found: list[dict[str, Any]]) -> list[str]:
    return [one["what"] for one in found]


def test_the_largest_effect_on_the_ceiling_comes_first() -> None:
    moves = {"buying.premium": Move(2_000.0, 2_100.0), "buying.freight": Move(-13_000.0, -13_000.0)}
    found = ranked([total("590.00"), PREMIUM, OTHER, SEEDS], moves, "USD")
    assert named(found) == ["bid ceiling", "Freight a pallet", "Buyer's premium", "seed"]
    assert [one.get("moves") for one in found] == [None, "-130.00", "20.00", None]


def test_what_cannot_be_read_alone_stands_where_the_rest_of_the_move_would() -> None:
    moves = {"buying.premium": Move(2_000.0, 2_100.0), "buying.freight": Move(13_000.0, 13_000.0)}
    found = ranked([total("1150.00"), PREMIUM, OTHER, VERSION], moves, "USD")
    assert named(found) == ["bid ceiling", "model version", "Freight a pallet", "Buyer's premium"]


def test_where_no_bid_step_moves_the_unrounded_ceiling_decides() -> None:
    moves = {"buying.premium": Move(0.0, 21.0), "buying.freight": Move(0.0, -40.0)}
    assert named(ranked([PREMIUM, OTHER], moves, "USD")) == ["Freight a pallet", "Buyer's premium"]


def test_a_move_is_the_ceiling_less_what_it_would_be_with_the_former_value() -> None:
    stored = stored_lot()
    fee = 'selling.by_category."Toys".fee_share'
    now, before = under({"buying": {"freight": "120"}}).settings, under({"buying": {"freight": "250"}}).settings
    former = {"buying.freight": "250.00", "goals.horizon_weeks": 20.0, fee: None, "lot.current_bid": None}
    moves = ceiling_moves(stored, now, former | {"buying.premium": None, "no.such": 1})
    assert moves["buying.freight"].whole == read_ceiling(stored, now).amount - read_ceiling(stored, before).amount > 0
    assert moves[fee].whole < 0, "the general fee, which held before, is lower"
    assert set(moves) == {"buying.freight", fee, "lot.current_bid"}, "the horizon is not read again"
