"""What evaluations of several lots have in common, on SQLite and on PostgreSQL."""

import datetime as dt

import pytest

from models.services.submit_lot import LotAsked, submit_lot
from models.services.users import open_shop
from models.store.queries.evaluations import NewEvaluation
from models.store.queries.model_versions import Fitted
from models.store.records import ShopId, Upload
from models.store.unit_of_work import Store, UnitOfWork

LOTS = (
    (("a", "list", "10.00"), ("b", "bundle", "4.00"), ("c", "list", "3.00"), ("b", "list", "2.00")),
    (("a", "list", "7.50"), ("b", "list", "9.00"), ("c", "skip", "3.00")),
    (("a", "list", "1.00"), ("d", "list", "5.00")),
)


def evaluated(work: UnitOfWork, shop: ShopId, lines: tuple[tuple[str, str, str], ...]) -> str:
    made = submit_lot(work, shop, Upload("m.csv", [b"-"]), LotAsked("A lot"))
    document = {"lot": {"name": "A lot"}, "bid_ceiling": {"verdict": "bid", "amount": "10.00"}}
    rows = [
        {"no": no, "item": item, "quantity": 1, "action": action, "cash_proceeds": cash}
        for no, (item, action, cash) in enumerate(lines, 1)
    ]
    assert made.job is not None
    frozen = {"given": [{"goals": {"confidence": 0.7}}]}
    new = NewEvaluation(1, 7, dt.date(2026, 7, 1), 2, frozen, document, rows, b"draws")
    return work.evaluations.add(shop, made.subject.id, made.job.id, new)


@pytest.fixture
def three(store: Store, shop: ShopId) -> list[str]:
    """Evaluations of three lots."""
    with store.write() as work:
        version = work.models.add(shop, dt.date(2026, 7, 1), 1)
        work.models.save_fitted(shop, version.id, Fitted(b"model", "print", 12, {}, {}))
        return [evaluated(work, shop, lines) for lines in LOTS]


def test_items_of_several_lots_are_counted_with_the_cash_they_count_twice(
    store: Store, shop: ShopId, three: list[str]
) -> None:
    with store.read() as work:
        assert work.drawn.shared_items(shop, three) == (2, 7.5 + 1.0 + 6.0)
        assert work.drawn.shared_items(shop, three[:1]) == (0, 0.0)
        assert work.drawn.shared_items(shop, three[1:]) == (1, 1.0)


def test_facts_of_evaluations_come_oldest_first_and_only_to_their_shop(
    store: Store, shop: ShopId, three: list[str]
) -> None:
    with store.write() as work:
        other = open_shop(work, "Other").id
        found = work.drawn.of(shop, three[::-1])
        assert {one.evaluation_id for one in found} == set(three)
        assert [one.created_at for one in found] == sorted(one.created_at for one in found)
        assert {(one.seed, one.model_version, one.as_of, one.draw_format) for one in found} == {
            (7, 1, dt.date(2026, 7, 1), 2)
        }
        assert found[0].frozen == {"given": [{"goals": {"confidence": 0.7}}]}
        assert work.drawn.of(other, three) == ()
        assert work.drawn.shared_items(other, three) == (0, 0.0)
