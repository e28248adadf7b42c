"""Lots, evaluations and their lines: pages in any order, what is current, what goes when a lot goes."""

import datetime as dt
from typing import Any

import pytest
import sqlalchemy as sa
from histories import some_lines

from models.services.cancel_job import cancel_job
from models.services.delete_lot import delete_lot
from models.services.read_evaluations import read_evaluation, read_evaluations
from models.services.read_jobs import get_latest_job, read_job
from models.services.read_lines import LinesAsked, all_lines, read_lines
from models.services.read_lots import read_lot, read_lots
from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.services.submit_lot import LotAsked, submit_lot
from models.services.submit_training import submit_training
from models.services.users import open_shop
from models.store.paging import cursor_of
from models.store.queries.evaluations import NewEvaluation
from models.store.queries.model_versions import Fitted
from models.store.records import ShopId, Upload
from models.store.states import FileState, JobState, ModelState
from models.store.tables.every import metadata
from models.store.unit_of_work import Store, UnitOfWork
from models.values.errors import Conflict, NotFound, Rejected

ACTIONS, BASES = ("list", "skip", "bundle"), ("own_item", "category")


def new_lot(work: UnitOfWork, shop: ShopId, name: str = "A lot") -> str:
    return submit_lot(work, shop, Upload("m.csv", [b"description\nmug\n"]), LotAsked(name)).subject.id


def contract_line(no: int) -> dict[str, Any]:
    return {
        "no": no, "source_row": no + 1, "description": f"Thing {no}", "brand": "Kestrel" if no % 2 else "Ostrewell",
        "category": "Home", "condition": "sealed", "quantity": no % 4 + 1,
        "tag_each": None if no % 3 == 0 else f"{no}.50",
        "unit_price": {"mean": f"{10 - no}.00"}, "share_sold": 0.5, "cash_proceeds": f"{-no}.25",
        "action": ACTIONS[no % 3], "evidence": {"basis": BASES[no % 2], "sales_like_it": no},
    }  # fmt: skip


def evaluated(work: UnitOfWork, shop: ShopId, lot_id: str, job_id: str, amount: str = "10.00", lines: int = 10) -> str:
    document = {"lot": {"name": "A lot"}, "bid_ceiling": {"verdict": "bid", "amount": amount}}
    rows = [contract_line(no) for no in range(1, lines + 1)]
    new = NewEvaluation(1, 1, dt.date(2026, 7, 1), 1, {"given": []}, document, rows, b"draws")
    return work.evaluations.add(shop, lot_id, job_id, new)


def fitted_model(work: UnitOfWork, shop: ShopId) -> int:
    version = work.models.add(shop, dt.date(2026, 7, 1), 1)
    work.models.save_fitted(shop, version.id, Fitted(b"model", "print", 12, {"backlog": {"hours_per_week": 9.0}}, {}))
    return version.number


@pytest.fixture
def lot_id(store: Store, shop: ShopId) -> str:
    """A lot with one evaluation of ten lines."""
    with store.write() as work:
        work.models.activate(shop, fitted_model(work, shop))
        made = new_lot(work, shop)
        job = get_latest_job(work, shop, made)
        assert job is not None
        evaluated(work, shop, made, job.id)
    return made


def numbers(store: Store, shop: ShopId, lot_id: str, sort: str, limit: int = 3) -> list[int]:
    """Line numbers in this order, page by page."""
    seen: list[int] = []
    cursor: str | None = None
    with store.read() as work:
        while True:
            page = read_lines(work, shop, lot_id, LinesAsked(sort, "", limit, cursor))
            seen += [one["no"] for one in page.items]
            cursor = page.next
            if cursor is None:
                return seen


