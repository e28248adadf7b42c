"""`lotwright worker`: do queued work; as many of these as wanted, on as many machines."""

import os
import sys
from typing import Annotated

import typer


def worker(
    queue: Annotated[list[str] | None, typer.Option(help="quick, long, or both; default: both.")] = None,
) -> None:
    """Do queued jobs until stopped."""
    chosen = queue or ["quick", "long"]
    for name in chosen:
        if name not in ("quick", "long"):
            raise typer.BadParameter(f"'{name}' is not a queue: quick or long")
    # The worker takes this process's place, so that a stop signal reaches it itself.
    os.execv(sys.executable, [sys.executable, "-m", "worker", *(part for name in chosen for part in ("--queue", name))])  # noqa: S606
