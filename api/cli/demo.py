"""`lotwright demo`: the whole main job on the invented shop, through the service itself."""

from pathlib import Path
from typing import Annotated

import typer

from api.cli.failures import plain_failures


def demo(
    data: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Keep the demo's data here; default: nowhere.")
    ] = None,
    json: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Write the tidy manifest's evaluation here.")
    ] = None,
) -> None:
    """Start the service, upload three years of sales and three manifests, and tell what to bid."""
    with plain_failures():
        from api.cli.demo_files import demo_folder
        from api.cli.demo_run import run_demo
        from api.cli.written_json import write_document

        evaluation = run_demo(demo_folder(), data)
        if json:
            write_document(json, evaluation)
