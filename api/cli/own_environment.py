"""The environment of this command, or one clear line about what is wrong with it."""

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from models.services.environment import Environment, load_environment
from models.values.errors import Rejected


def own_environment(**given: Any) -> Environment:
    """The environment; `given` goes before the variables."""
    try:
        return load_environment(**given)
    except ValidationError as error:
        faults = {f"LOTWRIGHT_{'_'.join(map(str, one['loc'])).upper()}": one["msg"] for one in error.errors()}
        named = "; ".join(f"{name}: {reason}" for name, reason in faults.items())
        raise Rejected(f"The environment cannot be used: {named}.", faults) from error


def separate_environment(data: Path) -> Environment:
    """A shop of its own in a folder, whatever database and queue the variables name."""
    return own_environment(data_dir=data, database_url="", broker_url="")
