"""`lotwright migrate`: create the tables, or bring them up to date."""

import typer

from api.cli.failures import plain_failures


def migrate() -> None:
    """Bring the database's tables up to date; safe to run again."""
    with plain_failures():
        from api.cli.own_environment import own_environment
        from api.cli.own_store import ready_store

        with ready_store(own_environment()):
            pass
    typer.echo("The tables are up to date.")
