"""What does a page's form bring?  First the proof that it is our own form, then its fields."""

from collections.abc import Mapping
from typing import Annotated

from fastapi import Depends, Form, Request
from starlette.responses import RedirectResponse

from api.http.dependencies import CurrentVisitor
from api.http.middleware.visitors import same
from models.values.errors import NotAllowed


def proven(visitor: CurrentVisitor, csrf: Annotated[str, Form()] = "") -> None:
    """NotAllowed unless the form carries its session's token."""
    if not same(csrf, visitor.csrf):
        raise NotAllowed("This form is too old or not ours: open the page again, then send it.")


async def fields(request: Request) -> Mapping[str, str]:
    """Every text field by name; the form was parsed once and is kept by the request."""
    form = await request.form()
    found = {name: value.replace("\x00", "") for name, value in form.items() if isinstance(value, str)}
    request.state.typed = found  # an error page gives back what was typed
    return found


def see(address: str) -> RedirectResponse:
    """After a form: look there, so that reloading sends nothing twice."""
    return RedirectResponse(address, 303)


Proven = Depends(proven)
Fields = Annotated[Mapping[str, str], Depends(fields)]
