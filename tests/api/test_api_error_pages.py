"""What a person sees when a page's address refuses: a page in words whatever was asked, JSON for the API alone."""

import re
from collections.abc import Callable

import pytest
from api_world import World
from page_reading import words
from starlette.responses import Response
from starlette.testclient import TestClient

ANYTHING = {"accept": "*/*"}
MIB = 1 << 20


def proof(browser: TestClient) -> str:
    found = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert found is not None
    return found[1]


def too_large(browser: TestClient, headers: dict[str, str]) -> Response:
    """A file above the limit, said beforehand."""
    files = {"manifest": ("m.csv", b"x" * (2 * MIB))}
    return browser.post("/lots", data={"csrf": proof(browser)}, files=files, headers=headers)


def too_large_unsaid(browser: TestClient, headers: dict[str, str]) -> Response:
    """The same in pieces, so that nothing tells its size before it has come."""
    head = b'--b\r\nContent-Disposition: form-data; name="manifest"; filename="m.csv"\r\n\r\n'
    pieces = iter([head, *[b"x" * MIB] * 3, b"\r\n--b--\r\n"])
    return browser.post("/lots", content=pieces, headers=headers | {"content-type": "multipart/form-data; boundary=b"})


CASES: dict[str, tuple[int, str, Callable[[TestClient, dict[str, str]], Response]]] = {
    "too large": (413, "Too large", too_large),
    "too large, unsaid": (413, "Too large", too_large_unsaid),
    "broken form": (
        400,
        "This could not be read",
        lambda browser, headers: browser.post(
            "/lots", content=b"--x", headers=headers | {"content-type": "multipart/form-data"}
        ),
    ),
    "strange name": (
        400,
        "This could not be read",
        lambda browser, headers: browser.get("/", headers=headers | {"host": "elsewhere.test"}),
    ),
    "no proof": (403, "Not from here", lambda browser, headers: browser.post("/history/trainings", headers=headers)),
    "nothing there": (404, "Not found", lambda browser, headers: browser.get("/nowhere", headers=headers)),
    "no such lot": (404, "Not found", lambda browser, headers: browser.get("/lots/none", headers=headers)),
    "wrong method": (405, "Something went wrong", lambda browser, headers: browser.delete("/lots", headers=headers)),
    "bad number": (
        422,
        "This cannot be used as it is",
        lambda browser, headers: browser.get("/history/models/many", headers=headers),
    ),
    "no form": (
        403,
        "Not from here",
        lambda browser, headers: browser.post("/lots", json={"name": "a"}, headers=headers),
    ),
}


@pytest.fixture
def small(make_world: Callable[..., World]) -> World:
    return make_world(max_upload_mib=1)


@pytest.mark.parametrize("accept", ["text/html", "*/*", ""])
@pytest.mark.parametrize("case", CASES)
def test_a_refusal_at_a_page_is_a_page(small: World, case: str, accept: str) -> None:
    status, heading, ask = CASES[case]
    answer = ask(small.browser(small.shop("heron")), {"accept": accept})
    assert answer.status_code == status
    assert answer.headers["content-type"].startswith("text/html")
    assert heading in words(answer.text)
    assert '{"' not in answer.text


def test_a_stranger_is_shown_how_to_sign_in(small: World) -> None:
    answer = small.client().get("/lots/new", headers=ANYTHING)
    assert (answer.status_code, answer.headers["content-type"].partition(";")[0]) == (401, "text/html")


def test_what_goes_wrong_here_is_a_page_too(small: World, monkeypatch: pytest.MonkeyPatch) -> None:
    browser = small.browser(small.shop("heron"))

    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("api.http.pages.history.read_imports", broken)
    answer = browser.get("/history", headers=ANYTHING)
    assert (answer.status_code, "Something went wrong" in words(answer.text)) == (500, True)
    assert answer.headers["content-type"].startswith("text/html")


@pytest.mark.parametrize("accept", ["text/html", "*/*", "application/json"])
def test_the_api_answers_programs_whatever_they_accept(small: World, accept: str) -> None:
    client = small.client(small.shop("heron"))
    files = {"manifest": ("m.csv", b"x" * (2 * MIB))}
    large = client.post("/api/v1/lots", files=files, headers={"accept": accept})
    absent = client.get("/api/v1/lots/none", headers={"accept": accept})
    assert (large.status_code, large.json()["code"]) == (413, "too_large")
    assert (absent.status_code, absent.headers["content-type"]) == (404, "application/problem+json")


def test_a_program_that_asks_a_page_for_json_gets_it(small: World) -> None:
    answer = small.browser(small.shop("heron")).get("/nowhere", headers={"accept": "application/json"})
    assert answer.json()["status"] == 404


def test_what_was_typed_stands_on_the_page_that_refuses_it(small: World) -> None:
    browser = small.browser(small.shop("typist"))
    sent = {"csrf": proof(browser), "version": "1", "form-key": "abcdefgh12345678", "price": "77.77"}
    said = words(browser.post("/lots/nolot/lines/1", data=sent).text)
    assert "77.77" in said
    assert "abcdefgh12345678" not in said
    assert "open the page again" in said
    assert "What you sent" not in words(browser.get("/lots/nolot").text)
