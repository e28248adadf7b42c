"""One heading is one column: two that are to be read from one are said, and the last word moves it."""

from api_world import Shop, World
from page_reading import words
from starlette.testclient import TestClient
from test_api_columns import MANIFEST, answered, sent, work_off


def test_one_heading_for_two_columns_is_said_beside_both(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop)
    status, page = answered(browser, f"/lots/{lot['id']}", **{"column-tag_each": "Price", "column-quantity": "Price"})
    assert status == 422
    assert words(page).count("'Price' is named for another column, too") == 2
    assert world.client(shop).get(f"/api/v1/lots/{lot['id']}").json()["state"] == "needs_columns"


def test_a_heading_moves_to_the_column_that_was_named_last(world: World, shop: Shop) -> None:
    client, rows = world.client(shop), MANIFEST.replace(b"Item,Qty", b"Item,Zork")
    form = {"mapping": '{"sku": "Zork", "condition:B": "worn"}'}
    lot = client.post("/api/v1/lots", files={"manifest": ("m.csv", rows)}, data=form).json()["lot"]
    work_off(world)
    answers = {"tag_each": "Price", "quantity": "Zork"}
    assert client.put(f"/api/v1/lots/{lot['id']}/mapping", json=answers).status_code == 202
    work_off(world)
    read = client.get(f"/api/v1/lots/{lot['id']}").json()
    assert (read["state"], read["units"]) == ("needs_model", 3)
    assert read["file"]["mapping"].get("sku") is None
