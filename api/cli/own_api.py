"""A client of the service's own API, with the standard library only."""

import json
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

from models.values.errors import Conflict

BOUNDARY = "lotwright-boundary-9f1c5a"
TIMEOUT_SECONDS = 60


class Api:
    """Requests to one service as one token."""

    def __init__(self, address: str, token: str) -> None:
        self._base = f"{address}/api/v1"
        self._token = token
        self._opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))  # never through a proxy

    def get(self, path: str) -> Any:
        """The JSON at a path."""
        return self._answer("GET", path)

    def put(self, path: str, document: Any) -> Any:
        """Replace what is at a path, whatever its version."""
        headers = {"Content-Type": "application/json", "If-Match": "*"}
        return self._answer("PUT", path, json.dumps(document).encode(), headers)

    def post(self, path: str, document: Any) -> Any:
        """Send JSON."""
        return self._answer("POST", path, json.dumps(document).encode(), {"Content-Type": "application/json"})

    def upload(self, path: str, field: str, file: Path, **texts: str) -> Any:
        """Send a file with form fields beside it."""
        parts = [_part(f'name="{name}"', text.encode()) for name, text in texts.items()]
        parts.append(_part(f'name="{field}"; filename="{file.name}"', file.read_bytes()))
        body = b"".join(parts) + f"--{BOUNDARY}--\r\n".encode()
        return self._answer("POST", path, body, {"Content-Type": f"multipart/form-data; boundary={BOUNDARY}"})

    def _answer(self, method: str, path: str, body: bytes | None = None, headers: dict[str, str] | None = None) -> Any:
        carried = {"Authorization": f"Bearer {self._token}", "Accept": "application/json"} | (headers or {})
        request = urllib.request.Request(self._base + path, body, carried, method=method)  # noqa: S310  http, our own
        try:
            with self._opener.open(request, timeout=TIMEOUT_SECONDS) as response:
                return json.load(response)
        except urllib.error.HTTPError as error:
            raise Conflict(f"{method} {path}: {_detail(error)}") from error
        except urllib.error.URLError as error:
            raise Conflict(f"The service does not answer: {error.reason}.") from error


def _part(disposition: str, content: bytes) -> bytes:
    head = f"--{BOUNDARY}\r\nContent-Disposition: form-data; {disposition}\r\n"
    return head.encode() + b"Content-Type: application/octet-stream\r\n\r\n" + content + b"\r\n"


def _detail(error: urllib.error.HTTPError) -> str:
    try:
        return str(json.load(error)["detail"])
    except (ValueError, KeyError, TypeError):
        return f"status {error.code}"
