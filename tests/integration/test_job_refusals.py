"""What is refused at the door or by a job: each names what to do, and nothing that was told is lost."""

import datetime as dt

import pytest
from whole_shop import Service, history, manifest

from models.services.do_next_job import do_next_job
from models.services.read_problems import read_lot_problems
from models.services.store_mapping import store_import_mapping, store_lot_mapping
from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.services.submit_lot import LotAsked, submit_lot
from models.services.submit_training import submit_training
from models.store.records import Upload
from models.store.states import FileState, ModelState, Queue
from models.store.unit_of_work import Store
from models.values.errors import Rejected

FAR = [dt.date(1999, 12, 31), dt.date(2999, 1, 1)]


@pytest.fixture
def service(store: Store) -> Service:
    return Service(store, lambda queues: None)


def work_off(service: Service) -> None:
    while any(do_next_job(service.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
        pass


def test_a_lot_whose_rows_were_all_set_aside_keeps_their_list(service: Service) -> None:
    job = service.add_lot(b"Item,Qty\nMug,-1\nJug,0\n,3\n")
    work_off(service)
    lot = service.lot(job.subject_id)
    assert lot.state is FileState.FAILED
    assert "all 3 rows were set aside" in str(lot.error)
    assert (lot.file.rows, lot.file.kept, lot.file.set_aside) == (3, 0, 3)
    with service.store.read() as work:
        found = read_lot_problems(work, service.shop, job.subject_id, 50, None)
    assert [one.row for one in found.items] == [2, 3, 4]


def test_a_lot_that_was_read_keeps_its_rows_when_it_cannot_be_read_again(service: Service) -> None:
    job = service.add_lot(b"Item,Qty,Other\nMug,1,-1\n")
    work_off(service)
    with service.store.write() as work:
        store_lot_mapping(work, service.shop, job.subject_id, {"quantity": "Other"})
    work_off(service)
    lot = service.lot(job.subject_id)
    assert (lot.file.rows, lot.file.kept, lot.lines) == (1, 1, 1)


def test_a_mapping_with_a_heading_the_file_lacks_is_refused(service: Service) -> None:
    lot, sales = service.add_lot(manifest(2)), service.import_sales(history(20))
    work_off(service)
    assert service.lot(lot.subject_id).file.headers == ("description", "brand", "category", "condition", "quantity")
    with pytest.raises(Rejected) as refused, service.store.write() as work:
        store_lot_mapping(work, service.shop, lot.subject_id, {"sku": "Nummer", "brand": " BRAND "})
    assert refused.value.faults == {"sku": "the file has no heading 'Nummer'"}
    with pytest.raises(Rejected, match="no heading 'Erloes'"), service.store.write() as work:
        store_import_mapping(work, service.shop, sales.subject_id, {"sold_price": "Erloes", "sold_price_is": "unit"})
    assert service.lot(lot.subject_id).file.mapping["description"] == "description"


@pytest.mark.parametrize("day", FAR)
def test_days_out_of_all_reason_are_refused(service: Service, day: dt.date) -> None:
    lot = service.add_lot(manifest(2))
    service.import_sales(history(20))
    work_off(service)
    with pytest.raises(Rejected, match="must lie between 2000-01-01 and"), service.store.write() as work:
        submit_training(work, service.shop, day)
    with pytest.raises(Rejected, match="must lie between"), service.store.write() as work:
        submit_evaluation(work, service.shop, lot.subject_id, EvaluationAsked(as_of=day))
    with pytest.raises(Rejected, match="must lie between"), service.store.write() as work:
        submit_lot(work, service.shop, Upload("m.csv", [manifest(1)]), LotAsked("A lot", as_of=day))


def test_a_training_before_every_sale_fails_with_a_reason(service: Service) -> None:
    service.import_sales(history(20))
    work_off(service)
    with service.store.write() as work:
        version = submit_training(work, service.shop, dt.date(2001, 1, 1)).subject
    work_off(service)
    with service.store.read() as work:
        failed = work.models.require(service.shop, version.number)
    assert failed.state is ModelState.FAILED
    assert failed.error == "None of your sales is known to have sold by 2001-01-01: take a later day."


def test_a_history_without_any_sale_still_trains(service: Service) -> None:
    service.import_sales(b"title,sold_price,listed_on\nMug,,2026-01-01\n")
    work_off(service)
    with service.store.read() as work:
        assert work.models.require(service.shop, 1).state is ModelState.ACTIVE
