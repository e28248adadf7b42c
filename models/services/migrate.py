"""Bring a database's tables up to date."""

from models.services.environment import Environment
from models.store.migrations.run import migrate as migrate_tables


def migrate(environment: Environment) -> None:
    """Create or upgrade the tables; safe to run again, also by two at once."""
    migrate_tables(environment.database)
