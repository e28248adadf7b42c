"""Another site's page cannot act as the signed-in seller; sign-in addresses work once."""

import re

import pytest
from api_world import ADDRESS, World
from full_shop import fill
from routes_walked import walked
from starlette.testclient import TestClient

from models.services.sign_in import create_sign_in_link


def csrf_of(browser: TestClient) -> str:
    """What our own pages carry."""
    found = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert found is not None
    return found[1]


def test_every_page_form_needs_its_proof(world: World) -> None:
    shop = world.shop("a")
    full, browser = fill(world, shop), world.browser(shop)
    values = {"import_id": full.import_id, "lot_id": full.lot_id, "job_id": full.job_id, "number": "1", "no": "1"}
    values |= {"entry_id": full.entry_id}
    files = {"manifest": ("m.csv", b"description\nLamp\n"), "file": ("s.csv", b"title\nLamp\n")}
    forms = [
        one for one in walked(world.app) if one.method == "POST" and not one.is_api and "/sign-in/" not in one.path
    ]
    assert len(forms) > 8
    for form in forms:
        for proof in ({}, {"csrf": ""}, {"csrf": "0" * 64}):
            answer = browser.post(form.path.format_map(values), data={"version": "1", **proof}, files=files)
            assert answer.status_code == 403, form
    assert browser.get("/").status_code == 200, "still signed in"


def test_every_write_of_the_api_by_cookie_needs_its_proof(world: World) -> None:
    shop = world.shop("a")
    full, browser = fill(world, shop), world.browser(shop)
    values = {"import_id": full.import_id, "lot_id": full.lot_id, "job_id": full.job_id, "number": "1", "no": "1"}
    values |= {"entry_id": full.entry_id}
    writes = [one for one in walked(world.app) if one.method not in ("GET", "OPTIONS") and one.is_api]
    assert len(writes) > 8
    for write in writes:
        assert browser.request(write.method, write.path.format_map(values)).status_code == 403, write
    proof = {"x-csrf-token": csrf_of(browser), "if-match": "*"}
    assert browser.put("/api/v1/settings", json={}, headers=proof).status_code == 200


ELSEWHERE = [
    ("origin", "https://evil.test"),
    ("origin", "null"),
    ("sec-fetch-site", "cross-site"),
    ("sec-fetch-site", "same-site"),
]


@pytest.mark.parametrize(("name", "value"), ELSEWHERE)
def test_a_form_from_elsewhere_is_refused_even_with_its_proof(world: World, name: str, value: str) -> None:
    browser = world.browser(world.shop("a"))
    data = {"csrf": csrf_of(browser), "version": "1"}
    assert browser.post("/settings", data=data, headers={name: value}).status_code == 403
    ours = {"origin": ADDRESS, "sec-fetch-site": "same-origin"}
    assert browser.post("/settings", data=data, headers=ours).status_code == 303


def test_one_session_cannot_use_anothers_proof(world: World) -> None:
    shop = world.shop("a")
    first, second = world.browser(shop), world.browser(shop)
    assert second.post("/settings", data={"csrf": csrf_of(first), "version": "1"}).status_code == 403


def test_looking_at_a_sign_in_address_does_not_use_it_up(world: World) -> None:
    shop = world.shop("a")
    with world.store.write() as work:
        secret = create_sign_in_link(work, shop.email)
    stranger = world.client()
    assert [stranger.get(f"/sign-in/{secret}").status_code for _ in range(3)] == [200, 200, 200]
    signed = stranger.post(f"/sign-in/{secret}")
    assert (signed.status_code, signed.headers["location"]) == (303, "/")
    cookie = signed.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=lax" in cookie
    assert "Secure" not in cookie, "plain http on loopback"
    assert world.client().post(f"/sign-in/{secret}").status_code == 401


def test_over_https_the_cookie_stays_on_https(world: World) -> None:
    shop = world.shop("a")
    with world.store.write() as work:
        secret = create_sign_in_link(work, shop.email)
    signed = world.client().post(ADDRESS.replace("http", "https") + f"/sign-in/{secret}")
    assert "Secure" in signed.headers["set-cookie"]


def test_signing_out_ends_the_session_everywhere(world: World) -> None:
    browser = world.browser(world.shop("a"))
    cookie = browser.cookies["lotwright_session"]
    assert browser.post("/sign-out", data={"csrf": csrf_of(browser)}).status_code == 303
    other = world.client()
    other.cookies.set("lotwright_session", cookie)
    assert other.get("/").status_code == 401


def test_a_session_is_no_bearer_token_and_a_token_is_no_session(world: World) -> None:
    shop = world.shop("a")
    cookie = world.browser(shop).cookies["lotwright_session"]
    assert world.client().get("/api/v1/lots", headers={"authorization": f"Bearer {cookie}"}).status_code == 401
    other = world.client()
    other.cookies.set("lotwright_session", shop.token)
    assert other.get("/").status_code == 401
    assert world.client(shop).get("/").status_code == 401, "pages take the cookie only"
