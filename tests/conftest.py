"""Guards that hold for every test: no connection leaves this machine, one thread a calculation."""

import socket
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings

from models.services.threads import one_thread

one_thread()  # before numpy is loaded
# the same examples on every machine; `--hypothesis-seed=N --hypothesis-profile=default` looks for others
settings.register_profile("same", derandomize=True)
settings.load_profile("same")
# doctests are looked for by module name, and several folders have one of this name
collect_ignore_glob = ["*conftest.py"]


def _is_loopback(address: Any) -> bool:
    return (
        not isinstance(address, tuple) or str(address[0]) in {"localhost", "::1"} or str(address[0]).startswith("127.")
    )


@pytest.fixture(autouse=True, scope="session")
def only_loopback() -> Iterator[None]:
    """The service makes no outgoing request; a test that tries to fails."""
    connect = socket.socket.connect

    def guarded(self: socket.socket, address: Any) -> None:
        if not _is_loopback(address):
            raise AssertionError(f"a connection to {address} was tried")
        connect(self, address)

    socket.socket.connect = guarded  # type: ignore[method-assign, assignment]
    yield
    socket.socket.connect = connect  # type: ignore[method-assign]
