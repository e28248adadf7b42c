"""The screens a seller uses, in a real browser of a phone's width: nothing sticks out, nothing is refused."""

import re
from typing import Any

import pytest
from real_lot import work_off

from models.store.states import JobState, Queue

PAGES = [
    "/",
    "/lots/new",
    "/lots/{lot_id}",
    "/lots/{lot_id}/lines/2",
    "/lots/{lot_id}/what-if?buying.freight=120",
    "/bid-plan",
    "/history",
    "/history/imports/{import_id}",
    "/history/models/1",
    "/settings",
    "/none",
]


@pytest.mark.parametrize("path", PAGES)
def test_a_page_fits_a_phone_and_breaks_no_rule_of_its_own(screen: Any, path: str) -> None:
    full = screen.full
    seen = screen.look(path.format(lot_id=full.lot_id, import_id=full.import_id))
    assert 'data-width="360"' in seen.document, "the probe ran, so scripts of our own run"
    found = re.search(r'data-wide="([^"]*)"', seen.document)
    assert found is not None
    assert found[1] == "", "sticks out to the right"
    refused = [line for line in seen.log.splitlines() if "Content Security Policy" in line or "Uncaught" in line]
    assert refused == []


def test_progress_is_followed_until_the_result_is_there(screen: Any) -> None:
    before = screen.look(f"/lots/{screen.full.lot_id}")
    assert "Waiting for a free worker" in before.document
    with screen.world.store.write() as work:
        while job := work.claims.claim_next(Queue.QUICK):
            work.claims.progress(job, 0.5, "valuing the lines")
            held = job
    running = screen.look(f"/jobs/{held.id}")
    assert "valuing the lines" in running.document
    with screen.world.store.write() as work:
        work.claims.end(held, JobState.DONE, None)
    assert "data-job" not in screen.look(f"/lots/{screen.full.lot_id}").document


LONG = "x" * 60
ONE_QUESTION = f"Item {LONG},Price {LONG},Other price\nBlue mug,12.99,{LONG}\nLamp,45.00,6\nDrill,20,7\n"
FOUR_QUESTIONS = f"Description,Quantity,MSRP,Cond\n{LONG},4 CS,10,B\nLamp,2 CS,20,A\nDrill,3 CS,30,C\n"


@pytest.mark.parametrize("rows", [ONE_QUESTION, FOUR_QUESTIONS])
def test_questions_with_long_cells_fit_a_phone(screen: Any, rows: str) -> None:
    program = screen.world.client(screen.shop)
    files = {"manifest": ("a-file-with-a-rather-long-name.csv", rows.encode())}
    made = program.post("/api/v1/lots", files=files).json()["lot"]
    work_off(screen.world)
    seen = screen.look(f"/lots/{made['id']}")
    assert re.search(r"questions? first", seen.document)
    assert re.search(r'data-wide="([^"]*)"', seen.document)[1] == "", "sticks out to the right"  # type: ignore[index]
