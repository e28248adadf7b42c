"""What does a person see when something cannot be done?  One line on stderr and exit status 2, never a traceback."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import NoReturn

import typer

from models.values.errors import LotwrightError


def fail(message: str) -> NoReturn:
    """Say why and stop with exit status 2."""
    typer.echo(f"lotwright: {message}", err=True)
    raise typer.Exit(2)


@contextmanager
def plain_failures() -> Iterator[None]:
    """Turn what a person can act on into one line; anything else is our mistake and keeps its traceback."""
    try:
        yield
    except LotwrightError as error:
        fail(error.message)
    except OSError as error:
        where = f"{error.filename}: " if error.filename else ""
        fail(f"{where}{error.strerror or error}")
