"""The environment of this command, or one clear line about what is wrong with it."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import typer
from pydantic import ValidationError

from models.services.environment import Environment, load_environment
from models.values.errors import Rejected

_FOR_THE_OWNER = 0o077  # what a command that keeps something makes is readable by nobody else


def own_environment(**given: Any) -> Environment:
    """The environment, its folder made if need be; `given` goes before the variables."""
    os.umask(_FOR_THE_OWNER)
    return _understood(lambda: load_environment(**given))


def seen_environment() -> Environment:
    """The environment as it is; nothing is made."""
    return _understood(Environment)


def separate_environment(data: Path) -> Environment:
    """A shop of its own in a folder, whatever database and queue the variables name."""
    return _understood(lambda: load_environment(data_dir=data, database_url="", broker_url=""))


def tell_if_open(environment: Environment) -> None:
    """A folder made beforehand may be open to others: the files made from now on are not, but it lists them."""
    if environment.open_to_others:
        folder = environment.data_dir
        typer.echo(
            f"lotwright: others on this machine can look into {folder}; `chmod 700 {folder}` ends that.", err=True
        )


def _understood(load: Callable[..., Environment]) -> Environment:
    try:
        return load()
    except ValidationError as error:
        faults = {f"LOTWRIGHT_{'_'.join(map(str, one['loc'])).upper()}": one["msg"] for one in error.errors()}
        named = "; ".join(f"{name}: {reason}" for name, reason in faults.items())
        raise Rejected(f"The environment cannot be used: {named}.", faults) from error
