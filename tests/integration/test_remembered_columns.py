"""What a seller says of a file's columns holds for later files of that shop with the same headers, for nobody else."""

from copy import copy

import pytest
from whole_shop import Service

from models.services.do_next_job import do_next_job
from models.services.recalled import signature
from models.services.store_mapping import store_import_mapping, store_lot_mapping
from models.services.submit_lot import LotAsked, submit_lot
from models.store.records import FileFacts, ImportRecord, Upload
from models.store.states import FileState, Queue
from models.store.unit_of_work import Store

MANIFEST = b"Item,Qty,Price\nBlue glass mug,2,12.99\nDesk lamp with shade,1,45.00\n"
NEXT_MANIFEST = b"Item,Qty,Price\nCordless drill,3,99.50\nTea towel,1,4.99\n"
OTHER_HEADERS = b"Item,Count,Price\nCordless drill,3,99.50\nTea towel,1,4.99\n"
HISTORY = b"Was,Erloes\nMug with handle,12.50\nBowl of glass,9.00\n"


@pytest.fixture
def service(store: Store) -> Service:
    return Service(store, lambda queues: None)


def work_off(service: Service) -> None:
    while any(do_next_job(service.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
        pass


def lot_file(service: Service, content: bytes) -> tuple[FileState, FileFacts, str]:
    lot_id = service.add_lot(content).subject_id
    work_off(service)
    lot = service.lot(lot_id)
    return lot.state, lot.file, lot_id


def answer(service: Service, lot_id: str, mapping: dict[str, str]) -> None:
    with service.store.write() as work:
        store_lot_mapping(work, service.shop, lot_id, mapping)
    work_off(service)


def test_an_answer_is_asked_for_once_a_shop(service: Service) -> None:
    state, file, lot_id = lot_file(service, MANIFEST)
    assert (state, file.missing) == (FileState.NEEDS_COLUMNS, ("tag_each",))
    question = file.questions[0]
    assert (question.key, question.guess, question.examples) == ("tag_each", "Price", ("12.99", "45.00"))
    assert file.found == {"description": "Item", "quantity": "Qty"}
    answer(service, lot_id, {"tag_each": "Price"})
    read = service.lot(lot_id)
    assert (read.state, read.file.questions, read.tag_total) == (FileState.NEEDS_MODEL, (), 7098.0)
    state, file, _ = lot_file(service, NEXT_MANIFEST)
    assert (state, file.mapping["tag_each"]) == (FileState.NEEDS_MODEL, "Price")
    assert lot_file(service, OTHER_HEADERS)[0] is FileState.NEEDS_COLUMNS


def test_another_shop_is_asked_itself(service: Service) -> None:
    lot_id = lot_file(service, MANIFEST)[2]
    answer(service, lot_id, {"tag_each": "Price"})
    with service.store.write() as work:
        shop = work.shops.add("Another", "Europe/Berlin", "USD").id
    other = copy(service)
    other.shop = shop
    assert lot_file(other, MANIFEST)[0] is FileState.NEEDS_COLUMNS
    with service.store.read() as work:
        mark = signature(("Item", "Qty", "Price"))
        assert work.remembered_columns.get(service.shop, "manifest", mark) == {"tag_each": "Price"}
        assert work.remembered_columns.get(other.shop, "manifest", mark) == {}
        assert work.remembered_columns.get(service.shop, "history", mark) == {}


def test_none_of_them_is_remembered_and_a_later_word_replaces_it(service: Service) -> None:
    lot_id = lot_file(service, MANIFEST)[2]
    answer(service, lot_id, {"tag_each": "-"})
    assert service.lot(lot_id).tag_total is None
    state, file, second = lot_file(service, NEXT_MANIFEST)
    assert (state, file.mapping["tag_each"]) == (FileState.NEEDS_MODEL, "-")
    answer(service, second, {"tag_line": "Price"})
    assert service.lot(second).tag_total == 10449.0
    assert lot_file(service, MANIFEST)[1].mapping["tag_line"] == "Price"


def test_a_mapping_that_comes_with_a_file_wins(service: Service) -> None:
    answer(service, lot_file(service, MANIFEST)[2], {"tag_each": "-"})
    with service.store.write() as work:
        asked = LotAsked("A lot", mapping={"tag_each": "Price"})
        lot_id = submit_lot(work, service.shop, Upload("m.csv", [NEXT_MANIFEST]), asked).subject.id
    work_off(service)
    assert service.lot(lot_id).file.mapping["tag_each"] == "Price"


def imported(service: Service, content: bytes) -> ImportRecord:
    job = service.import_sales(content)
    work_off(service)
    with service.store.read() as work:
        return work.imports.require(service.shop, job.subject_id)


def test_a_history_is_remembered_and_answers_add_up(service: Service) -> None:
    asked = imported(service, HISTORY)
    assert set(asked.file.missing) == {"title", "sold_price"}
    for said in ({"title": "Was"}, {"sold_price": "Erloes", "sold_price_is": "row"}):
        with service.store.write() as work:
            store_import_mapping(work, service.shop, asked.id, said)
        work_off(service)
    again = imported(service, HISTORY.replace(b"12.50", b"14.50"))
    assert again.state is FileState.READY
    assert {"title": "Was", "sold_price": "Erloes", "sold_price_is": "row"}.items() <= again.file.mapping.items()


def test_a_file_without_headers_says_nothing_of_the_next() -> None:
    assert signature(("column A", "column B")) == ""
    assert signature(("Item", "column B")) != signature(("Item", "Qty"))
    assert signature(("ITEM ", "Qty.")) == signature(("Item", "Quantity"))
