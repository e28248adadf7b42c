"""The work log: "40 items in 5 hours", kept, listed, taken back, refused where it cannot be meant."""

import re

import pytest
from api_world import World
from full_shop import fill

from models.services.activate_model import activate_model
from models.services.submit_training import submit_training
from models.store.queries.model_versions import Fitted
from models.store.tables.evaluations import evaluation as evaluation_table


def test_an_entry_is_kept_listed_and_taken_back(world: World) -> None:
    client = world.client(world.shop("ours"))
    assert client.get("/api/v1/work-log").json() == {"items": [], "next": None}
    made = client.post("/api/v1/work-log", json={"on": "2026-03-02", "items": 40, "hours": 5, "category": "Toys"})
    assert made.status_code == 201
    entry = made.json()
    assert entry | {"id": "", "created_at": ""} == {
        "id": "", "on": "2026-03-02", "items": 40, "hours": 5.0, "kind": None, "category": "Toys", "note": None,
        "created_at": "",
    }  # fmt: skip
    assert client.get("/api/v1/work-log").json()["items"] == [entry]
    assert client.delete(f"/api/v1/work-log/{entry['id']}").status_code == 204
    assert client.delete(f"/api/v1/work-log/{entry['id']}").status_code == 404
    assert client.get("/api/v1/work-log").json()["items"] == []


def test_the_day_is_today_where_it_is_left_out(world: World) -> None:
    client = world.client(world.shop("ours"))
    entry = client.post("/api/v1/work-log", json={"items": 12, "hours": 1.5}).json()
    assert entry["on"] == entry["created_at"][:10]


def test_the_same_request_twice_makes_one_entry(world: World) -> None:
    client = world.client(world.shop("ours"))
    sent = [
        client.post("/api/v1/work-log", json={"items": 40, "hours": 5}, headers={"idempotency-key": "a"})
        for _ in range(2)
    ]
    assert sent[0].json() == sent[1].json()
    assert len(client.get("/api/v1/work-log").json()["items"]) == 1
    other = client.post("/api/v1/work-log", json={"items": 41, "hours": 5}, headers={"idempotency-key": "a"})
    assert other.status_code == 409


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({"items": 0, "hours": 5}, "items"),
        ({"items": 1.5, "hours": 5}, "items"),
        ({"items": 40, "hours": 0}, "hours"),
        ({"items": 40, "hours": -2}, "hours"),
        ({"items": 1, "hours": 24}, "hours"),  # a whole day an item
        ({"items": True, "hours": 1}, "items"),
        ({"items": 4, "hours": True}, "hours"),
        ({"items": 40, "hours": "many"}, "hours"),
        ({"hours": 5}, "items"),
        ({"items": 40, "hours": 5, "on": "2999-01-01"}, "on"),
        ({"items": 40, "hours": 5, "on": "1999-01-01"}, "on"),
        ({"items": 40, "hours": 5, "kind": "odd"}, "kind"),
        ({"items": 40, "hours": 5, "minutes": 3}, "minutes"),
    ],
)
def test_what_cannot_be_meant_is_refused_by_field(world: World, body: dict[str, object], field: str) -> None:
    client = world.client(world.shop("ours"))
    answer = client.post("/api/v1/work-log", json=body)
    assert answer.status_code == 422
    assert field in str(answer.json()["errors"])
    assert client.get("/api/v1/work-log").json()["items"] == []


def test_entries_come_in_pages_by_their_day(world: World) -> None:
    client = world.client(world.shop("ours"))
    for day in ("2026-03-02", "2026-03-09", "2026-03-04", "2026-03-09"):
        assert client.post("/api/v1/work-log", json={"on": day, "items": 40, "hours": 5}).status_code == 201
    first = client.get("/api/v1/work-log?limit=3").json()
    rest = client.get(f"/api/v1/work-log?limit=3&cursor={first['next']}").json()
    assert [one["on"] for one in first["items"] + rest["items"]] == [
        "2026-03-09", "2026-03-09", "2026-03-04", "2026-03-02",
    ]  # fmt: skip
    assert rest["next"] is None
    assert client.get("/api/v1/work-log?cursor=nonsense").status_code == 422


def test_the_next_training_names_the_entries_it_reads(world: World) -> None:
    shop = world.shop("ours")
    full = fill(world, shop)
    training = world.client(shop).post("/api/v1/trainings").json()
    with world.store.read() as work:
        ids = work.work_log.ids(shop.id)
        assert ids == (full.entry_id,)
        assert [one.note for one in work.work_log.load(shop.id, [*ids, "gone"])] == ["a slow day"]
        payload = work.jobs.require(shop.id, training["job"]["id"])
        assert payload.state == "queued"


