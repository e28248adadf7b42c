"""What a source's grades mean is asked once: its later lots follow, another source is asked itself."""

import pytest
from whole_shop import Service

from models.services.do_next_job import do_next_job
from models.services.store_mapping import store_lot_mapping
from models.services.submit_lot import LotAsked, submit_lot
from models.store.records import Upload
from models.store.states import FileState, Queue
from models.store.unit_of_work import Store

MANIFEST = b"Item,Qty,Unit Retail,Grade\nBlue glass mug,2,12.99,A\nDesk lamp with shade,1,45.00,B\n"
OTHER_HEADERS = b"Description,Count,MSRP,Class Grade\nCordless drill,3,99.50,b\nTea towel,1,4.99,a\n"
ANSWERS = {"condition:A": "sealed", "condition:B": "worn"}


@pytest.fixture
def service(store: Store) -> Service:
    return Service(store, lambda queues: None)


def lot_of(service: Service, content: bytes, source: str | None) -> str:
    settings = {"lot": {"source": source}} if source else {}
    with service.store.write() as work:
        made = submit_lot(work, service.shop, Upload("m.csv", [content]), LotAsked("A lot", settings)).subject.id
    work_off(service)
    return made


def work_off(service: Service) -> None:
    while any(do_next_job(service.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
        pass


def answer(service: Service, lot_id: str, mapping: dict[str, str]) -> None:
    with service.store.write() as work:
        store_lot_mapping(work, service.shop, lot_id, mapping)
    work_off(service)


def conditions(service: Service, lot_id: str) -> list[int]:
    with service.store.read() as work:
        return work.lines.load(service.shop, lot_id).condition.tolist()


def test_a_source_is_asked_once_whatever_its_headers_are(service: Service) -> None:
    first = lot_of(service, MANIFEST, "Northgate Returns")
    assert service.lot(first).file.missing == ("condition:A", "condition:B")
    answer(service, first, ANSWERS)
    assert conditions(service, first) == [0, 3]
    again = lot_of(service, MANIFEST.replace(b"2,", b"5,"), "northgate  returns")
    assert conditions(service, again) == [0, 3]
    with service.store.read() as work:
        kept = work.lines.load(service.shop, again)
    assert kept.condition_said.tolist() == ["A", "B"]


def test_the_same_grades_under_other_headers_are_known(service: Service) -> None:
    answer(service, lot_of(service, MANIFEST, "Northgate Returns"), ANSWERS)
    other = OTHER_HEADERS.replace(b"Class Grade", b"Grade")
    assert conditions(service, lot_of(service, other, "Northgate Returns")) == [3, 0]


@pytest.mark.parametrize("source", ["Harbour Auctions", None])
def test_another_source_is_asked_itself_although_its_headers_are_the_same(service: Service, source: str | None) -> None:
    answer(service, lot_of(service, MANIFEST, "Northgate Returns"), ANSWERS)
    lot_id = lot_of(service, MANIFEST, source)
    assert service.lot(lot_id).state is FileState.NEEDS_COLUMNS


def test_a_later_word_replaces_an_earlier_one_and_leaves_the_others(service: Service) -> None:
    answer(service, lot_of(service, MANIFEST, "Northgate Returns"), ANSWERS)
    second = lot_of(service, MANIFEST, "Northgate Returns")
    answer(service, second, {"condition:B": "salvage"})
    assert conditions(service, second) == [0, 5]
    assert conditions(service, lot_of(service, MANIFEST, "Northgate Returns")) == [0, 5]
