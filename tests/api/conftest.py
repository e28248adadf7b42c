"""A web application on a database of its own, with as many shops as a test wants."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from api_world import Shop, World, empty_tables, open_world
from starlette.testclient import TestClient


@pytest.fixture(scope="session")
def tables(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty database, made once and copied for each test."""
    return empty_tables(tmp_path_factory.mktemp("tables"))


@pytest.fixture
def make_world(tables: Path, tmp_path: Path) -> Iterator[Callable[..., World]]:
    """Applications, each with settings of the environment of its own."""
    made: list[World] = []

    def make(**given: object) -> World:
        made.append(open_world(tables, tmp_path / f"world-{len(made)}", **given))
        return made[-1]

    yield make
    for world in made:
        world.close()


@pytest.fixture
def world(make_world: Callable[..., World]) -> World:
    return make_world()


@pytest.fixture
def shop(world: World) -> Shop:
    return world.shop("tern")


@pytest.fixture
def browser(world: World, shop: Shop) -> TestClient:
    return world.browser(shop)
