"""What an answer meant holds for its source's files alone, and gives way to what a later file shows itself."""

from collections.abc import Mapping

import pytest
from whole_shop import Service

from models.services.do_next_job import do_next_job
from models.services.store_mapping import store_import_mapping, store_lot_mapping
from models.services.submit_lot import LotAsked, submit_lot
from models.store.records import ImportRecord, LotRecord, Upload
from models.store.states import FileState, Queue
from models.store.unit_of_work import Store

# A total below that is a plain sum of the column: one of unit tags made without a thought, or of line tags?
ASKS = b"Qty,Description,MSRP\n2,Garden hose,30.00\n3,Rake,12.00\n1,Spade,25.00\n,Total,67.00\n"
TOWELS = (
    b"Qty,Description,MSRP\n5,Green beach towel,19.99\n2,Camp stool,39.99\n10,Steel bottle,14.99\n1,Cooler 30 L,99.00"
)
AS_UNIT, AS_LINE = 42883.0, 17397.0
SHOWN = b"Qty,Description,MSRP\n1,Mug,5.00\n4,Mug,5.00\n1,Jug,7.00\n3,Jug,7.00\n1,Pot,9.00\n2,Pot,9.00\n6,Pan,11.00\n"
CASES = b"Item,Qty,Case Pack,Unit Retail\nMug,2 cases,12,4.00\nJug,3 cases,6,5.00\n"
SINGLES = b"Item,Qty,Case Pack,Unit Retail\nPot,24 EA,12,4.00\nPan,18 EA,6,5.00\n"
UNCLEAR_DAYS = b"Item,Sale price,Sold,Listed\nMug,20.00,03/04/2025,01/02/2025\nJug,21.00,05/04/2025,02/03/2025\n"
PROVEN_DAYS = (
    b"Item,Sale price,Sold,Listed\nUxx a,20.00,02/16/2025,01/02/2025\nUxx b,21.00,02/27/2025,01/03/2025\n"
    b"Uxx c,22.00,03/04/2025,01/05/2025\n"
)


@pytest.fixture
def service(store: Store) -> Service:
    return Service(store, lambda queues: None)


