"""Users, what they may do, and what they show at the door; secrets are kept as hashes only."""

import sqlalchemy as sa

from models.store.tables.base import Millis, id_column, metadata, reference, shop_reference

user = sa.Table(
    "user",
    metadata,
    id_column(),
    sa.Column("email", sa.String(254), nullable=False, unique=True),
    sa.Column("created_at", Millis, nullable=False),
)

membership = sa.Table(
    "membership",
    metadata,
    reference("shop_id", "shop", primary_key=True),
    reference("user_id", "user", primary_key=True),
    sa.Column("role", sa.String(16), nullable=False),
    sa.Column("created_at", Millis, nullable=False),
)

token = sa.Table(
    "token",
    metadata,
    id_column(),
    shop_reference(),
    reference("user_id", "user"),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("secret_hash", sa.String(64), nullable=False, unique=True),
    sa.Column("created_at", Millis, nullable=False),
    sa.Column("revoked_at", Millis, nullable=True),
)

session = sa.Table(
    "session",
    metadata,
    id_column(),
    shop_reference(),
    reference("user_id", "user"),
    sa.Column("secret_hash", sa.String(64), nullable=False, unique=True),
    sa.Column("created_at", Millis, nullable=False),
    sa.Column("expires_at", Millis, nullable=False),
)

sign_in_link = sa.Table(
    "sign_in_link",
    metadata,
    id_column(),
    reference("user_id", "user"),
    sa.Column("secret_hash", sa.String(64), nullable=False, unique=True),
    sa.Column("created_at", Millis, nullable=False),
    sa.Column("expires_at", Millis, nullable=False),
    sa.Column("used_at", Millis, nullable=True),
)
