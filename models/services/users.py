"""People and shops: a new user joins a shop, or opens one."""

from dataclasses import dataclass
from zoneinfo import available_timezones

from models.store.records import ShopId, ShopRecord, UserRecord
from models.store.states import Role
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict, NotFound, Rejected
from models.values.money import minor_digits


@dataclass(frozen=True)
class Member:
    """A user in a shop."""

    user: UserRecord
    shop: ShopRecord
    role: Role


def add_user(work: UnitOfWork, email: str, shop: ShopId | None = None, role: Role = Role.MEMBER) -> Member:
    """A new user of `shop`, else of the first shop there is; on an empty database the owner of a new shop."""
    email = email.strip().lower()
    if "@" not in email or len(email) > 254 or not email.isprintable() or " " in email:
        raise Rejected(f"'{email}' is not an e-mail address.")
    if work.people.get_user(email) is not None:
        raise Conflict(f"There is a user {email} already.")
    joined = work.shops.require(shop) if shop else work.shops.get_first()
    role = role if joined else Role.OWNER
    joined = joined or open_shop(work, "My shop")
    user = work.people.add_user(email)
    work.people.add_member(joined.id, user.id, role)
    return Member(user, joined, role)


def open_shop(work: UnitOfWork, name: str, time_zone: str = "UTC", currency: str = "USD") -> ShopRecord:
    """A new shop; Rejected if the time zone or currency is not one."""
    if time_zone not in available_timezones():
        raise Rejected(f"'{time_zone}' is not a time zone such as Europe/Berlin.")
    minor_digits(currency)
    return work.shops.add(name, time_zone, currency)


def get_first_owner(work: UnitOfWork) -> Member | None:
    """The first owner of the first shop, None on an empty database."""
    shop = work.shops.get_first()
    user = work.people.get_first_owner(shop.id) if shop else None
    return Member(user, shop, Role.OWNER) if shop and user else None


def get_member(work: UnitOfWork, email: str) -> Member | None:
    """The user and the shop they act in, None if there is no such user."""
    user = work.people.get_user(email.strip().lower())
    member = work.people.get_membership(user.id) if user else None
    return Member(user, work.shops.require(member[0]), member[1]) if user and member else None


def require_member(work: UnitOfWork, email: str) -> Member:
    """The same; NotFound if there is no such user."""
    member = get_member(work, email)
    if member is None:
        raise NotFound(f"There is no user {email}.")
    return member
