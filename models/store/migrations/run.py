"""Bring the tables up to date.  Alembic is driven in code: no ini file, no environment script."""

from pathlib import Path

import sqlalchemy as sa
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.operations import Operations
from alembic.script import ScriptDirectory

from models.store.engine import WRITES, open_engine

_ONE_AT_A_TIME = 7_205_611  # any number, the same everywhere: PostgreSQL's advisory lock against two migrations at once


def migrate(url: str) -> None:
    """Create or upgrade every table in one transaction; running it again changes nothing."""
    engine = open_engine(url)
    try:
        with engine.connect() as plain:
            connection = plain.execution_options(**{WRITES: True})
            with connection.begin():
                if connection.dialect.name == "postgresql":
                    connection.execute(sa.select(sa.func.pg_advisory_xact_lock(_ONE_AT_A_TIME)))
                _upgrade(MigrationContext.configure(connection))
    finally:
        engine.dispose()


def behind(connection: sa.Connection) -> bool:
    """True if a migration is still to be run."""
    return MigrationContext.configure(connection).get_current_revision() != _scripts().get_current_head()


def _upgrade(context: MigrationContext) -> None:
    scripts = _scripts()
    ahead = scripts.iterate_revisions("head", context.get_current_revision() or "base")
    with Operations.context(context):
        for script in reversed(list(ahead)):
            script.module.upgrade()
            context.stamp(scripts, script.revision)


def _scripts() -> ScriptDirectory:
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent).replace("%", "%%"))
    return ScriptDirectory.from_config(config)
