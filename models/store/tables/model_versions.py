"""Fitted regressions, numbered in a shop."""

import sqlalchemy as sa

from models.store.tables.base import Json, Millis, id_column, metadata, shop_reference

model_version = sa.Table(
    "model_version",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("number", sa.Integer, nullable=False),
    sa.Column("state", sa.String(16), nullable=False),
    sa.Column("as_of", sa.Date, nullable=False),
    sa.Column("seed", sa.BigInteger, nullable=False),
    sa.Column("fingerprint", sa.Text, nullable=True),  # of the sales it was fitted on
    sa.Column("sales_used", sa.Integer, nullable=True),
    sa.Column("artifact_id", sa.String(32), sa.ForeignKey("blob.id"), nullable=True),
    sa.Column("learned", Json, nullable=False),
    sa.Column("facts", Json, nullable=False),
    sa.Column("backtest", Json, nullable=True),  # how near it would have been on the shop's own past
    sa.Column("error", sa.Text, nullable=True),
    sa.Column("created_at", Millis, nullable=False),
    sa.Column("trained_at", Millis, nullable=True),
    sa.UniqueConstraint("shop_id", "number"),
)
