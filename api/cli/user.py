"""`lotwright user`: people who may sign in."""

from typing import Annotated

import typer

from api.cli.failures import plain_failures

USUAL_ADDRESS = "http://127.0.0.1:8000"  # where `lotwright serve` listens unless told otherwise
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
    typer.echo("\n".join(what_next(environment.public_url, f"/sign-in/{secret}")))


def what_next(public_url: str, path: str) -> list[str]:
    """How to get in; without a known address of the service its first part is to be put in by hand."""
    address = public_url.rstrip("/") or USUAL_ADDRESS
    said = [f"Sign in once, within an hour: {address}{path}"]
    if not public_url:
        said += [
            "Put in front what `lotwright serve` printed, where that is not this machine's port 8000.",
            "With LOTWRIGHT_PUBLIC_URL set, the whole address is printed here.",
        ]
    return [*said, "Does it not open? Start the service with `lotwright serve`, then open it and press the button."]
