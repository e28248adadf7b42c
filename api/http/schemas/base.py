"""What every answer's schema shares: made from a store's record, attribute by attribute."""

from collections.abc import Callable
from typing import Any, Generic, Self, TypeVar

from pydantic import BaseModel, ConfigDict

from models.store.records import Page

R = TypeVar("R")
Made = TypeVar("Made", bound=BaseModel)


class Out(BaseModel):
    """An answer."""

    model_config = ConfigDict(from_attributes=True, frozen=True)

    @classmethod
    def of(cls, record: Any) -> Self:
        """The answer for one record."""
        return cls.model_validate(record)


class ListOut(BaseModel, Generic[Made]):
    """Some of a list; `next` is the cursor of what follows, null at the end."""

    items: list[Made]
    next: str | None

    @classmethod
    def of(cls, page: Page[R], made: Callable[[R], Made]) -> Self:
        """One page, each record through `made`."""
        return cls(items=[made(one) for one in page.items], next=page.next)


class Fault(BaseModel):
    """One reason."""

    key: str
    detail: str


class Problem(BaseModel):
    """RFC 9457 problem details; `code` names the error for programs, `adds` is what a higher ceiling would add."""

    type: str
    title: str
    status: int
    detail: str
    code: str
    errors: list[Fault] | None = None
    adds: dict[str, Any] | None = None
