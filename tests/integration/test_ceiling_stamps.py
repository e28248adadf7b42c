"""Fixed ceilings in both databases: in order also when fixed at once, gone with their lot, seen by no other shop."""

from concurrent.futures import ThreadPoolExecutor

import pytest
import sqlalchemy as sa
from test_store_lots import evaluated, fitted_model, new_lot

from models.services.delete_lot import delete_lot
from models.services.fix_ceiling import CeilingAsked, checked_amount, fix_ceiling, read_ceilings
from models.services.read_jobs import get_latest_job
from models.services.read_lots import read_lot
from models.services.users import open_shop
from models.store.records import Caller, ShopId
from models.store.states import Role
from models.store.unit_of_work import Store
from models.values.errors import Conflict, NotFound, Rejected


@pytest.fixture
def caller(shop: ShopId) -> Caller:
    return Caller(shop, "u", "owner@shop.test", Role.OWNER, "token", token="bidder")


@pytest.fixture
def lot_id(store: Store, shop: ShopId) -> str:
    """A lot whose ceiling is 500.00."""
    with store.write() as work:
        work.models.activate(shop, fitted_model(work, shop))
        made = new_lot(work, shop)
        job = get_latest_job(work, shop, made)
        assert job is not None
        evaluated(work, shop, made, job.id, "500.00")
    return made


def fix(store: Store, caller: Caller, lot_id: str, amount: object, reason: str | None = None) -> None:
    with store.write() as work:
        fix_ceiling(work, caller, lot_id, CeilingAsked(amount, reason))


def test_a_stamp_keeps_what_was_fixed_when_and_by_whom(store: Store, caller: Caller, lot_id: str) -> None:
    fix(store, caller, lot_id, "500")
    fix(store, caller, lot_id, 480.5)
    with store.read() as work:
        held = read_lot(work, caller.shop, lot_id).fixed
        stamps = read_ceilings(work, caller.shop, lot_id)
    assert held is not None
    assert (held.number, held.amount, held.evaluation_number, held.evaluation_ceiling) == (2, 48050.0, 1, 50000.0)
    assert (held.reason, held.adds, held.fixed_by, held.token) == (None, None, "owner@shop.test", "bidder")
    assert [one.amount for one in stamps.items] == [48050.0, 50000.0]
    assert stamps.items[0] == held
    assert stamps.items[0].fixed_at >= stamps.items[1].fixed_at


def test_ten_at_once_are_ten_stamps_in_one_order(store: Store, caller: Caller, lot_id: str) -> None:
    with ThreadPoolExecutor(5) as pool:
        list(pool.map(lambda at: fix(store, caller, lot_id, "400", f"bidder {at} says so"), range(10)))
    with store.read() as work:
        assert [one.number for one in read_ceilings(work, caller.shop, lot_id).items] == list(range(10, 0, -1))


def test_the_same_ten_times_at_once_is_one_stamp(store: Store, caller: Caller, lot_id: str) -> None:
    with ThreadPoolExecutor(5) as pool:
        list(pool.map(lambda _: fix(store, caller, lot_id, "400"), range(10)))
    with store.read() as work:
        assert [one.number for one in read_ceilings(work, caller.shop, lot_id).items] == [1]


def test_stamps_go_with_their_lot_and_belong_to_their_shop(store: Store, caller: Caller, lot_id: str) -> None:
    fix(store, caller, lot_id, "400")
    with store.write() as work:
        other = open_shop(work, "Other").id
    with pytest.raises(NotFound):
        fix(store, Caller(other, "v", "x@y.test", Role.OWNER, "session"), lot_id, "300")
    with store.read() as work, pytest.raises(NotFound):
        read_ceilings(work, other, lot_id)
    with store.write() as work:
        delete_lot(work, caller.shop, lot_id)
    with store.read() as work:
        assert work._connection.execute(sa.text("SELECT count(*) FROM ceiling_stamp")).scalar_one() == 0


def test_going_higher_needs_draws_that_can_be_read(store: Store, caller: Caller, lot_id: str) -> None:
    with pytest.raises(Conflict, match="evaluate it again"):
        fix(store, caller, lot_id, "501")


@pytest.mark.parametrize(
    ("currency", "amount", "minor"),
    [("USD", "12.5", 1250.0), ("JPY", "1200", 1200.0), ("JPY", 1200.0, 1200.0), ("KWD", "1.234", 1234.0)],
)
def test_amounts_have_their_currencys_digits(currency: str, amount: object, minor: float) -> None:
    assert checked_amount(amount, currency) == minor


@pytest.mark.parametrize(
    ("currency", "amount"), [("USD", "12.505"), ("JPY", "12.5"), ("KWD", "1.2345"), ("JPY", 0.5), ("USD", "1e-30")]
)
def test_more_digits_are_refused(currency: str, amount: object) -> None:
    with pytest.raises(Rejected) as refused:
        checked_amount(amount, currency)
    assert list(refused.value.faults) == ["amount"]
