"""Rows with a doubt as a CSV file, from the API and the pages; the file's own totals beside ours."""

import csv
import io
from dataclasses import replace

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import said
from starlette.testclient import TestClient

from models.values.problems import RowProblem, StatedTotals

DOUBTS = (
    RowProblem(5, "quantity", "-3", "a negative quantity", "row set aside"),
    RowProblem(7, "description", '=HYPERLINK("x")\n"two"', "@odd", "+kept"),
    RowProblem(8, "tag_each", "\tTab, comma", "Größe", "left as it is"),
)
TOTALS = (
    StatedTotals(10, 35100.0, 12, "Grand total", None, 9.0, 35100.0),
    StatedTotals(9, None, 0, "PALLET 7 - 9 UNITS", (2, 9), 9.0, None),
)


def prepared(world: World, held: Shop, upload_of: str) -> tuple[str, str]:
    """Ids of an import and a lot of which one has these doubts."""
    full = fill(world, held)
    with world.store.write() as work:
        if upload_of == "lot":
            upload = work.lots.require_upload(held.id, full.lot_id)
        else:
            upload = work.imports.require_upload(held.id, full.import_id)
        work.uploads.save_problems(held.id, upload.id, DOUBTS)
        facts = replace(work.uploads.facts(held.id, upload.id), stated=TOTALS)
        work.uploads.save_facts(held.id, upload.id, facts)
    return full.import_id, full.lot_id


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.mark.parametrize("of", ["lot", "import"])
@pytest.mark.parametrize("ending", [".csv", "?format=csv", "?format=csv&limit=1"])
def test_all_problems_come_as_one_file(world: World, of: str, ending: str) -> None:
    shop = world.shop("a")
    import_id, lot_id = prepared(world, shop, of)
    address = {"lot": f"lots/{lot_id}", "import": f"sales/imports/{import_id}"}[of]
    answer = world.client(shop).get(f"/api/v1/{address}/problems{ending}")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    assert answer.headers["content-disposition"].startswith('attachment; filename="')
    assert answer.text.splitlines()[0] == "row,column,value,reason,done"
    found = rows(answer.text)
    assert [one["row"] for one in found] == ["5", "7", "8"]
    assert [one["value"] for one in found] == ["'-3", '\'=HYPERLINK("x")\n"two"', "'\tTab, comma"]
    assert (found[1]["reason"], found[1]["done"], found[2]["reason"]) == ("'@odd", "'+kept", "Größe")


def test_another_form_is_refused(world: World) -> None:
    shop = world.shop("a")
    _, lot_id = prepared(world, shop, "lot")
    assert world.client(shop).get(f"/api/v1/lots/{lot_id}/problems?format=xml").status_code == 422


def test_the_files_own_totals_stand_beside_ours(world: World) -> None:
    shop = world.shop("a")
    _, lot_id = prepared(world, shop, "lot")
    found = world.client(shop).get(f"/api/v1/lots/{lot_id}/problems").json()["stated"]
    assert found[0] == {
        "units": 10, "tags": "351.00", "row": 12, "where": "Grand total", "covers": None, "counted_units": 9,
        "counted_tags": "351.00", "part": False, "cases": None, "counted_cases": None, "agrees": False,
    }  # fmt: skip
    assert (found[1]["covers"], found[1]["agrees"]) == ([2, 9], True)


@pytest.mark.parametrize("of", ["lot", "import"])
def test_pages_offer_the_file_and_the_totals(world: World, of: str) -> None:
    shop = world.shop("a")
    import_id, lot_id = prepared(world, shop, of)
    browser: TestClient = world.browser(shop)
    address = {"lot": f"/lots/{lot_id}", "import": f"/history/imports/{import_id}"}[of]
    page = said(browser, address)
    assert "All rows with a doubt as a CSV file" in page
    assert (
        "says 10 units (the lines used make 9: they do not agree) and tags of $351 (the lines used make the same)."
        in page
    )
    assert "“PALLET 7 - 9 UNITS”, says 9 units (the lines used make the same)." in page
    assert f'href="{address}/problems.csv"' in browser.get(address).text
    answer = browser.get(f"{address}/problems.csv")
    assert (answer.status_code, len(rows(answer.text))) == (200, 3)
