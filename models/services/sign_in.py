"""Sign in by a one-time link: made by the owner of the machine or an owner of the shop, good once, for a short time."""

from dataclasses import dataclass

from models.services.secret import hashed, new_secret
from models.store.records import Caller
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NotFound, NotSignedIn

LINK_MINUTES = 60
DAY_MS = 24 * 60 * 60 * 1000


@dataclass(frozen=True)
class NewSession:
    """A session just opened: `secret` goes into the cookie and is not kept."""

    secret: str
    caller: Caller


def create_sign_in_link(work: UnitOfWork, email: str, minutes: int = LINK_MINUTES) -> str:
    """The secret of a new one-time link for a user; NotFound if there is no such user."""
    user = work.people.get_user(email)
    if user is None:
        raise NotFound(f"There is no user {email}.")
    secret = new_secret("link")
    work.people.add_link(user.id, hashed(secret), minutes * 60_000)
    return secret


def is_sign_in_link(work: UnitOfWork, secret: str) -> bool:
    """True while a link is unused and in time; it stays so."""
    return work.people.is_live_link(hashed(secret))


def redeem_sign_in_link(work: UnitOfWork, secret: str, session_days: int = 30) -> NewSession:
    """Open a session; NotSignedIn if the link is unknown, used or expired."""
    user_id = work.people.use_link(hashed(secret))
    if user_id is None:
        raise NotSignedIn("This sign-in link was used already or has expired. Ask for a new one.")
    session_secret = new_secret("session")
    work.people.add_session(user_id, hashed(session_secret), session_days * DAY_MS)
    return NewSession(session_secret, session_caller(work, session_secret))


def session_caller(work: UnitOfWork, secret: str) -> Caller:
    """Who a session cookie stands for; NotSignedIn if it is unknown or expired."""
    caller = work.people.get_session_caller(hashed(secret))
    if caller is None:
        raise NotSignedIn("You are not signed in, or your session has expired.")
    return caller


def sign_out(work: UnitOfWork, secret: str) -> None:
    """End a session."""
    work.people.end_session(hashed(secret))
