"""`lotwright backtest`: how near the estimates would have been on the seller's own history, day after day."""

from pathlib import Path
from typing import Annotated

import typer

from api.cli.evaluate import day_of
from api.cli.failures import plain_failures


def backtest(
    sales: Annotated[
        list[Path],
        typer.Option(
            metavar="FILE", help="Your sold history; repeat it for orders, listings and fees in several files."
        ),
    ],
    settings: Annotated[Path | None, typer.Option(metavar="FILE.toml", help="Your settings.")] = None,
    given_map: Annotated[
        list[str] | None,
        typer.Option("--map", metavar="CANONICAL=HEADER", help="Which column of your files is which; may be repeated."),
    ] = None,
    as_of: Annotated[str | None, typer.Option(metavar="DATE", help="The day to reckon from; default: today.")] = None,
    cut_offs: Annotated[
        int,
        typer.Option(
            min=1, max=200, help="Most days to go back to, each a fit of its own; very long histories get fewer."
        ),
    ] = 26,
    json: Annotated[Path | None, typer.Option(metavar="FILE", help="Write every figure here.")] = None,
) -> None:
    """Go back to many days, learn from what was known then, and hold what it would have said against what came."""
    day = day_of(as_of) if as_of else None
    with plain_failures():
        from api.cli.backtest_run import Wish, run
        from models.services.clock import machine_date
        from models.services.reckoned_day import reckoned_day

        today = machine_date()
        run(Wish(tuple(sales), settings, tuple(given_map or ()), reckoned_day(day, today) or today, cut_offs, json))
