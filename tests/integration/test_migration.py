"""The tables: made by the migration, the same as the code's, safe to make again."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from conftest import Postgres

from models.store.engine import open_engine
from models.store.migrations.run import migrate
from models.store.tables.every import metadata
from models.store.unit_of_work import Store


def test_migrated_tables_are_the_codes(database: str) -> None:
    engine = open_engine(database)
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []
    engine.dispose()


def test_migrating_again_changes_nothing(database: str) -> None:
    migrate(database)
    store = Store(database)
    assert not store.migration_missing()
    store.close()


def test_two_migrations_at_once(tmp_path: Path, postgres: Postgres) -> None:
    postgres.execute("CREATE DATABASE twice")
    for url in (f"sqlite:///{tmp_path / 'twice.db'}", postgres.url("twice")):
        with ThreadPoolExecutor(2) as pool:
            list(pool.map(migrate, (url, url)))
        store = Store(url)
        assert not store.migration_missing()
        store.close()


def test_an_empty_database_is_behind(tmp_path: Path) -> None:
    store = Store(f"sqlite:///{tmp_path / 'empty.db'}")
    assert store.migration_missing()
    store.close()


def test_an_unreachable_database_says_why() -> None:
    store = Store("postgresql+psycopg://nobody@127.0.0.1:9/none")
    assert "refused" in str(store.unreachable_because())
    store.close()


@pytest.mark.parametrize("table", metadata.sorted_tables, ids=lambda table: table.name)
def test_every_time_is_whole_milliseconds(table: object) -> None:
    columns = [column for column in table.c if column.name.endswith(("_at", "lease_until", "not_before"))]  # type: ignore[attr-defined]
    assert all(str(column.type) == "BIGINT" for column in columns)
