"""Evaluations, immutable, with their lines; a lot points at its current one."""

import sqlalchemy as sa

from models.store.tables.base import Id, Json, Millis, id_column, metadata, reference, shop_reference

evaluation = sa.Table(
    "evaluation",
    metadata,
    id_column(),
    shop_reference(),
    reference("lot_id", "lot"),
    sa.Column("number", sa.Integer, nullable=False),  # 1, 2, 3, ... of the lot
    sa.Column("model_version", sa.Integer, nullable=False),
    sa.Column("seed", sa.BigInteger, nullable=False),
    sa.Column("as_of", sa.Date, nullable=False),
    sa.Column("draw_format", sa.Integer, nullable=False),
    sa.Column("frozen", Json, nullable=False),  # the settings documents in force: lot, source, shop, learned
    sa.Column("document", Json, nullable=False),
    sa.Column("verdict", sa.String(8), nullable=False),
    sa.Column("amount", sa.String(32), nullable=False),
    sa.Column("components_id", Id, sa.ForeignKey("blob.id"), nullable=True),  # the draws a what-if reads
    sa.Column("asked_at", Millis, nullable=False),  # when its job was queued: a later wish wins
    sa.Column("created_at", Millis, nullable=False),
    sa.UniqueConstraint("lot_id", "number"),
    sa.Index(None, "shop_id", "created_at"),
)

evaluation_line = sa.Table(
    "evaluation_line",
    metadata,
    reference("evaluation_id", "evaluation", primary_key=True),
    sa.Column("no", sa.Integer, primary_key=True),
    shop_reference(),
    sa.Column("searched", sa.Text, nullable=False),  # description, brand and category in lower case
    sa.Column("description", sa.Text, nullable=False),
    sa.Column("brand", sa.Text, nullable=False),
    sa.Column("category", sa.Text, nullable=False),
    sa.Column("condition", sa.String(16), nullable=True),
    sa.Column("action", sa.String(16), nullable=True),
    sa.Column("basis", sa.String(32), nullable=True),
    sa.Column("quantity", sa.Integer, nullable=False),
    sa.Column("sales_like_it", sa.Integer, nullable=True),
    sa.Column("tag_each", sa.Double, nullable=True),  # amounts here are major units, for sorting only
    sa.Column("unit_price_mean", sa.Double, nullable=True),
    sa.Column("share_sold", sa.Double, nullable=True),
    sa.Column("days_to_sell", sa.Double, nullable=True),
    sa.Column("listing_minutes", sa.Double, nullable=True),
    sa.Column("cash_proceeds", sa.Double, nullable=True),
    sa.Column("proceeds_after_pay", sa.Double, nullable=True),
    sa.Column("document", Json, nullable=False),
)
