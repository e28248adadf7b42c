"""Settings under optimistic locking; lists, amounts, the description of the API."""

import re
from typing import Any

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import send, words
from starlette.testclient import TestClient

from models.values.settings import REGISTRY


def put(client: TestClient, document: dict[str, Any], **headers: str) -> Any:
    """Replace the settings."""
    return client.put("/api/v1/settings", json=document, headers=headers)


def test_settings_are_changed_by_who_has_read_them(world: World) -> None:
    client = world.client(world.shop("a"))
    read = client.get("/api/v1/settings")
    tag = read.headers["etag"]
    assert read.json()["given"] == {}
    assert read.json()["assumed"]["buying"]["premium"] == 0.15
    document = {"buying": {"premium": 0.1, "freight": "199.50"}}
    changed = put(client, document, **{"if-match": tag})
    assert (changed.status_code, changed.json()["given"]) == (200, document)
    assert changed.headers["etag"] != tag
    assert client.get("/api/v1/settings").headers["etag"] == changed.headers["etag"]
    assert "premium" not in changed.json()["assumed"]["buying"]
    stale = put(client, {}, **{"if-match": tag})
    assert (stale.status_code, stale.json()["code"]) == (412, "stale_version")
    assert client.get("/api/v1/settings").json()["given"] == document


@pytest.mark.parametrize("tag", ["", '"99"', 'W/"1"', "1", '""'])
def test_without_the_right_tag_nothing_is_changed(world: World, tag: str) -> None:
    client = world.client(world.shop("a"))
    assert put(client, {"buying": {"premium": 0.1}}, **({"if-match": tag} if tag else {})).status_code == 412
    assert client.get("/api/v1/settings").json()["given"] == {}


def test_one_of_several_tags_or_any_is_enough(world: World) -> None:
    client = world.client(world.shop("a"))
    assert put(client, {}, **{"if-match": '"99", ' + client.get("/api/v1/settings").headers["etag"]}).status_code == 200
    assert put(client, {}, **{"if-match": "*"}).status_code == 200


def test_every_setting_is_told_with_where_it_comes_from(world: World) -> None:
    shop = world.shop("a")
    fill(world, shop)
    in_force = {one["key"]: one for one in world.client(shop).get("/api/v1/settings").json()["in_force"]}
    assert set(in_force) == set(REGISTRY)
    assert in_force["backlog.hours_per_week"]["source"] == "learned"
    assert in_force["buying.freight"] == {
        "key": "buying.freight", "value": "250.00", "source": "assumed", "low": "150.00", "high": "450.00",
    }  # fmt: skip


def test_a_source_has_terms_of_its_own(world: World) -> None:
    client = world.client(world.shop("a"))
    put(client, {"buying": {"premium": 0.1, "freight": "100"}}, **{"if-match": "*"})
    hall = "/api/v1/settings?source=North%20hall"
    read = client.get(hall)
    assert (read.status_code, read.json()["given"], read.headers["etag"]) == (200, {}, '"1"')
    terms = {"buying": {"premium": 0.22}}
    assert client.put(hall, json=terms).status_code == 412
    changed = client.put(hall, json=terms, headers={"if-match": read.headers["etag"]})
    assert (changed.status_code, changed.json()["given"]) == (200, terms)
    assert client.put(hall, json={}, headers={"if-match": read.headers["etag"]}).status_code == 412
    assert client.get(hall).headers["etag"] == changed.headers["etag"] != read.headers["etag"]
    told = {one["key"]: (one["value"], one["source"]) for one in client.get(hall).json()["in_force"]}
    assert (told["buying.premium"], told["buying.freight"]) == ((0.22, "yours"), ("100.00", "yours"))
    assert client.get("/api/v1/settings").json()["given"]["buying"]["premium"] == 0.1
    assert world.client(world.shop("b")).get(hall).json()["given"] == {}


@pytest.mark.parametrize(
    ("source", "document", "key"),
    [
        ("", {}, "lot.source"),
        ("North", {"buying": {"premium": 7}}, "buying.premium"),
        ("North", {"currency": "EUR"}, "currency"),
        ("North", {"lot": {"source": "South"}}, "lot.source"),
    ],
)
def test_unusable_terms_of_a_source_are_refused(world: World, source: str, document: dict[str, Any], key: str) -> None:
    client = world.client(world.shop("a"))
    answer = client.put(f"/api/v1/settings?source={source}", json=document, headers={"if-match": "*"})
    assert answer.status_code == 422
    assert [one["key"] for one in answer.json()["errors"]] == [key]


def test_lists_go_on_where_they_stopped(world: World) -> None:
    client = world.client(world.shop("a"))
    for name in "abcde":
        client.post("/api/v1/lots", files={"manifest": ("m.csv", b"description\nLamp\n")}, data={"name": name})
    seen: list[str] = []
    cursor: str | None = ""
    while cursor is not None:
        page = client.get("/api/v1/lots", params={"limit": 2} | ({"cursor": cursor} if cursor else {})).json()
        seen += [one["name"] for one in page["items"]]
        cursor = page["next"]
    assert sorted(seen) == list("abcde")


def test_money_leaves_as_decimal_strings(world: World) -> None:
    shop = world.shop("a")
    lot_id = fill(world, shop).lot_id
    client = world.client(shop)
    assert client.get(f"/api/v1/lots/{lot_id}").json()["tag_total"] == "351.00"
    assert client.get(f"/api/v1/lots/{lot_id}/evaluation").json()["bid_ceiling"]["amount"] == "720.00"
    lines = client.get(f"/api/v1/lots/{lot_id}/lines?sort=-cash_proceeds&limit=1").json()
    assert lines["items"][0]["cash_proceeds"] == "29.10"
    assert lines["next"]


def test_problems_come_with_the_counts_of_the_whole_file(world: World) -> None:
    shop = world.shop("a")
    found = world.client(shop).get(f"/api/v1/lots/{fill(world, shop).lot_id}/problems").json()
    assert (found["rows"], found["kept"], found["set_aside"], found["next"]) == (4, 3, 1, None)
    assert found["items"] == [
        {"row": 5, "column": "quantity", "value": "-3", "reason": "a negative quantity", "done": "row set aside"}
    ]


def test_the_api_describes_itself(world: World) -> None:
    described = world.client().get("/api/v1/openapi.json").json()
    assert "/api/v1/lots/{lot_id}/evaluation" in described["paths"]
    assert not [path for path in described["paths"] if not path.startswith("/api/v1/") and not path.endswith("z")]
    assert described["components"]["securitySchemes"]


def test_kinds_that_are_listed_all_the_same_are_ticked_by_their_names(
    world: World, shop: Shop, browser: TestClient
) -> None:
    page = browser.get("/settings").text
    assert "infant_formula" not in words(page)
    assert 'name="never.listed_anyway:infant_formula" value="1"><span>Infant formula</span>' in page
    version = re.search(r'name="version" value="(\d+)"', page)
    assert version is not None
    form = {"version": version[1], "never.listed_anyway:helmet": "1", "never.listed_anyway:crib": "1"}
    assert send(browser, "/settings", form) == "/settings?saved=true"
    given = world.client(shop).get("/api/v1/settings").json()["given"]
    assert sorted(given["never"]["listed_anyway"]) == ["crib", "helmet"]
    page = browser.get("/settings").text
    assert 'name="never.listed_anyway:helmet" value="1" checked>' in page
    assert 'name="never.listed_anyway:infant_formula" value="1">' in page
