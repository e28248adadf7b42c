"""Shops, their settings, and the sources that offer lots."""

import sqlalchemy as sa

from models.store.tables.base import Id, Json, Millis, id_column, metadata, reference, shop_reference

shop = sa.Table(
    "shop",
    metadata,
    id_column(),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("time_zone", sa.String(64), nullable=False),
    sa.Column("currency", sa.String(3), nullable=False),
    sa.Column("active_model_id", Id, nullable=True),  # no foreign key: it would point in a circle
    sa.Column("created_at", Millis, nullable=False),
)

shop_settings = sa.Table(
    "settings",
    metadata,
    reference("shop_id", "shop", primary_key=True),
    sa.Column("version", sa.Integer, nullable=False),
    sa.Column("given", Json, nullable=False),
    sa.Column("updated_at", Millis, nullable=False),
)

source = sa.Table(
    "source",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("version", sa.Integer, nullable=False),
    sa.Column("given", Json, nullable=False),
    sa.Column("created_at", Millis, nullable=False),
    sa.UniqueConstraint("shop_id", "name"),
)
