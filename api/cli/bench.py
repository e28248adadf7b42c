"""`lotwright bench`: named workloads against named baselines on invented shops and open markets, in one run."""

from pathlib import Path
from typing import Annotated

import typer

from api.cli.failures import fail, plain_failures


def bench(
    quick: Annotated[bool, typer.Option("--quick", help="Fewer worlds: at most ten minutes on two cores.")] = False,
    json: Annotated[Path | None, typer.Option(metavar="FILE", help="Write every figure here.")] = None,
    only: Annotated[
        list[str] | None, typer.Option(metavar="WORKLOAD", help="Run this workload only; may be repeated.")
    ] = None,
) -> None:
    """Measure prices, lot totals and speed where the truth is known, with standard errors by world."""
    with plain_failures():
        from api.cli.bench_run import missing_packages, run, unknown

        if missing := missing_packages():
            fail(f"the bench compares with {' and '.join(missing)}: install lotwright[bench] first.")
        if strangers := unknown(only or []):
            fail(f"--only {strangers[0]}: no such workload.")
        run(quick, json, tuple(only or ()))
