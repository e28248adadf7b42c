"""`lotwright token`: bearer tokens for programs."""

from typing import Annotated

import typer

from api.cli.failures import plain_failures
from models.services.environment import Environment

tokens = typer.Typer(help="Bearer tokens for programs.", no_args_is_help=True)


@tokens.callback()
def group() -> None:
    """Bearer tokens for programs."""


@tokens.command()
def create(name: Annotated[str, typer.Option(help="What the token is for.")]) -> None:
    """Make a token that acts for the shop's first owner; it is shown this once."""
    with plain_failures():
        from api.cli.own_environment import own_environment

        typer.echo(token_secret(own_environment(), name))


def token_secret(environment: Environment, name: str) -> str:
    """A fresh token of the first owner, who is made with a shop if there is none."""
    from api.cli.first_owner import first_owner
    from api.cli.own_store import ready_store
    from models.services.tokens import create_token

    with ready_store(environment) as store, store.write() as work:
        owner = first_owner(work)
        return create_token(work, owner.shop.id, owner.user.id, name).secret
