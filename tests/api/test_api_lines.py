"""What a seller types in for a line: kept under its version, frozen into the job, never half saved."""

from typing import Any

import pytest
from api_world import Shop, World
from full_shop import fill
from starlette.testclient import TestClient

from models.store.states import Queue

KEY = {"idempotency-key": "k-1"}


@pytest.fixture
def shop(world: World) -> Shop:
    return world.shop("a")


@pytest.fixture
def client(world: World, shop: Shop) -> TestClient:
    return world.client(shop)


@pytest.fixture
def address(world: World, shop: Shop) -> str:
    return f"/api/v1/lots/{fill(world, shop).lot_id}/lines/2"


def patch(client: TestClient, address: str, tag: str = "*", status: int = 202, **change: Any) -> Any:
    answer = client.patch(address, json=change, headers={"if-match": tag} if tag else {})
    assert answer.status_code == status, answer.text
    return answer.json()


def frozen_edits(world: World) -> list[dict[str, Any]]:
    """Edits that the newest queued evaluation carries."""
    with world.store.write() as work:
        found = None
        while job := work.claims.claim_next(Queue.QUICK):
            found = job
    assert found is not None
    return list(found.payload["edits"])


def jobs(client: TestClient) -> int:
    return len(client.get("/api/v1/jobs").json()["items"])


def test_a_line_is_read_with_its_tag_and_changed_under_it(world: World, client: TestClient, address: str) -> None:
    read = client.get(address)
    line = read.json()
    assert (line["no"], line["etag"], read.headers["etag"]) == (2, '"1"', '"1"')
    assert line["given"] == {"looked_up_prices": [], "action": None}
    assert line["unit_price"]["mean"] == "14.20"
    made = patch(client, address, line["etag"], looked_up_prices=["12.50", 14, 9.999], action="skip")
    assert made["line"] == {
        "no": 2, "looked_up_prices": ["12.50", "14.00", "10.00"], "action": "skip", "etag": '"2"'
    }  # fmt: skip
    assert (made["job"]["kind"], made["job"]["state"], made["lot"]["state"]) == (
        "evaluate_lot", "queued", "evaluating",
    )  # fmt: skip
    assert world.wakes.queues[-1] is Queue.QUICK
    again = client.get(address)
    assert again.headers["etag"] == '"2"'
    assert again.json()["given"] == {"looked_up_prices": ["12.50", "14.00", "10.00"], "action": "skip"}
    listed = client.get(address.rpartition("/")[0]).json()["items"]
    assert [one["etag"] for one in listed] == ['"1"', '"2"', '"1"']


def test_what_was_typed_in_is_frozen_into_the_job(world: World, client: TestClient, address: str) -> None:
    patch(client, address, looked_up_prices=["12.50"], action="never")
    assert frozen_edits(world) == [{"row": 3, "looked_up": [1250.0], "action": "never"}]
    patch(client, address[:-1] + "1", action="list")
    patch(client, address, looked_up_prices=[], action=None)
    assert frozen_edits(world) == [{"row": 2, "looked_up": [], "action": "list"}]


def test_what_is_not_named_stays(world: World, client: TestClient, address: str) -> None:
    patch(client, address, looked_up_prices=["12.50"])
    kept = patch(client, address, action="skip")["line"]
    assert (kept["looked_up_prices"], kept["action"]) == (["12.50"], "skip")
    kept = patch(client, address, looked_up_prices=None)["line"]
    assert (kept["looked_up_prices"], kept["action"]) == ([], "skip")
    assert patch(client, address, action=None)["line"]["action"] is None


@pytest.mark.parametrize("tag", ["", '"2"', 'W/"1"', "1"])
def test_without_the_right_tag_nothing_is_changed(client: TestClient, address: str, tag: str) -> None:
    before = jobs(client)
    patch(client, address, tag, 412, action="skip")
    assert client.get(address).json()["given"]["action"] is None
    assert jobs(client) == before


