"""The first owner: on an empty database made by itself, with a shop, so that nothing has to be set up first."""

from models.services.users import Member, add_user, get_first_owner
from models.store.unit_of_work import UnitOfWork

EMAIL = "owner@localhost"  # `lotwright user add` makes others


def first_owner(work: UnitOfWork) -> Member:
    """The first owner of the first shop."""
    return get_first_owner(work) or add_user(work, EMAIL)
