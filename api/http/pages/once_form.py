"""A page's form sent twice makes one thing: a double click, a reload, a tired finger."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Final

from fastapi import Depends, Request
from starlette.responses import RedirectResponse

from api.http.dependencies import CurrentShop, WriteWork
from api.http.pages.forms import Fields, see
from api.http.schemas.uploads import plain
from models.services.idempotency import get_answer, keep_answer, request_fingerprint
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork

FORM_KEY: Final = "form-key"  # new each time a form is drawn
NOT_CONTENT: Final = frozenset({"csrf"})


@dataclass(frozen=True)
class OnceForm:
    """Bound to one sent form and its transaction."""

    work: UnitOfWork
    shop: ShopId
    path: str
    fields: Mapping[str, str]

    def __call__(self, make: Callable[[], str], *files: bytes) -> RedirectResponse:
        """Where `make` leads, or where it led before; a form drawn once but filled in otherwise is another wish."""
        if not self.fields.get(FORM_KEY):
            return see(make())
        content = {name: text for name, text in self.fields.items() if name not in NOT_CONTENT}
        mark = request_fingerprint("form", self.path, plain(content), *files)
        self.work.shops.lock(self.shop)  # the second of two at once waits here, then finds the first one's answer
        kept = get_answer(self.work, self.shop, mark, mark)
        if kept is not None:
            return see(kept.body["location"])
        location = make()
        keep_answer(self.work, self.shop, mark, mark, 303, {"location": location})
        return see(location)


def once_form(request: Request, fields: Fields, shop: CurrentShop, work: WriteWork) -> OnceForm:
    """The form of this request."""
    return OnceForm(work, shop, request.url.path, fields)


Once = Annotated[OnceForm, Depends(once_form, scope="function")]
