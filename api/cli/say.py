"""Tell something on stdout; who reads it may have gone, as after `| head`: the work and its files go on."""

import os
import sys

import typer


def say(text: str) -> None:
    """Print; once nobody listens any more, what is said goes nowhere."""
    try:
        typer.echo(text)
    except BrokenPipeError:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
