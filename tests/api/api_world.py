"""One application in a test: its shops, its programs, its browsers."""

import shutil
from collections.abc import Collection
from dataclasses import dataclass, field
from pathlib import Path

from fastapi import FastAPI
from starlette.testclient import TestClient

from api.http.app import create_app
from models.services.environment import Environment, load_environment
from models.services.migrate import migrate
from models.services.sign_in import create_sign_in_link
from models.services.tokens import create_token
from models.services.users import add_user, open_shop
from models.store.records import ShopId
from models.store.states import Queue, Role
from models.store.unit_of_work import Store
from worker.publish import Publisher

ADDRESS = "http://127.0.0.1:8000"


class Wakes(Publisher):
    """Remembers which queues were woken instead of waking them."""

    def __init__(self) -> None:
        self.queues: list[Queue] = []

    def __call__(self, queues: Collection[Queue]) -> None:
        self.queues.extend(queues)

    def answers(self) -> bool:
        return True


@dataclass(frozen=True)
class Shop:
    """One shop with a token and an owner."""

    id: ShopId
    token: str
    email: str


@dataclass
class World:
    """One running application."""

    environment: Environment
    store: Store
    app: FastAPI
    wakes: Wakes
    clients: list[TestClient] = field(default_factory=list)

    def shop(self, name: str) -> Shop:
        with self.store.write() as work:
            made = open_shop(work, name)
            member = add_user(work, f"{name}@shop.test", made.id, Role.OWNER)
            token = create_token(work, made.id, member.user.id, "test")
        return Shop(made.id, token.secret, member.user.email)

    def client(self, shop: Shop | None = None) -> TestClient:
        """A program with the shop's token, a stranger without one."""
        headers = {"authorization": f"Bearer {shop.token}"} if shop else {}
        made = TestClient(self.app, ADDRESS, headers=headers, follow_redirects=False)
        self.clients.append(made)
        return made

    def browser(self, shop: Shop) -> TestClient:
        """A browser whose owner signed in."""
        with self.store.write() as work:
            secret = create_sign_in_link(work, shop.email)
        made = self.client()
        made.headers["accept"] = "text/html"
        assert made.post(f"/sign-in/{secret}").status_code == 303
        return made

    def close(self) -> None:
        """Let everything go."""
        for client in self.clients:
            client.close()
        self.store.close()


def empty_tables(folder: Path) -> Path:
    """A migrated database without a shop."""
    environment = load_environment(data_dir=folder)
    migrate(environment)
    return environment.data_dir / "lotwright.db"


def open_world(tables: Path, folder: Path, **given: object) -> World:
    """An application on a copy of those tables."""
    environment = load_environment(data_dir=folder, **given)
    shutil.copy(tables, folder / "lotwright.db")
    store, wakes = Store(environment.database), Wakes()
    return World(environment, store, create_app(environment, store, wakes), wakes)
