"""A history that comes in several files, one job after another: one table, no buyer in the database."""

import pytest
import sqlalchemy as sa
from whole_shop import Service

from models.intake.confined import read_history_confined
from models.intake.histories import histories_together
from models.services.do_next_job import do_next_job
from models.store.states import FileState, Queue
from models.store.unit_of_work import Store
from models.values.sales import Sales

FEES = b"Order number,Type,Amount\nO1,Fee,-1.20\nO2,Refund,-40.00\n"
ORDERS = (
    b"Order number,Item number,Custom label,Item title,Sold for,Sale date,Buyer name,Ship to address\n"
    b"O1,1001,A-1,Blue mug,8.00,2026-05-03,Anna Example,1 Example Row\n"
    b"O2,1002,A-2,Lamp,40.00,2026-05-04,Bert Example,2 Example Row\n"
)
LISTINGS = (
    b"Item number,Title,Start price,Start date,End date\n"
    b"1001,Blue mug,9,2026-01-05,2026-05-03\n1010,Cup,5,2026-01-06,2026-02-01\n"
)


@pytest.fixture
def service(store: Store) -> Service:
    return Service(store, lambda queues: None)


def imported(service: Service, *files: bytes) -> list[str]:
    """Import each and do its job; the ids of the imports."""
    made = []
    for file in files:
        made.append(service.import_sales(file).subject_id)
        while any(do_next_job(service.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
            pass
    return made


def loaded(service: Service) -> Sales:
    with service.store.read() as work:
        return work.sales.load(service.shop, work.imports.ready_ids(service.shop))


def test_one_after_another_is_the_same_as_together(service: Service) -> None:
    files = (FEES, ORDERS, LISTINGS)
    imported(service, *files)
    read = [(f"{n}.csv", read_history_confined(file, f"{n}.csv", {}, "USD")) for n, file in enumerate(files)]
    sales, together = loaded(service), histories_together(read).sales
    for name in ("title", "order_ref", "listing_ref", "sku", "row"):
        assert getattr(sales, name).tolist() == getattr(together, name).tolist()
    assert sales.sold.tolist() == [True, True, False]
    assert sales.listed_on.astype(str).tolist() == ["2026-01-05", "NaT", "2026-01-06"]
    assert (sales.fees[0], sales.refunded[1]) == (120, 4000)
    again = imported(service, ORDERS)[0]
    with service.store.read() as work:
        told = work.imports.require(service.shop, again)
    assert (told.added, told.already_known) == (0, 2)
    assert len(loaded(service)) == 3


def test_fees_alone_teach_nothing_and_the_orders_do(service: Service) -> None:
    imported(service, FEES)
    with service.store.read() as work:
        assert not work.models.any_usable(service.shop)
    imported(service, ORDERS)
    with service.store.read() as work:
        assert work.models.any_usable(service.shop)


def test_no_buyer_is_kept(service: Service) -> None:
    import_id = imported(service, ORDERS)[0]
    with service.store.read() as work:
        told = work.imports.require(service.shop, import_id)
        upload = work.imports.require_upload(service.shop, import_id)
        kept = work.uploads.content(service.shop, upload.id)
        chunks = work._connection.execute(sa.text("SELECT data FROM chunk")).scalars().all()
    assert told.state is FileState.READY
    assert any("personal data: 2" in caution.what for caution in told.file.cautions)
    assert b"Blue mug" in kept
    assert not any(b"Example" in bytes(chunk) for chunk in (kept, *chunks))
    first = read_history_confined(ORDERS, "orders.csv", {}, "USD")
    assert read_history_confined(kept, "orders.csv", {}, "USD").sales.title.tolist() == first.sales.title.tolist()


def test_numbers_that_restart_and_a_day_of_making_are_kept_from_import_to_import(service: Service) -> None:
    head = b"Order number,Item number,Item title,Sold for,Sale date\n"
    imported(
        service,
        head + b"1,7,Brass lamp,20,2026-01-15\n2,8,Wool rug,30,2026-01-16\n",
        b"Item number,Title,Price,Quantity available,Start date,Export date\n7,Brass lamp,20,9,2026-01-02,2026-02-01\n",
        head + b"1,9,Oak desk,40,2026-02-15\n2,7,Brass lamp,19,2026-01-20\n",
    )
    sales = loaded(service)
    assert sales.sold_price[sales.sold].tolist() == [2000, 3000, 4000, 1900]
    assert sales.quantity[~sales.sold].tolist() == [9]