def test_two_who_read_the_same_do_not_overwrite_each_other(client: TestClient, address: str) -> None:
    patch(client, address, '"1"', action="skip")
    assert patch(client, address, '"1"', 412, action="list")["code"] == "stale_version"
    assert client.get(address).json()["given"]["action"] == "skip"


BAD: list[dict[str, Any]] = [
    {}, {"action": "sell"}, {"action": ""}, {"action": "li\x00st"}, {"price": 3},
    {"looked_up_prices": "12"}, {"looked_up_prices": ["twelve"]}, {"looked_up_prices": ["0"]},
    {"looked_up_prices": [-3]}, {"looked_up_prices": [True]}, {"looked_up_prices": ["NaN"]},
    {"looked_up_prices": ["1e999999999"]}, {"looked_up_prices": ["1e-999999999"]}, {"looked_up_prices": ["0.001"]},
    {"looked_up_prices": [10**400]}, {"looked_up_prices": ["5"] * 21}, {"looked_up_prices": [None]},
]  # fmt: skip


@pytest.mark.parametrize("change", BAD, ids=str)
def test_what_cannot_be_used_is_refused_and_nothing_kept(
    client: TestClient, address: str, change: dict[str, Any]
) -> None:
    before = jobs(client)
    refused = patch(client, address, "*", 422, **change)
    assert refused["detail"]
    read = client.get(address).json()
    assert (read["given"], read["etag"]) == ({"looked_up_prices": [], "action": None}, '"1"')
    assert jobs(client) == before


def test_packs_can_be_chosen(client: TestClient, address: str) -> None:
    assert patch(client, address, "*", action="bundle")["line"]["action"] == "bundle"
    assert client.get(address).json()["given"]["action"] == "bundle"


def test_infinity_is_not_a_price(client: TestClient, address: str) -> None:
    content = b'{"looked_up_prices": [Infinity]}'
    headers = {"if-match": "*", "content-type": "application/json"}
    assert client.patch(address, content=content, headers=headers).status_code in (400, 422)


def test_the_same_key_changes_once(client: TestClient, address: str) -> None:
    headers = KEY | {"if-match": '"1"'}
    first, again = (client.patch(address, json={"action": "skip"}, headers=headers) for _ in range(2))
    assert (first.status_code, again.status_code) == (202, 202), "the second is answered although the line moved on"
    assert first.json() == again.json()
    assert again.headers["idempotent-replayed"] == "true"
    assert client.get(address).headers["etag"] == '"2"'
    assert client.patch(address, json={"action": "list"}, headers=headers).status_code == 409


@pytest.mark.parametrize("no", ["0", "4", "-1", "99999999999999999999999", "two"])
def test_a_line_that_is_not_there(client: TestClient, address: str, no: str) -> None:
    missing = address.rpartition("/")[0] + f"/{no}"
    expected = (404, 422)
    assert client.get(missing).status_code in expected
    assert client.patch(missing, json={"action": "skip"}, headers={"if-match": "*"}).status_code in expected


def test_amounts_are_of_the_shops_currency(world: World) -> None:
    shop = world.shop("yen")
    with world.store.write() as work:
        work.shops.set_currency(shop.id, "JPY")
    client = world.client(shop)
    address = f"/api/v1/lots/{fill(world, shop).lot_id}/lines/1"
    assert patch(client, address, looked_up_prices=["1200"])["line"]["looked_up_prices"] == ["1200"]
    patch(client, address, "*", 422, looked_up_prices=["0.5"])


def test_a_lot_without_a_model_says_so(world: World, client: TestClient, shop: Shop) -> None:
    lot = client.post("/api/v1/lots", files={"manifest": ("m.csv", b"description\nLamp\n")}).json()["lot"]["id"]
    address = f"/api/v1/lots/{lot}/lines/1"
    assert client.patch(address, json={"action": "skip"}, headers={"if-match": "*"}).status_code == 404
    assert client.get(address).status_code == 404
