"""What all tables share: one metadata with named constraints, ids, times and JSON.

Every time is a BIGINT of epoch milliseconds UTC by the database's clock: the same on every host and in both databases.
Every row that belongs to a shop carries `shop_id`, so that no query needs a join to stay inside its shop.
"""

import secrets
import time

import sqlalchemy as sa

metadata = sa.MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)

Id = sa.String(32)
Millis = sa.BigInteger
Json = sa.JSON(none_as_null=True)  # not JSONB: documents keep the order of their keys


def new_id() -> str:
    """An id that sorts by when it was made: 13 hex digits of microseconds, which last until 2112, then 48 random bits.

    Rows of one millisecond, which `created_at` cannot tell apart, so stay in the order they were made in.
    """
    return f"{time.time_ns() // 1000:013x}{secrets.token_hex(6)}"


def id_column() -> sa.Column[str]:
    """The primary key of a table with ids."""
    return sa.Column("id", Id, primary_key=True)


def reference(name: str, target: str, *, nullable: bool = False, primary_key: bool = False) -> sa.Column[str]:
    """A reference that goes with what it points at."""
    return sa.Column(
        name, Id, sa.ForeignKey(f"{target}.id", ondelete="CASCADE"), nullable=nullable, primary_key=primary_key
    )


def shop_reference() -> sa.Column[str]:
    """The shop a row belongs to."""
    return reference("shop_id", "shop")
