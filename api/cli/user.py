"""`lotwright user`: people who may sign in."""

from typing import Annotated

import typer

from api.cli.failures import plain_failures

users = typer.Typer(help="People who may sign in.", no_args_is_help=True)


@users.callback()
def group() -> None:
    """People who may sign in."""


@users.command()
def add(email: Annotated[str, typer.Argument(metavar="EMAIL")]) -> None:
    """Let someone into the shop; prints an address that signs them in once, a new one for who is in already."""
    with plain_failures():
        from api.cli.own_environment import own_environment
        from api.cli.own_store import ready_store
        from models.services.sign_in import create_sign_in_link
        from models.services.users import add_user, get_member

        environment = own_environment()
        with ready_store(environment) as store, store.write() as work:
            known = get_member(work, email)
            member = known or add_user(work, email)
            secret = create_sign_in_link(work, member.user.email)
    already = " already: this is a new sign-in address for an existing user" if known else ""
    typer.echo(f"{member.user.email} is {member.role.value} of {member.shop.name}{already}.")
    typer.echo(f"Sign in once, within an hour: {environment.public_url.rstrip('/')}/sign-in/{secret}")
