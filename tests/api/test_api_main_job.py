"""The main job through the API: a sold history and a manifest in, a bid ceiling out; jobs are run here in line."""

import random

import pytest
from api_world import Shop, World

from models.services.do_next_job import do_next_job
from models.store.states import Queue

GOODS = [
    ("Norvane desk lamp", "Home > Lamps", 14.0),
    ("Tarsel kettle", "Kitchen", 22.0),
    ("Ovick drill", "Tools", 41.0),
]


def history(rows: int) -> bytes:
    """Sales of three goods over some months; one row in ten did not sell, one price cannot be read."""
    chance = random.Random(5)
    lines = ["title,category,condition,quantity,sold_price,listed_on,sold_on,tag_each"]
    for row in range(rows):
        title, category, price = GOODS[row % 3]
        month, sold = row % 6 + 1, row % 10 != 9
        paid = f"{price * chance.lognormvariate(0, 0.2):.2f},2026-0{month}-01,2026-0{month}-{chance.randint(5, 27):02d}"
        lines.append(f"{title},{category},works,1,{paid if sold else f',2026-0{month}-01,'},{price * 3:.2f}")
    lines.append("Ovick drill,Tools,works,1,forty,2026-06-01,2026-06-09,120")
    return "\n".join(lines).encode()


MANIFEST = b"""description,category,condition,quantity,tag_each
Norvane desk lamp,Home > Lamps,works,6,42
Ovick drill,Tools,works,4,123
Tarsel kettle,Kitchen,opened,-2,66
Solveg mixer,Kitchen,sealed,2,90
"""


def work_off(world: World) -> None:
    """What workers would do."""
    while any(do_next_job(world.store, queue, world.wakes) for queue in Queue):
        pass


@pytest.fixture
def shop(world: World) -> Shop:
    return world.shop("tern")


def test_a_ceiling_comes_out(world: World, shop: Shop) -> None:
    client = world.client(shop)
    lot = client.post("/api/v1/lots", files={"manifest": ("p.csv", MANIFEST)}, data={"as_of": "2026-07-01"}).json()[
        "lot"
    ]
    work_off(world)
    assert client.get(f"/api/v1/lots/{lot['id']}").json()["state"] == "needs_model"
    made = client.post("/api/v1/sales/imports", files={"file": ("sold.csv", history(180))}).json()
    work_off(world)

    read = client.get(f"/api/v1/sales/imports/{made['import']['id']}").json()
    assert (read["state"], read["file"]["rows"], read["added"]) == ("ready", 181, read["file"]["kept"])
    assert client.get(f"/api/v1/jobs/{made['job']['id']}").json()["state"] == "done"
    assert client.get("/api/v1/sales?limit=1").json()["items"][0]["title"] == "Norvane desk lamp"
    assert client.get("/api/v1/model-versions/1").json()["state"] == "active"

    lot = client.get(f"/api/v1/lots/{lot['id']}").json()
    assert (lot["state"], lot["lines"], lot["file"]["set_aside"]) == ("ready", 3, 1)
    evaluation = client.get(f"/api/v1/lots/{lot['id']}/evaluation").json()
    assert evaluation["lot"]["id"] == lot["id"]
    assert evaluation["model_version"]["number"] == 1
    assert evaluation["bid_ceiling"]["verdict"] in ("bid", "pass")
    assert evaluation["problems"]["set_aside"] == 1
    lines = client.get(f"/api/v1/lots/{lot['id']}/lines").json()["items"]
    assert [one["quantity"] for one in lines] == [6, 4, 2]
    assert lines[0]["evidence"]["basis"] == "own_item"

    again = client.post(f"/api/v1/lots/{lot['id']}/evaluations", json={"settings": {"buying": {"freight": 0}}}).json()
    work_off(world)
    assert client.get(f"/api/v1/jobs/{again['job']['id']}").json()["state"] == "done"
    listed = client.get(f"/api/v1/lots/{lot['id']}/evaluations").json()["items"]
    assert [(one["number"], one["current"]) for one in listed] == [(2, True), (1, False)]
    page = world.browser(shop).get(f"/lots/{lot['id']}")
    assert page.status_code == 200
    assert "Norvane desk lamp" in page.text


@pytest.mark.parametrize(
    ("name", "content"),
    [("empty.csv", b""), ("nothing.xlsx", b""), ("report.csv", b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n1 0 obj\n<<>>\nendobj")],
)
def test_a_file_that_is_no_table_fails_with_a_sentence(world: World, shop: Shop, name: str, content: bytes) -> None:
    client = world.client(shop)
    for path, field in (("/api/v1/lots", "manifest"), ("/api/v1/sales/imports", "file")):
        answer = client.post(path, files={field: (name, content)})
        assert answer.status_code == 202
        work_off(world)
        job = client.get(f"/api/v1/jobs/{answer.json()['job']['id']}").json()
        assert job["state"] == "failed"
        assert job["error"]
        assert "Traceback" not in job["error"]
        assert "went wrong in the service" not in job["error"]


def test_a_column_that_is_missing_is_asked_for(world: World, shop: Shop) -> None:
    client = world.client(shop)
    table = history(60).replace(b"sold_price", b"Qwx").replace(b"title", b"Zzk", 1)
    made = client.post("/api/v1/sales/imports", files={"file": ("sold.csv", table)}).json()["import"]
    work_off(world)
    read = client.get(f"/api/v1/sales/imports/{made['id']}").json()
    assert read["state"] == "needs_columns"
    assert "Qwx" in read["file"]["headers"]
    answer = client.put(f"/api/v1/sales/imports/{made['id']}/mapping", json={"sold_price": "Qwx", "title": "Zzk"})
    assert answer.status_code == 202
    work_off(world)
    assert client.get(f"/api/v1/sales/imports/{made['id']}").json()["state"] == "ready"
