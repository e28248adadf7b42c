"""`lotwright check`: is everything in place?"""

import typer

from api.cli.failures import plain_failures


def check() -> None:
    """Look at the data folder, database, tables and queue; exit status 1 if one is not right."""
    with plain_failures():
        from api.cli.own_environment import seen_environment
        from api.cli.own_store import own_store
        from models.services.check import check as findings
        from worker.publish import Publisher

        environment = seen_environment()
        with own_store(environment) as store:
            found = findings(environment, store, lambda: Publisher(environment.broker).answers())
    for one in found:
        typer.echo(f"{'ok' if one.good else 'WRONG':<6} {one.name}: {one.says}")
    raise typer.Exit(0 if all(one.good for one in found) else 1)
