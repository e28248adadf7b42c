"""`lotwright evaluate`: the whole appraisal on files, without a server and without keeping anything."""

import datetime as dt
from pathlib import Path
from typing import Annotated

import typer

from api.cli.failures import fail, plain_failures


def evaluate(
    manifests: Annotated[list[Path], typer.Argument(metavar="MANIFEST...", help="Files that list the lots' lines.")],
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
    seed: Annotated[int, typer.Option(min=0, max=2**53 - 1, help="Seed of the random draws.")] = 1,
    work_log: Annotated[
        Path | None,
        typer.Option(metavar="FILE.csv", help="Totals of listing work: a CSV file with on, items, hours."),
    ] = None,
    json: Annotated[Path | None, typer.Option(metavar="FILE", help="Write the whole evaluation here.")] = None,
    lines: Annotated[Path | None, typer.Option(metavar="FILE.csv", help="Write one row a line here.")] = None,
) -> None:
    """Read files, fit the regressions once, and tell each lot's bid ceiling, hours and backlog."""
    day = day_of(as_of) if as_of else None
    with plain_failures():
        from api.cli.answers import Wish
        from api.cli.evaluation import evaluations
        from api.cli.line_table import write_lines
        from api.cli.written_json import write_json
        from models.services.clock import machine_date
        from models.services.reckoned_day import reckoned_day

        today = machine_date()
        pairs, until = tuple(given_map or ()), reckoned_day(day, today) or today
        wish = Wish(tuple(manifests), tuple(sales), settings, pairs, until, seed, work_log)
        answers = evaluations(wish)
        if json:
            write_json(json, answers)
        if lines:
            write_lines(lines, answers)
    if any(answer.error for answer in answers):
        raise typer.Exit(2)


def day_of(text: str) -> dt.date:
    """The day typed in; says how to write it where it is none."""
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        fail(f"--as-of {text}: write the date as 2026-07-01.")
