"""Every error is a problem document (RFC 9457) that gives away nothing, and a page for a person's browser."""

from typing import Any

import pytest
from api_world import World
from full_shop import fill

from api.http.errors import STATUS, status_of
from models.store.unit_of_work import Store
from models.values import errors

LAMP = ("m.csv", b"description\nLamp\n")


def problem_of(answer: Any, status: int) -> dict[str, Any]:
    """The body, after checking its form."""
    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/problem+json"
    body: dict[str, Any] = answer.json()
    assert set(body) >= {"type", "title", "status", "detail", "code"}
    assert body["status"] == status
    return body


def test_every_class_of_the_tree_has_a_status() -> None:
    def tree(kind: type[errors.LotwrightError]) -> list[type[errors.LotwrightError]]:
        return [kind, *(deeper for one in kind.__subclasses__() for deeper in tree(one))]

    assert set(tree(errors.LotwrightError)) == set(STATUS)
    assert status_of(errors.StaleVersion("")) == 412


def test_errors_of_the_api(world: World) -> None:
    shop = world.shop("a")
    full, client = fill(world, shop), world.client(shop)
    assert problem_of(client.get("/api/v1/lots/none"), 404)["code"] == "not_found"
    assert problem_of(client.get("/api/v1/none"), 404)["code"] == "not_found"
    assert problem_of(client.patch("/api/v1/lots"), 405)["code"] == "method_not_allowed"
    assert problem_of(world.client().get("/api/v1/lots"), 401)["code"] == "not_signed_in"
    assert problem_of(client.get("/api/v1/lots?limit=0"), 422)["errors"][0]["key"] == "query.limit"
    assert problem_of(client.get("/api/v1/lots?cursor=zzz"), 422)["code"] == "rejected"
    assert problem_of(client.get(f"/api/v1/lots/{full.lot_id}/lines?sort=money"), 422)["code"] == "rejected"
    assert problem_of(client.post("/api/v1/lots"), 422)["errors"][0]["key"] == "body.manifest"
    assert problem_of(client.post("/api/v1/trainings", content=b"{"), 422)["code"] == "invalid"
    assert problem_of(client.post(f"/api/v1/jobs/{full.job_id}x/cancel"), 404)


def test_faults_name_each_key(world: World) -> None:
    client = world.client(world.shop("a"))
    document = {"buying": {"premium": 3, "nonsense": 1}, "goals": {"confidence": "much"}}
    body = problem_of(client.put("/api/v1/settings", json=document, headers={"if-match": "*"}), 422)
    keys = {one["key"] for one in body["errors"]}
    assert keys == {"buying.premium", "buying.nonsense", "goals.confidence"}


@pytest.mark.parametrize("field", ["settings", "mapping"])
@pytest.mark.parametrize("text", ["{", "[]", "1", "[" * 100_000, '{"a": "\\u0000"}', '{"a": "\\ud800"}', '{"a": 1}'])
def test_form_fields_that_are_no_json_object_are_named(world: World, field: str, text: str) -> None:
    client = world.client(world.shop("a"))
    body = problem_of(client.post("/api/v1/lots", files={"manifest": LAMP}, data={field: text}), 422)
    assert body["errors"], body


def test_what_was_typed_is_not_sent_back(world: World) -> None:
    answer = world.client(world.shop("a")).post("/api/v1/trainings", json={"as_of": "secret-typed"})
    assert "secret-typed" not in answer.text


class Broken(Store):
    """A store with a fault of our own in it."""

    def read(self) -> Any:
        raise ZeroDivisionError("an inner detail")


def test_an_unforeseen_fault_tells_the_client_nothing(world: World, caplog: pytest.LogCaptureFixture) -> None:
    shop = world.shop("a")
    client, browser = world.client(shop), world.browser(shop)
    world.app.state.store = Broken(world.environment.database)
    answer = client.get("/api/v1/lots")
    body = problem_of(answer, 500)
    assert "inner detail" not in str(body)
    assert "ZeroDivisionError" in caplog.text
    assert "content-security-policy" in answer.headers
    page = browser.get("/")
    assert (page.status_code, "inner detail" in page.text, "went wrong" in page.text) == (500, False, True)


def test_a_person_gets_a_page(world: World) -> None:
    browser = world.browser(world.shop("a"))
    page = browser.get("/lots/none")
    assert page.status_code == 404
    assert "There is no such lot." in page.text
    stranger = world.client()
    stranger.headers["accept"] = "text/html"
    assert "sign-in address" in stranger.get("/").text
