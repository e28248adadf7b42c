"""Where are the demo's files?  In the checkout that was installed, whether editable or not."""

import json
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path
from urllib.parse import unquote, urlsplit

from models.values.errors import NotFound

HISTORY, SETTINGS = "sold_history.csv", "settings.toml"
MANIFESTS = ("manifest_tidy.xlsx", "manifest_messy.csv", "manifest_new_brand.csv")


def demo_folder() -> Path:
    """The folder demo_data; NotFound if no checkout is at hand."""
    roots = [Path(__file__).parents[2], *_installed_from(), Path.cwd()]
    for root in roots:
        folder = root / "demo_data"
        if all((folder / name).is_file() for name in (HISTORY, SETTINGS, *MANIFESTS)):
            return folder
    raise NotFound("The folder demo_data is not here: run `lotwright demo` in a checkout of the project.")


def _installed_from() -> list[Path]:
    """The checkout that the installer noted (PEP 610)."""
    try:
        noted = distribution("lotwright").read_text("direct_url.json")
    except PackageNotFoundError:
        return []
    address = urlsplit(json.loads(noted or "{}").get("url", ""))
    return [Path(unquote(address.path))] if address.scheme == "file" else []
