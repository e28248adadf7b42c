"""The bodies of the four kinds of job, from real files to what the shop then reads."""

import datetime as dt

import pytest
from histories import same_columns
from whole_shop import Service, history, manifest

from models.intake.history import read_history
from models.services.activate_model import activate_model
from models.services.cancel_job import cancel_job
from models.services.do_next_job import do_next_job
from models.services.edit_line import edit_line
from models.services.read_backlog import read_backlog
from models.services.read_problems import read_import_problems, read_lot_problems
from models.services.shop_settings import put_settings, read_settings
from models.services.staleness import UnknownSales, unknown_sales
from models.services.store_mapping import store_import_mapping, store_lot_mapping
from models.services.submit_backtest import submit_backtest
from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.services.submit_training import submit_training
from models.store.records import JobRecord, LineEditRecord
from models.store.states import FileState, JobKind, JobState, ModelState, Queue
from models.store.unit_of_work import Store
from models.values.errors import Conflict, Rejected

ODD_HISTORY = b"Was,Erloes\nMug,12.50\nBowl,9.00\n"
ODD_MANIFEST = b"Was,Stueck\nMug,2\nBowl,0\n"


@pytest.fixture
def service(store: Store) -> Service:
    return Service(store, lambda queues: None)


def work_off(service: Service) -> list[JobRecord]:
    """Do every job there is; all jobs of the shop, newest first."""
    while any(do_next_job(service.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
        pass
    with service.store.read() as work:
        return list(work.jobs.page(service.shop, 50, None).items)


def test_a_history_trains_the_first_model_and_the_lots_that_wait(service: Service) -> None:
    lot = service.add_lot(manifest(6))
    work_off(service)
    assert service.lot(lot.subject_id).state is FileState.NEEDS_MODEL
    service.import_sales(history(150))
    assert [job.state for job in work_off(service)] == [JobState.DONE] * 5
    with service.store.read() as work:
        version = work.models.require(service.shop, 1)
        assert (version.state, version.as_of) == (ModelState.ACTIVE, version.created_at.date())
        assert version.backtest is not None
        assert version.backtest["sales"]["dated"] + version.backtest["sales"]["undated"] <= 150
        assert read_settings(work, service.shop).learned == version.learned
        stored = work.sales.load(service.shop, work.imports.ready_ids(service.shop))
        assert read_backlog(work, service.shop).lot_id == lot.subject_id
    assert same_columns(stored, read_history(history(150), "history.csv", {}, "USD").sales)
    ready = service.lot(lot.subject_id)
    assert (ready.state, ready.lines, ready.units, ready.tag_total) == (FileState.READY, 6, 13, None)
    document = service.document(lot.subject_id)
    assert document["bid_ceiling"]["verdict"] in ("bid", "pass")
    assert len(document["lines"]) == 6
    assert document["as_of"] == version.as_of.isoformat()


def test_a_model_is_in_use_before_it_was_tested_and_stays_so_when_that_fails(service: Service) -> None:
    service.import_sales(history(400))
    for queue in (Queue.QUICK, Queue.LONG):  # the import, then the training
        assert do_next_job(service.store, queue, None)
    with service.store.read() as work:
        version, job = work.models.require(service.shop, 1), work.jobs.page(service.shop, 1, None).items[0]
    assert (version.state, version.backtest) == (ModelState.ACTIVE, None)
    assert (job.kind, job.state, job.subject_id) == (JobKind.BACKTEST, JobState.QUEUED, version.id)
    with service.store.write() as work:
        held = work.claims.claim_next(Queue.LONG)
        assert held is not None
        work.claims.end_leases(Queue.LONG, counted=True)  # its worker died: another one does it again
        work.claims.take_back_expired()
    assert do_next_job(service.store, Queue.LONG, None)
    with service.store.read() as work:
        found = work.models.require(service.shop, 1).backtest
        assert work.jobs.require(service.shop, job.id).attempt == 2
    assert found is not None
    assert found["enough"]
    with service.store.write() as work:
        again = submit_backtest(work, service.shop, version.id, ["none"])
        cancel_job(work, service.shop, again.id)
    with service.store.read() as work:
        after = work.models.require(service.shop, 1)
    assert (after.state, after.error, after.backtest) == (ModelState.ACTIVE, None, found)


def test_a_sale_in_the_future_is_named_and_loses_its_day(service: Service) -> None:
    job = service.import_sales(b"title,sold_price,sold_on\nMug,12.50,2026-05-01\nBowl,9.00,2062-05-01\n")
    work_off(service)
    with service.store.read() as work:
        sales = work.sales.load(service.shop, work.imports.ready_ids(service.shop))
        named = read_import_problems(work, service.shop, job.subject_id, 10, None).items
    assert sorted(sales.sold_on.astype(str).tolist()) == ["2026-05-01", "NaT"]
    assert [(one.row, one.column, one.reason) for one in named] == [(3, "sold_on", "sold in the future")]


def test_a_second_history_trains_nothing_by_itself(service: Service) -> None:
    service.import_sales(history(60))
    work_off(service)
    again, more = service.import_sales(history(60)), service.import_sales(history(80))
    assert len(work_off(service)) == 5
    with service.store.read() as work:
        counts = [
            (one.added, one.already_known)
            for job in (again, more)
            if (one := work.imports.require(service.shop, job.subject_id))
        ]
    assert counts == [(0, 60), (20, 60)]
    with service.store.write() as work:
        assert submit_training(work, service.shop, dt.date(2026, 7, 1), seed=3).subject.number == 2
    work_off(service)
    with service.store.write() as work:
        assert work.models.require(service.shop, 2).state is ModelState.FITTED
        assert work.models.get_active_number(service.shop) == 1
        assert activate_model(work, service.shop, 2).state is ModelState.ACTIVE


def test_a_training_on_unchanged_sales_says_so(service: Service) -> None:
    service.import_sales(history(60))
    work_off(service)
    for _ in range(2):
        with service.store.write() as work:
            submit_training(work, service.shop)
        work_off(service)
    service.import_sales(history(80))
    work_off(service)
    with service.store.write() as work:
        submit_training(work, service.shop)
    work_off(service)
    with service.store.read() as work:
        told = [work.models.require(service.shop, number).facts.get("same_as") for number in (1, 2, 3, 4)]
    assert told == [None, 1, 2, None]


def test_a_corrected_column_makes_the_version_stale_until_it_is_put_right(service: Service) -> None:
    job = service.import_sales(history(60))
    work_off(service)
    with service.store.write() as work:
        assert unknown_sales(work, service.shop, work.models.require(service.shop, 1)).rows == 0
        branded = int((work.sales.load(service.shop, (job.subject_id,)).brand != "").sum())
        store_import_mapping(work, service.shop, job.subject_id, {"brand": "-"})
    work_off(service)
    with service.store.write() as work:
        assert unknown_sales(work, service.shop, work.models.require(service.shop, 1)) == UnknownSales(0, branded)
        submit_training(work, service.shop)
    work_off(service)
    with service.store.read() as work:
        version = work.models.require(service.shop, 2)
        assert (unknown_sales(work, service.shop, version).rows, version.facts.get("same_as")) == (0, None)


def test_columns_that_must_be_named_are_asked_for(service: Service) -> None:
    job = service.import_sales(ODD_HISTORY)
    work_off(service)
    with service.store.write() as work:
        asked = work.imports.require(service.shop, job.subject_id)
        assert (asked.state, asked.file.headers) == (FileState.NEEDS_COLUMNS, ("Was", "Erloes"))
        assert "sold_price" in asked.file.missing
        with pytest.raises(Rejected):
            store_import_mapping(work, service.shop, job.subject_id, {"price": "Erloes"})
        store_import_mapping(work, service.shop, job.subject_id, {"title": "Was", "sold_price": "Erloes"})
    work_off(service)
    with service.store.read() as work:
        read = work.imports.require(service.shop, job.subject_id)
        assert (read.state, read.added, read.file.missing) == (FileState.READY, 2, ())
        assert read.file.mapping["title"] == "Was"


def test_a_manifest_is_asked_for_columns_too(service: Service) -> None:
    job = service.add_lot(ODD_MANIFEST)
    work_off(service)
    assert service.lot(job.subject_id).state is FileState.NEEDS_COLUMNS
    with service.store.write() as work:
        store_lot_mapping(work, service.shop, job.subject_id, {"description": "Was", "quantity": "Stueck"})
    work_off(service)
    lot = service.lot(job.subject_id)
    assert (lot.state, lot.lines, lot.file.rows, lot.file.set_aside) == (FileState.NEEDS_MODEL, 1, 2, 1)
    with service.store.read() as work:
        problems = read_lot_problems(work, service.shop, job.subject_id).items
    assert [(one.row, one.column) for one in problems] == [(3, "quantity")]


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7 not a table", b"PK\x03\x04"])
def test_a_broken_file_is_a_failed_job_with_a_clear_word(service: Service, content: bytes) -> None:
    sales, lot = service.import_sales(content), service.add_lot(content)
    for job in work_off(service):
        assert job.state is JobState.FAILED
        assert job.error
        assert "worker's log" not in job.error
    with service.store.read() as work:
        assert work.imports.require(service.shop, sales.subject_id).state is FileState.FAILED
        assert read_import_problems(work, service.shop, sales.subject_id).items == ()
    assert service.lot(lot.subject_id).error


def test_a_history_without_sales_still_answers(service: Service) -> None:
    service.import_sales(b"title,sold_price\n")
    lot = service.add_lot(manifest(2))
    states = {job.state for job in work_off(service)}
    assert states == {JobState.DONE}
    assert {line["evidence"]["basis"] for line in service.document(lot.subject_id)["lines"]} == {"prior_only"}


def test_an_evaluation_is_asked_under_frozen_settings(service: Service) -> None:
    service.import_sales(history(100))
    lot = service.add_lot(manifest(4))
    work_off(service)
    with service.store.write() as work:
        submit_evaluation(work, service.shop, lot.subject_id, EvaluationAsked({"buying": {"premium": 0.2}}, seed=5))
        put_settings(work, service.shop, {"buying": {"premium": 0.01, "freight": 1}}, 1)
    work_off(service)
    held = {one["key"]: one["value"] for one in service.document(lot.subject_id)["assumptions"]}
    assert (held["buying.premium"], held["buying.freight"]) == (0.2, "250.00")
    with service.store.write() as work:
        submit_evaluation(work, service.shop, lot.subject_id, EvaluationAsked({}))
    work_off(service)
    document = service.document(lot.subject_id)
    held = {one["key"]: one["value"] for one in document["assumptions"]}
    assert (held["buying.premium"], held["buying.freight"], document["seed"]) == (0.01, "1.00", 1)


def test_what_was_typed_in_for_a_line_makes_a_new_evaluation(service: Service) -> None:
    service.import_sales(history(100))
    lot = service.add_lot(manifest(6))
    work_off(service)
    before = service.document(lot.subject_id)
    price = float(before["lines"][1]["unit_price"]["p50"]) * 2
    with service.store.write() as work:
        changes = {"looked_up_prices": [f"{price:.2f}"], "action": "skip"}
        edit_line(work, service.shop, lot.subject_id, 2, changes, 1)
        edit_line(work, service.shop, lot.subject_id, 3, {"action": "never"}, 1)
    with service.store.write() as work:  # after the asking: the queued evaluations do not know of it
        work.line_edits.put(service.shop, lot.subject_id, LineEditRecord(5, (1.0,), None, 1))
    assert {job.state for job in work_off(service)} == {JobState.DONE}
    after = service.document(lot.subject_id)
    lines = after["lines"]
    assert lines[1]["looked_up_prices"] == [f"{price:.2f}"]
    assert float(lines[1]["unit_price"]["p50"]) > float(before["lines"][1]["unit_price"]["p50"])
    assert [line["action"] for line in lines[1:3]] == ["skip", "never"]
    assert "looked_up_prices" not in lines[3]
    with service.store.read() as work:
        held = work.evaluations.page(service.shop, service.lot(lot.subject_id), 10, None).items
    assert [one.number for one in held] == [3, 2, 1], "earlier evaluations stay as they were"


def test_a_manifest_read_again_keeps_what_was_typed_in(service: Service) -> None:
    service.import_sales(history(100))
    lot = service.add_lot(manifest(6))
    work_off(service)
    brands = [line["brand"] for line in service.document(lot.subject_id)["lines"]]
    with service.store.write() as work:
        edit_line(work, service.shop, lot.subject_id, 2, {"action": "never"}, 1)
        store_lot_mapping(work, service.shop, lot.subject_id, {"description": "brand"})
    work_off(service)
    lines = service.document(lot.subject_id)["lines"]
    assert [line["description"] for line in lines] == brands
    assert [line["no"] for line in lines if line.get("action_source") == "yours"] == [2]


def test_a_model_that_came_while_a_manifest_was_read_is_used(service: Service) -> None:
    lot = service.add_lot(manifest(3))  # asked before there is a model, done after
    service.import_sales(history(80))
    with service.store.write() as work:
        waiting = work.claims.claim_next(Queue.QUICK)
        assert waiting is not None
        work.claims.put_back(waiting, 0)
        work._connection.exec_driver_sql(f"UPDATE job SET created_at = created_at + 60000 WHERE id = '{waiting.id}'")
    jobs = work_off(service)
    assert {job.state for job in jobs} == {JobState.DONE}
    assert service.lot(lot.subject_id).state is FileState.READY


def test_a_file_that_cannot_be_read_again_keeps_what_it_brought(service: Service) -> None:
    job = service.import_sales(history(30))
    work_off(service)
    with service.store.write() as work:
        again = store_import_mapping(work, service.shop, job.subject_id, {"title": "Title"}).job
        work.uploads.prune(-1000)
    assert next(one for one in work_off(service) if one.id == again.id).state is JobState.FAILED
    with service.store.read() as work:
        kept = work.imports.require(service.shop, job.subject_id)
        assert (kept.state, work.imports.ready_ids(service.shop)) == (FileState.READY, (kept.id,))
        assert "no longer kept" in str(kept.error)
    with pytest.raises(Conflict), service.store.write() as work:
        store_import_mapping(work, service.shop, job.subject_id, {"title": "Title"})
