"""What a route asks for.  The door has answered who; a unit of work opens here, after the body was received."""

from collections.abc import AsyncIterator, Iterator
from typing import Annotated, NewType

import anyio
from fastapi import Depends, Query, Request

from api.http.middleware.visitors import Visitor
from models.services.environment import Environment
from models.store.records import ShopId, ShopRecord
from models.store.unit_of_work import Store, UnitOfWork

Turn = NewType("Turn", object)


class Places:
    """How many requests may be at the database at once.

    Each waits for a connection or a lock with a thread of the pool (40) in hand, and needs a thread again to go on. If
    all threads waited, those at the database could not finish: 120 uploads at once stood still for good.  So requests
    wait here, where waiting costs no thread.  Together with the door's they fit a pool of 20 connections.
    """

    def __init__(self) -> None:
        self.writers = anyio.Semaphore(6)
        self.readers = anyio.Semaphore(12)


def environment_of(request: Request) -> Environment:
    """The process's environment."""
    environment: Environment = request.app.state.environment
    return environment


def store_of(request: Request) -> Store:
    """The process's store."""
    store: Store = request.app.state.store
    return store


def visitor_of(request: Request) -> Visitor:
    """Whom the door let in."""
    visitor: Visitor = request.state.visitor
    return visitor


def shop_of(request: Request) -> ShopId:
    """The shop every query of this request is about."""
    return visitor_of(request).caller.shop


def shop_record_of(request: Request) -> ShopRecord:
    """The same shop with its currency and time zone."""
    return visitor_of(request).shop


async def readers_turn(request: Request) -> AsyncIterator[Turn]:
    """A place among those who read the database: see `Places`."""
    async with request.app.state.places.readers:
        yield Turn(object())


async def writers_turn(request: Request) -> AsyncIterator[Turn]:
    """A place among those who write to the database: see `Places`."""
    async with request.app.state.places.writers:
        yield Turn(object())


def read_work(request: Request, _: Annotated[Turn, Depends(readers_turn, scope="function")]) -> Iterator[UnitOfWork]:
    """A read-only unit of work."""
    with store_of(request).read() as work:
        yield work


def write_work(request: Request, _: Annotated[Turn, Depends(writers_turn, scope="function")]) -> Iterator[UnitOfWork]:
    """A unit of work that commits when the route returns, then wakes the queues."""
    with store_of(request).write(request.app.state.publisher) as work:
        yield work


CurrentEnvironment = Annotated[Environment, Depends(environment_of)]
CurrentVisitor = Annotated[Visitor, Depends(visitor_of)]
CurrentShop = Annotated[ShopId, Depends(shop_of)]
CurrentShopRecord = Annotated[ShopRecord, Depends(shop_record_of)]
# scope="function": with the default scope the commit comes after the answer, and a failed commit still answers 202
ReadWork = Annotated[UnitOfWork, Depends(read_work, scope="function")]
WriteWork = Annotated[UnitOfWork, Depends(write_work, scope="function")]
Limit = Annotated[int, Query(ge=1, le=500, description="How many at most.")]
Cursor = Annotated[str | None, Query(max_length=500, description="`next` of the page before.")]
