"""A `lotwright serve` of our own, on a free loopback port, gone when we are."""

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from models.values.errors import Conflict

SAYS = "Lotwright listens on "
STOP_SECONDS = 20


@contextmanager
def own_serve(data: Path) -> Iterator[str]:
    """The address of a service on `data`; it stops at the end, also if we are killed."""
    command = [sys.executable, "-m", "api.cli.main", "serve", "--port", "0", "--data", str(data), "--tied"]
    environment = {name: value for name, value in os.environ.items() if name not in _ADDRESSES}
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True, env=environment) as process:  # noqa: S603
        try:
            yield _address(process)
        finally:
            _stop(process)


# A demo never writes into the shop that these name.
_ADDRESSES = ("LOTWRIGHT_DATABASE_URL", "LOTWRIGHT_BROKER_URL", "LOTWRIGHT_DATA_DIR")


def _address(process: subprocess.Popen[str]) -> str:
    for line in process.stdout or ():
        if line.startswith(SAYS):
            return line.removeprefix(SAYS).strip()
    raise Conflict("The service could not be started: see above.")


def _stop(process: subprocess.Popen[str]) -> None:
    process.terminate()
    try:
        process.communicate(timeout=STOP_SECONDS)
    except subprocess.TimeoutExpired:
        process.kill()
