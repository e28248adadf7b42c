"""`lotwright serve`: pages, API and workers on this machine; nothing else to install."""

from pathlib import Path
from typing import Annotated

import typer

from api.cli.failures import plain_failures


def serve(
    host: Annotated[
        str, typer.Option(help="Address to listen on; the default is reachable from this machine only.")
    ] = ("127.0.0.1"),
    port: Annotated[int, typer.Option(min=0, max=65535, help="Port; 0 takes a free one.")] = 8000,
    data: Annotated[Path | None, typer.Option(metavar="DIR", help="Folder of everything that is kept.")] = None,
    tied: Annotated[bool, typer.Option(hidden=True, help="Stop when standard input ends.")] = False,
) -> None:
    """Serve until stopped; prints an address that signs you in once."""
    with plain_failures():
        from api.cli.serving import Place, run

        run(Place(host, port, data, tied))