def work_off(service: Service) -> None:
    while any(do_next_job(service.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
        pass


def lot_of(service: Service, content: bytes, source: str | None) -> LotRecord:
    settings = {"lot": {"source": source}} if source else {}
    with service.store.write() as work:
        made = submit_lot(work, service.shop, Upload("m.csv", [content]), LotAsked("A lot", settings)).subject.id
    work_off(service)
    return service.lot(made)


def answered(service: Service, content: bytes, source: str | None, said: Mapping[str, str]) -> LotRecord:
    lot = lot_of(service, content, source)
    with service.store.write() as work:
        store_lot_mapping(work, service.shop, lot.id, said)
    work_off(service)
    return service.lot(lot.id)


def imported(service: Service, content: bytes) -> ImportRecord:
    job = service.import_sales(content)
    work_off(service)
    return read_import(service, job.subject_id)


def read_import(service: Service, import_id: str) -> ImportRecord:
    with service.store.read() as work:
        return work.imports.require(service.shop, import_id)


def say_of_import(service: Service, import_id: str, said: Mapping[str, str]) -> ImportRecord:
    with service.store.write() as work:
        store_import_mapping(work, service.shop, import_id, said)
    work_off(service)
    return read_import(service, import_id)


def told(file: LotRecord | ImportRecord) -> str:
    return " ".join(one.what for one in file.file.cautions)


def test_the_first_file_asks_by_itself(service: Service) -> None:
    assert lot_of(service, ASKS, "Northgate Returns").file.missing == ("tag_is",)


@pytest.mark.parametrize("other", ["Harbour Auctions", None])
def test_another_source_is_read_as_if_nothing_had_been_said(service: Service, other: str | None) -> None:
    answered(service, ASKS, "Northgate Returns", {"tag_is": "line"})
    lot = lot_of(service, TOWELS, other)
    assert (lot.tag_total, lot.file.remembered) == (AS_UNIT, {})
    assert "Read with your answers" not in told(lot)


def test_another_source_that_asks_is_asked_with_the_answer_as_our_guess(service: Service) -> None:
    answered(service, ASKS, "Northgate Returns", {"tag_is": "line"})
    lot = lot_of(service, ASKS, "Harbour Auctions")
    (question,) = lot.file.questions
    assert (lot.state, question.key, question.guess) == (FileState.NEEDS_COLUMNS, "tag_is", "line")


@pytest.mark.parametrize("source", ["Northgate Returns", None])
def test_the_same_source_is_read_so_and_says_so(service: Service, source: str | None) -> None:
    answered(service, ASKS, source, {"tag_is": "line"})
    lot = lot_of(service, TOWELS, source and source.upper())
    assert (lot.tag_total, lot.file.remembered) == (AS_LINE, {"tag_is": "line"})
    assert "for files with these headers: 'MSRP' is the whole line." in told(lot)


def test_what_its_own_lines_contradict_is_asked_again_with_the_reason(service: Service) -> None:
    answered(service, ASKS, "Northgate Returns", {"tag_is": "line"})
    lot = lot_of(service, SHOWN, "Northgate Returns")
    (question,) = lot.file.questions
    assert (lot.state, question.key, question.guess) == (FileState.NEEDS_COLUMNS, "tag_is", "unit")
    assert "lines or totals of this file show that the amounts in 'MSRP' are for one unit" in question.words
    assert "tag_is" not in lot.file.mapping
    again = say_of_lot(service, lot.id, {"tag_is": "line"})
    assert again.state is FileState.NEEDS_MODEL, "what is said of this very file is followed"


def say_of_lot(service: Service, lot_id: str, said: Mapping[str, str]) -> LotRecord:
    with service.store.write() as work:
        store_lot_mapping(work, service.shop, lot_id, said)
    work_off(service)
    return service.lot(lot_id)


def test_a_price_named_as_the_tag_is_one_source_s_too(service: Service) -> None:
    bare = b"Item,Qty,Price\nBlue glass mug,2,12.99\nDesk lamp,1,45.00\n"
    answered(service, bare, "Northgate Returns", {"tag_line": "Price"})
    assert lot_of(service, bare, "Harbour Auctions").state is FileState.NEEDS_COLUMNS
    assert lot_of(service, bare, "Northgate Returns").file.mapping["tag_line"] == "Price"


def test_cases_of_one_source_are_not_those_of_another(service: Service) -> None:
    lot = answered(service, CASES, "Northgate Returns", {"quantity_is": "Case Pack"})
    assert lot.units == 42
    assert lot_of(service, CASES.replace(b"2 c", b"4 c"), "Northgate Returns").units == 66
    assert lot_of(service, CASES, "Harbour Auctions").file.missing == ("quantity_is",)
    assert lot_of(service, SINGLES, "Harbour Auctions").units == 42


def test_cells_that_count_units_ask_again(service: Service) -> None:
    answered(service, CASES, "Northgate Returns", {"quantity_is": "Case Pack"})
    lot = lot_of(service, SINGLES, "Northgate Returns")
    (question,) = lot.file.questions
    assert question.key == "quantity_is"
    assert "speak of single units" in question.words


def sold_days(service: Service) -> list[str]:
    with service.store.read() as work:
        sales = work.sales.load(service.shop, work.imports.ready_ids(service.shop))
    return sorted(str(day) for day in sales.sold_on)


def test_dates_that_a_file_proves_go_before_an_earlier_answer(service: Service) -> None:
    first = imported(service, UNCLEAR_DAYS)
    assert first.file.missing == ("dates_are",)
    say_of_import(service, first.id, {"dates_are": "day_first"})
    made = imported(service, PROVEN_DAYS)
    assert (made.state, made.file.remembered) == (FileState.READY, {})
    assert {"2025-02-16", "2025-02-27", "2025-03-04"} <= set(sold_days(service))
    assert "Your earlier answer that dates begin with the day was not used: '02/16/2025'" in told(made)


def test_an_answer_that_the_file_rules_out_is_asked_again(service: Service) -> None:
    made = imported(service, PROVEN_DAYS)
    asked = say_of_import(service, made.id, {"dates_are": "day_first"})
    (question,) = asked.file.questions
    assert (asked.state, question.guess) == (FileState.NEEDS_COLUMNS, "month_first")
    assert "'02/16/2025' can only have the month first" in question.words
    assert say_of_import(service, made.id, {"dates_are": "month_first"}).state is FileState.READY


def test_a_history_says_which_answers_it_was_read_with(service: Service) -> None:
    first = imported(service, UNCLEAR_DAYS)
    say_of_import(service, first.id, {"dates_are": "day_first"})
    made = imported(service, UNCLEAR_DAYS.replace(b"20.00", b"24.00"))
    assert made.file.remembered == {"dates_are": "day_first"}
    assert "for files with these headers: dates begin with the day." in told(made)


def test_what_all_files_leave_unsaid_stands_with_the_last_one_alone(service: Service) -> None:
    first = imported(service, b"Item,Sold for\nLot of 5 mugs,20.00\nJug,4.00\n")
    second = imported(service, b"Item,Sold for\nRound table,80.00\n")
    first = read_import(service, first.id)
    assert "several things as one" not in told(first) + told(second)
    assert not first.file.shop_cautions
    assert any(one.what.startswith("1 title sells several things") for one in second.file.shop_cautions)
    with service.store.read() as work:
        assert work.imports.shop_cautions(service.shop) == second.file.shop_cautions


PRICED = b"Item,Quantity,Sold price,Asking price\n"
ROW_PRICES = PRICED + b"Mug,2,19.00,10.00\nJug,3,29.00,10.00\nPot,2,40.00,20.00\nPan,1,9.00,10.00\n"
UNIT_PRICES = PRICED + b"Hat,2,9.50,10.00\nCap,3,9.00,10.00\nBag,2,19.00,20.00\nPin,1,9.00,10.00\n"


def test_sold_prices_that_a_later_file_shows_to_be_of_units_are_asked_again(service: Service) -> None:
    first = imported(service, ROW_PRICES)
    assert first.file.missing == ("sold_price_is",)
    say_of_import(service, first.id, {"sold_price_is": "row"})
    assert imported(service, ROW_PRICES.replace(b"19.00", b"18.00")).state is FileState.READY
    made = imported(service, UNIT_PRICES)
    (question,) = made.file.questions
    assert (made.state, question.guess) == (FileState.NEEDS_COLUMNS, "unit")
    assert "beside the asking prices, those of this file are for one unit" in question.words
