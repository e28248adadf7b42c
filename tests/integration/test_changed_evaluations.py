"""An evaluation tells what changed against the one before, whatever was changed."""

from decimal import Decimal
from typing import Any

import pytest
from whole_shop import Service, history, manifest

from models.services.do_next_job import do_next_job
from models.services.edit_line import edit_line
from models.services.store_mapping import store_lot_mapping
from models.services.submit_evaluation import EvaluationAsked, submit_evaluation
from models.store.states import Queue
from models.store.unit_of_work import Store


@pytest.fixture
def service(store: Store) -> Service:
    return Service(store, lambda queues: None)


def changed(service: Service, lot_id: str) -> list[dict[str, Any]]:
    """What the newest evaluation says, all jobs done."""
    while any(do_next_job(service.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
        pass
    found: list[dict[str, Any]] = service.document(lot_id)["explain"]["changed"]
    return found


def again(service: Service, lot_id: str, asked: EvaluationAsked | None = None) -> list[dict[str, Any]]:
    with service.store.write() as work:
        submit_evaluation(work, service.shop, lot_id, asked)
    return changed(service, lot_id)


def test_each_evaluation_tells_what_moved_it(service: Service) -> None:
    service.import_sales(history(100))
    lot = service.add_lot(manifest(6)).subject_id
    assert changed(service, lot) == [], "the first has nothing before it"
    first = service.document(lot)["bid_ceiling"]["amount"]
    assert again(service, lot) == [], "asked the same again"
    found = again(service, lot, EvaluationAsked({"buying": {"premium": 0.01}}))
    dearer = service.document(lot)["bid_ceiling"]["amount"]
    moved = f"{Decimal(dearer) - Decimal(first):.2f}"
    premium = {"what": "Buyer's premium", "key": "buying.premium", "from": 0.15, "to": 0.01, "moves": moved}
    assert found == [{"what": "bid ceiling", "from": first, "to": dearer}, premium][first == dearer :]
    with service.store.write() as work:
        edit_line(work, service.shop, lot, 2, {"looked_up_prices": ["33"], "action": "skip"}, 1)
    told = [one for one in changed(service, lot) if one["what"] != "bid ceiling"]
    assert told == [
        {"what": "looked-up prices", "line": 2, "from": [], "to": ["33.00"]},
        {"what": "what to do with it", "line": 2, "from": None, "to": "skip"},
    ]
    with service.store.write() as work:
        store_lot_mapping(work, service.shop, lot, {"description": "brand"})
    told = [one for one in changed(service, lot) if one["what"] != "bid ceiling"]
    assert {"what": "column of the manifest", "column": "description", "from": "description", "to": "brand"} in told
    assert {one["what"] for one in told} == {"column of the manifest"}