@pytest.mark.parametrize(
    ("sort", "expected"),
    [
        ("no", [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]),
        ("-no", [10, 9, 8, 7, 6, 5, 4, 3, 2, 1]),
        ("quantity", [4, 8, 1, 5, 9, 2, 6, 10, 3, 7]),
        ("-quantity", [3, 7, 2, 6, 10, 1, 5, 9, 4, 8]),
        ("tag_each", [1, 2, 4, 5, 7, 8, 10, 3, 6, 9]),
        ("-tag_each", [10, 8, 7, 5, 4, 2, 1, 3, 6, 9]),
        ("cash_proceeds", [10, 9, 8, 7, 6, 5, 4, 3, 2, 1]),
        ("brand", [1, 3, 5, 7, 9, 2, 4, 6, 8, 10]),
        ("days_to_sell", [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]),
        ("-sales_like_it", [10, 9, 8, 7, 6, 5, 4, 3, 2, 1]),
    ],
)
def test_lines_in_any_order_come_once(store: Store, shop: ShopId, lot_id: str, sort: str, expected: list[int]) -> None:
    assert numbers(store, shop, lot_id, sort) == expected


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("kestrel", [1, 3, 5, 7, 9]),
        ("KESTREL action:list", [3, 9]),
        ("basis:own", [2, 4, 6, 8, 10]),
        ("thing 10", [10]),
        ("100%", []),
        ("_", []),
        ("color:red", []),
    ],
)
def test_lines_by_words(store: Store, shop: ShopId, lot_id: str, words: str, expected: list[int]) -> None:
    with store.read() as work:
        page = read_lines(work, shop, lot_id, LinesAsked(filter=words))
    assert [one["no"] for one in page.items] == expected


def test_unknown_orders_and_cursors_are_refused(store: Store, shop: ShopId, lot_id: str) -> None:
    with store.read() as work:
        cursor = read_lines(work, shop, lot_id, LinesAsked("no", "", 2)).next
        for asked in (
            LinesAsked(sort="document"),
            LinesAsked(sort="quantity", cursor=cursor),
            LinesAsked(cursor=cursor_of(("no", "x", 1))),
            LinesAsked(cursor=cursor_of(("no", 2**70, 1))),
            LinesAsked(sort="brand", cursor=cursor_of(("brand", 1, 1))),
            LinesAsked(limit=0),
        ):
            with pytest.raises(Rejected):
                read_lines(work, shop, lot_id, asked)


