"""A sign-in address that is used up: what happened, and how to get a new one."""

from api_world import Shop, World
from page_reading import words
from starlette.testclient import TestClient

from models.services.sign_in import create_sign_in_link

GONE = "This sign-in address does not work any more"


def test_a_used_address_says_what_to_do_however_it_is_opened(world: World, shop: Shop) -> None:
    with world.store.write() as work:
        address = f"/sign-in/{create_sign_in_link(work, shop.email)}"
    visitor = world.client()
    visitor.headers["accept"] = "text/html"
    assert "Sign in here" in words(visitor.get(address).text)
    assert "Sign in here" in words(visitor.get(address).text), "looking does not use it up"
    assert visitor.post(address).status_code == 303
    for answer in (visitor.get(address), visitor.post(address), visitor.get("/sign-in/link_never-made")):
        page = words(answer.text)
        assert answer.status_code == 401
        assert GONE in page
        assert "lotwright user add YOUR@EMAIL" in page
        assert "go to your lots" in page
    assert visitor.get("/").status_code == 200


def test_a_program_is_told_in_its_own_form(world: World) -> None:
    answer: TestClient = world.client()
    refused = answer.post("/sign-in/link_never-made", headers={"accept": "application/json"})
    assert (refused.status_code, refused.json()["code"]) == (401, "not_signed_in")
