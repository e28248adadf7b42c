"""Lots, the lines of their manifests, what sellers typed in for single lines, and ceilings they fixed."""

import sqlalchemy as sa

from models.store.tables.base import Id, Json, Millis, id_column, metadata, reference, shop_reference

lot = sa.Table(
    "lot",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("source_id", Id, sa.ForeignKey("source.id"), nullable=True),
    sa.Column("upload_id", Id, sa.ForeignKey("upload.id"), nullable=False),
    sa.Column("state", sa.String(16), nullable=False),
    sa.Column("error", sa.Text, nullable=True),
    sa.Column("given", Json, nullable=False),
    sa.Column("seed", sa.BigInteger, nullable=False),
    sa.Column("as_of", sa.Date, nullable=True),
    sa.Column("lines", sa.Integer, nullable=False),
    sa.Column("units", sa.BigInteger, nullable=False),
    sa.Column("tag_total", sa.Double, nullable=True),  # minor units
    sa.Column("evaluation_id", Id, nullable=True),  # the current one; no foreign key: it would point in a circle
    sa.Column("created_at", Millis, nullable=False),
    sa.Index(None, "shop_id", "created_at", "id"),
)

line = sa.Table(
    "line",
    metadata,
    reference("lot_id", "lot", primary_key=True),
    sa.Column("no", sa.Integer, primary_key=True),
    shop_reference(),
    sa.Column("row", sa.Integer, nullable=False),
    sa.Column("description", sa.Text, nullable=False),
    sa.Column("brand", sa.Text, nullable=False),
    sa.Column("category", sa.Text, nullable=False),
    sa.Column("condition", sa.SmallInteger, nullable=False),
    sa.Column("quantity", sa.Integer, nullable=False),
    sa.Column("tag_each", sa.Double, nullable=True),  # minor units
    sa.Column("sku", sa.Text, nullable=False),
    sa.Column("gtin", sa.Text, nullable=False),
    sa.Column("weight_kg", sa.Double, nullable=True),
    sa.Column("pallet", sa.Text, nullable=False),
    sa.Column("assorted", sa.Boolean, nullable=False),
    sa.Column("condition_said", sa.Text, nullable=False, server_default=""),
)

line_edit = sa.Table(
    "line_edit",
    metadata,
    reference("lot_id", "lot", primary_key=True),
    sa.Column("row", sa.Integer, primary_key=True),  # of the file: it stays when the manifest is read again
    shop_reference(),
    sa.Column("looked_up", Json, nullable=False),  # sold prices of one unit, minor units
    sa.Column("action", sa.String(16), nullable=True),  # the seller's own choice
    sa.Column("version", sa.Integer, nullable=False),
    sa.Column("edited_at", Millis, nullable=False),
)

ceiling_stamp = sa.Table(
    "ceiling_stamp",
    metadata,
    reference("lot_id", "lot", primary_key=True),
    sa.Column("number", sa.Integer, primary_key=True),  # 1, 2, 3, ... of the lot: the highest one holds
    shop_reference(),
    sa.Column("amount", sa.Double, nullable=False),  # hammer price, minor units
    sa.Column("evaluation_number", sa.Integer, nullable=False),  # the lot's current one when it was fixed
    sa.Column("evaluation_ceiling", sa.Double, nullable=False),  # that one's own, minor units; 0 on pass
    sa.Column("reason", sa.Text, nullable=True),
    sa.Column("adds", Json, nullable=True),  # what the seller was shown that raising it adds
    sa.Column("fixed_by", sa.String(254), nullable=False),  # address of the user, who may be gone by now
    sa.Column("token", sa.Text, nullable=True),  # name of the token, where a program did it
    sa.Column("fixed_at", Millis, nullable=False),
)
