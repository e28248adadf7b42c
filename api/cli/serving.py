"""One machine, one command: tables, first owner, workers, web; in that order, and back."""

import fcntl
import os
import signal
import socket
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any, NoReturn

import typer
import uvicorn

from api.cli.children import Crew
from api.cli.first_owner import first_owner
from api.cli.leases import Leases
from api.cli.own_environment import own_environment, tell_if_open
from api.cli.own_store import ready_store
from api.http.app import create_app
from models.services.environment import Environment
from models.services.sign_in import create_sign_in_link
from models.store.unit_of_work import Store
from models.values.errors import Conflict
from worker.publish import Publisher

QUEUED_CONNECTIONS = 2048
GRACE_SECONDS = 5  # for answers under way, open event streams among them


@dataclass(frozen=True)
class Place:
    """Where to serve and keep; `tied`: stop when standard input ends."""

    host: str
    port: int
    data: Path | None
    tied: bool = False


def run(place: Place) -> None:
    """Serve until a signal."""
    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, _leave)
    environment = own_environment(data_dir=place.data)
    tell_if_open(environment)
    os.environ["LOTWRIGHT_DATA_DIR"] = str(environment.data_dir.resolve())  # for the workers
    with _alone(environment), _listening(place) as door, ready_store(environment) as store:
        _serve(place, environment, store, door)


def _serve(place: Place, environment: Environment, store: Store, door: socket.socket) -> None:
    address = _address(place, door)
    _fresh_queue(environment)
    publisher = Publisher(environment.broker)
    app = create_app(environment, store, publisher, (place.host, socket.gethostname()))
    with _workers(environment, store, publisher):
        typer.echo(f"Lotwright listens on {address}")
        shown = environment.public_url.rstrip("/") or address
        typer.echo(f"Sign in once, within an hour: {shown}/sign-in/{_link(store)}")
        sys.stdout.flush()
        if place.tied:
            threading.Thread(target=_end_with_stdin, daemon=True).start()
        uvicorn.Server(_config(app)).run(sockets=[door])


@contextmanager
def _workers(environment: Environment, store: Store, publisher: Publisher) -> Iterator[None]:
    """Workers of our own where there are no others; what they leave open at either end waits for nothing."""
    if not environment.embedded:
        yield
        return
    leases = Leases(store, publisher)
    leases.of_before()
    crew = Crew(leases.of_lost)
    try:
        yield
    finally:
        crew.stop()
        leases.of_stopped()


def _leave(_number: int, _frame: FrameType | None) -> NoReturn:
    """uvicorn raises the signal again once it has shut down; this lets the workers be stopped after it."""
    raise SystemExit(0)


def _end_with_stdin() -> None:
    sys.stdin.buffer.read()
    os.kill(os.getpid(), signal.SIGTERM)


@contextmanager
def _alone(environment: Environment) -> Iterator[None]:
    """One embedded `serve` a data folder: a second one would take the first one's queue and jobs away."""
    if not environment.embedded:  # any number of them may share a folder, which holds the key only
        yield
        return
    with (environment.data_dir / "serve.lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            raise Conflict(f"Another serve uses {environment.data_dir} already.") from error
        yield


@contextmanager
def _listening(place: Place) -> Iterator[socket.socket]:
    """The open door: taken before anything is started, so that a busy port costs nothing."""
    family = socket.AF_INET6 if ":" in place.host else socket.AF_INET
    # Named as TCP: asyncio answers without delay (TCP_NODELAY) only then; 44 ms a request were lost to delayed ACKs.
    with socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP) as door:
        door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            door.bind((place.host, place.port))
        except OSError as error:
            raise Conflict(f"Cannot listen on {place.host}:{place.port}: {error.strerror}.") from error
        door.listen(QUEUED_CONNECTIONS)
        yield door


def _address(place: Place, door: socket.socket) -> str:
    reached = {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(place.host, place.host)  # noqa: S104  every address: say one
    host = f"[{reached}]" if ":" in reached else reached
    return f"http://{host}:{door.getsockname()[1]}"


def _fresh_queue(environment: Environment) -> None:
    """The queue's file holds wake-ups only; those of before are of no use, the sweeper finds what is open."""
    if environment.embedded:
        for ending in ("", "-wal", "-shm", "-journal"):
            Path(f"{environment.broker_file}{ending}").unlink(missing_ok=True)


def _link(store: Store) -> str:
    """The secret of a fresh sign-in link for the first owner, who is made with a shop if there is none."""
    with store.write() as work:
        return create_sign_in_link(work, first_owner(work).user.email)


def _config(app: Callable[..., Any]) -> uvicorn.Config:
    return uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,  # addresses may carry secrets
        timeout_graceful_shutdown=GRACE_SECONDS,
        server_header=False,
    )