def test_lines_before_an_evaluation_are_the_manifests(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        made = new_lot(work, shop)
        work.lines.replace(shop, made, some_lines(5))
    with store.read() as work:
        page = read_lines(work, shop, made, LinesAsked(sort="-quantity", limit=2))
        assert [one["no"] for one in page.items] == [5, 4]
        assert (page.items[0]["tag_each"], page.items[1]["tag_each"]) == ("20.03", None)
        assert "unit_price" not in page.items[0]
        assert [one["no"] for one in read_lines(work, shop, made, LinesAsked(filter="kitchen")).items] == [2, 4]
        assert all_lines(work, shop, made) == ()
        for asked in (LinesAsked(sort="cash_proceeds"), LinesAsked(filter="action:list")):
            with pytest.raises(Rejected):
                read_lines(work, shop, made, asked)


def test_the_evaluation_carries_its_ids_and_model(store: Store, shop: ShopId, lot_id: str) -> None:
    with store.read() as work:
        found = read_evaluation(work, shop, lot_id)
        assert found.document["id"] == found.id
        assert found.document["lot"] == {"id": lot_id, "name": "A lot"}
        assert found.document["model_version"]["number"] == 1
        assert found.document["model_version"]["sales_used"] == 12
        assert work.evaluations.components(shop, found.id) == b"draws"
        assert len(all_lines(work, shop, lot_id)) == 10


def test_a_later_asked_evaluation_stays_current(store: Store, shop: ShopId, lot_id: str) -> None:
    with store.write() as work:
        work.lots.save_read(shop, lot_id, 1, 1, None)
        first = submit_evaluation(work, shop, lot_id).job
    with store.write() as work:
        second = submit_evaluation(work, shop, lot_id, EvaluationAsked({"goals": {"confidence": 0.9}}, seed=7)).job
    with store.write() as work:
        newest = evaluated(work, shop, lot_id, second.id, "2.00")
        evaluated(work, shop, lot_id, first.id, "1.00")
    with store.read() as work:
        assert read_evaluation(work, shop, lot_id).id == newest
        page = read_evaluations(work, shop, lot_id, 2)
        assert sorted((one.number, one.amount, one.current) for one in page.items) == [
            (2, "2.00", True),
            (3, "1.00", False),
        ]
        rest = read_evaluations(work, shop, lot_id, 2, page.next)
        assert [one.number for one in rest.items] == [1]
        assert read_lot(work, shop, lot_id).given == {"goals": {"confidence": 0.9}}


def test_evaluating_needs_lines_and_a_fitted_model(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        made = new_lot(work, shop)
    with pytest.raises(Conflict, match="not been read"), store.write() as work:
        submit_evaluation(work, shop, made)
    with store.write() as work:
        work.lots.save_read(shop, made, 1, 1, None)
    with pytest.raises(Conflict, match="no model"), store.write() as work:
        submit_evaluation(work, shop, made)
    with store.write() as work:
        work.models.add(shop, dt.date(2026, 7, 1), 1)
    with pytest.raises(Conflict, match="not fitted"), store.write() as work:
        submit_evaluation(work, shop, made, EvaluationAsked(model_version=1))
    with pytest.raises(NotFound), store.write() as work:
        submit_evaluation(work, shop, made, EvaluationAsked(model_version=9))


def test_training_needs_a_history(store: Store, shop: ShopId) -> None:
    with pytest.raises(Conflict), store.write() as work:
        submit_training(work, shop)


def test_a_failed_job_leaves_an_evaluated_lot_ready(store: Store, shop: ShopId, lot_id: str) -> None:
    with store.write() as work:
        work.lots.save_read(shop, lot_id, 1, 1, None)
        job = submit_evaluation(work, shop, lot_id).job
        assert read_lot(work, shop, lot_id).state is FileState.EVALUATING
        cancel_job(work, shop, job.id)
        lot = read_lot(work, shop, lot_id)
    assert (lot.state, lot.error) == (FileState.READY, "Cancelled.")


def test_one_model_is_active(store: Store, shop: ShopId) -> None:
    with store.write() as work:
        first, second = fitted_model(work, shop), fitted_model(work, shop)
        work.models.activate(shop, first)
        work.models.activate(shop, second)
    with store.read() as work:
        states = [one.state for one in work.models.page(shop, 50, None).items]
        assert sorted(states) == [ModelState.ACTIVE, ModelState.FITTED]
        assert work.models.get_active_number(shop) == second == 2
        assert work.models.artifact(shop, 1) == b"model"


def test_a_deleted_lot_leaves_nothing(store: Store, shop: ShopId, lot_id: str) -> None:
    with store.write() as work:
        work.lines.replace(shop, lot_id, some_lines(3))
        job = get_latest_job(work, shop, lot_id)
        delete_lot(work, shop, lot_id)
    with store.read() as work:
        left = {
            name: work._connection.execute(sa.select(sa.func.count()).select_from(metadata.tables[name])).scalar_one()
            for name in ("lot", "line", "evaluation", "evaluation_line", "upload", "column_mapping", "row_problem")
        }
        blobs = work._connection.execute(sa.text("SELECT count(*) FROM blob")).scalar_one()
        assert (set(left.values()), blobs) == ({0}, 1)  # the model's artifact
        assert job is not None
        assert read_job(work, shop, job.id).state is JobState.CANCELLED
    with pytest.raises(NotFound), store.write() as work:
        delete_lot(work, shop, lot_id)


def test_lots_are_listed_newest_first_within_their_shop(store: Store, shop: ShopId) -> None:
    made = []
    for name in "abc":
        with store.write() as work:
            new_lot(work, shop, name)
            made.append(name)
    with store.write() as work:
        other = open_shop(work, "Other").id
    with store.read() as work:
        page = read_lots(work, shop, 2)
        rest = read_lots(work, shop, 2, page.next)
        assert sorted(one.name for one in (*page.items, *rest.items)) == made
        assert rest.next is None
        assert read_lots(work, other).items == ()
        with pytest.raises(NotFound):
            read_lot(work, other, page.items[0].id)
        with pytest.raises(Rejected):
            read_lots(work, shop, 2, "x")
