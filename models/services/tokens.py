"""Bearer tokens for programs: shown once, kept as a hash, revoked at will."""

from dataclasses import dataclass

from models.services.plain_text import plain_text
from models.services.secret import hashed, new_secret
from models.store.records import Caller, ShopId, TokenRecord
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NotFound, NotSignedIn, Rejected

LONGEST_NAME = 100


@dataclass(frozen=True)
class NewToken:
    """A token just made: `secret` is shown once and not kept."""

    secret: str
    token: TokenRecord


def create_token(work: UnitOfWork, shop: ShopId, user_id: str, name: str) -> NewToken:
    """A token that acts for this user in this shop; Rejected without a name to know it by."""
    known_as = plain_text(name, LONGEST_NAME)
    if not known_as:
        raise Rejected("A token needs a name, so that you know later what it is for.", {"name": "must not be empty"})
    secret = new_secret("lotwright")
    return NewToken(secret, work.people.add_token(shop, user_id, known_as, hashed(secret)))


def token_caller(work: UnitOfWork, secret: str) -> Caller:
    """Who a bearer token stands for; NotSignedIn if it is unknown or revoked."""
    caller = work.people.get_token_caller(hashed(secret))
    if caller is None:
        raise NotSignedIn("This token is not known, or was revoked.")
    return caller


def read_tokens(work: UnitOfWork, shop: ShopId) -> tuple[TokenRecord, ...]:
    """The shop's tokens, oldest first."""
    return work.people.tokens(shop)


def revoke_token(work: UnitOfWork, shop: ShopId, token_id: str) -> None:
    """Make a token useless; NotFound if the shop has none such."""
    if not work.people.revoke_token(shop, token_id):
        raise NotFound("There is no such token.")
