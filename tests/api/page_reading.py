"""Pages as a seller reads and uses them."""

import re
from html import unescape
from typing import Any

from starlette.testclient import TestClient


def words(page: str) -> str:
    """What can be read on it, in one line."""
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", page)))


def said(browser: TestClient, address: str) -> str:
    """The words at an address that must be there."""
    answer = browser.get(address)
    assert answer.status_code == 200, answer.text
    return words(answer.text)


def send(browser: TestClient, address: str, data: dict[str, Any], **more: Any) -> str:
    """Send a form as its page would; where it leads."""
    found = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert found is not None
    answer = browser.post(address, data={"csrf": found[1], **data}, **more)
    assert answer.status_code == 303, words(answer.text)
    return str(answer.headers["location"])
