"""Totals of listing work as sellers remember them."""

import sqlalchemy as sa

from models.store.tables.base import Millis, id_column, metadata, shop_reference

work_log = sa.Table(
    "work_log",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("on", sa.Date, nullable=False),
    sa.Column("items", sa.Integer, nullable=False),  # units listed
    sa.Column("hours", sa.Double, nullable=False),
    sa.Column("kind", sa.String(16), nullable=False),  # sealed, used, or blank for any
    sa.Column("category", sa.Text, nullable=False),
    sa.Column("note", sa.Text, nullable=False),
    sa.Column("created_at", Millis, nullable=False),
    sa.Index(None, "shop_id"),
)