def test_the_page_keeps_lists_and_takes_back(world: World) -> None:
    browser = world.browser(world.shop("ours"))
    shown = browser.get("/history").text
    token = re.search(r'name="csrf" content="(\w+)"', shown)
    assert token is not None
    typed = {"csrf": token[1], "items": "40", "hours": "5", "on": "2026-03-02", "kind": "used", "category": ""}
    assert browser.post("/history/work-log", data=typed).headers["location"] == "/history#hours"
    shown = browser.get("/history").text
    assert "Take back" in shown
    assert re.search(r'name="items" type="text" value="" ', shown), "an empty field is empty"
    assert "doubt" not in shown
    assert "7.5" in shown  # minutes an item
    action = re.search(r'action="(/history/work-log/\w+/removal)"', shown)
    assert action is not None
    browser.post(action[1], data={"csrf": token[1]})
    assert "Take back" not in browser.get("/history").text


def test_the_page_gives_back_what_cannot_be_meant(world: World) -> None:
    browser = world.browser(world.shop("ours"))
    token = re.search(r'name="csrf" content="(\w+)"', browser.get("/history").text)
    assert token is not None
    for typed, said in (
        ({"items": "forty", "hours": "5"}, "It must be a number."),
        ({"items": "4.5", "hours": "5"}, "It must be a whole number."),
        ({"items": "40", "hours": "0"}, "It must be above 0"),
        ({"items": "40", "hours": "5", "on": "soon"}, "It must be a day"),
        ({"items": "4.000", "hours": "500"}, "It can be read in two ways: write 4000 or 4."),
        ({"items": "1.200", "hours": "90"}, "It can be read in two ways: write 1200 or 1.2."),
    ):
        answer = browser.post("/history/work-log", data={"csrf": token[1], **typed})
        assert answer.status_code == 422
        assert said in answer.text
        assert f'value="{typed["items"]}"' in answer.text


@pytest.mark.parametrize(("typed", "hours", "kept"), [("4,000", "512.5", (4000, 512.5)), ("1 200", "1,5", (1200, 1.5))])
def test_numbers_are_read_as_every_other_field_reads_them(
    world: World, typed: str, hours: str, kept: tuple[int, float]
) -> None:
    shop = world.shop("ours")
    browser = world.browser(shop)
    token = re.search(r'name="csrf" content="(\w+)"', browser.get("/history").text)
    assert token is not None
    browser.post("/history/work-log", data={"csrf": token[1], "items": typed, "hours": hours})
    (entry,) = world.client(shop).get("/api/v1/work-log").json()["items"]
    assert (entry["items"], entry["hours"]) == kept


PACE = {
    "weeks": 26, "weeks_left_out": 3, "since": "2026-01-01", "until": "2026-06-28", "units_per_week": 61.0,
    "minutes_each": 13.8, "minutes_learned": True, "hours_per_week": 14.03, "busy_week_hours": 18.5, "sold_only": False,
}  # fmt: skip


def test_the_backlog_tells_the_measured_week_beside_the_stated_hours(world: World) -> None:
    shop = world.shop("ours")
    client = world.client(shop)
    fill(world, shop)
    assert client.get("/api/v1/backlog").json()["pace"] is None  # its listing dates told nothing
    with world.store.write() as work:
        training = submit_training(work, shop.id).subject
        work.models.save_fitted(shop.id, training.id, Fitted(b"model", "e" * 64, 812, {}, {"pace": PACE}))
        activate_model(work, shop.id, training.number)
    assert client.get("/api/v1/backlog").json()["pace"] == PACE
    version = client.get("/api/v1/settings").headers["etag"]
    stated = {"backlog": {"hours_per_week": 25}}
    assert client.put("/api/v1/settings", json=stated, headers={"if-match": version}).status_code == 200
    told = client.get("/api/v1/backlog").json()["pace"]
    assert told == PACE | {"stated_hours": 25.0, "stated_far_above": True}


def test_the_lot_page_tells_both_side_by_side(world: World) -> None:
    shop = world.shop("ours")
    full = fill(world, shop)
    with world.store.write() as work:
        lot = work.lots.require(shop.id, full.lot_id)
        told = work.evaluations.require(shop.id, lot.evaluation_id or "").document
        told = dict(told) | {"pace": PACE | {"stated_hours": 25.0, "stated_far_above": True}}
        table = evaluation_table.update().where(evaluation_table.c.id == lot.evaluation_id).values(document=told)
        work._connection.execute(table)
    shown = world.browser(shop).get(f"/lots/{full.lot_id}").text
    assert "You say 25 hours a week; your last 26 weeks with any listing were 61 units a week, about 14 hours" in shown
    assert "3 weeks without any are left out." in shown
