"""Imports of sold history and the sales they brought."""

import sqlalchemy as sa

from models.store.tables.base import Millis, id_column, metadata, reference, shop_reference

sales_import = sa.Table(
    "import",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("number", sa.Integer, nullable=False),  # 1, 2, 3, ... in a shop: the order sales are read back in
    sa.Column("upload_id", sa.String(32), sa.ForeignKey("upload.id"), nullable=False),
    sa.Column("state", sa.String(16), nullable=False),
    sa.Column("error", sa.Text, nullable=True),
    sa.Column("added", sa.Integer, nullable=False),
    sa.Column("already_known", sa.Integer, nullable=False),
    # What its file says by itself, as plain arrays; None where it was never read.
    sa.Column("part_blob_id", sa.String(32), sa.ForeignKey("blob.id", ondelete="SET NULL"), nullable=True),
    sa.Column("created_at", Millis, nullable=False),
    sa.UniqueConstraint("shop_id", "number"),
)

_MONEY = (
    "tag_each", "sold_price", "asking_price", "cost", "fees", "shipping_charged", "shipping_paid", "refunded",
)  # fmt: skip
_DAYS = ("listed_on", "first_listed_on", "sold_on", "ended_on")
_TEXTS = ("title", "brand", "category", "sku", "gtin", "lot", "source", "place", "listing_ref", "order_ref")

# Money is a unit's, in minor units, not rounded: a row's amount divided by its quantity, as the fits read it.
# The rows are what all imports say together, made anew where a further one changes them; each belongs to the import,
# the row and the piece of that row it came from first.
# Days are counted from 1970-01-01, so that half a million rows become arrays without parsing.
sale = sa.Table(
    "sale",
    metadata,
    reference("import_id", "import", primary_key=True),
    sa.Column("row", sa.Integer, primary_key=True),
    sa.Column("piece", sa.SmallInteger, primary_key=True, server_default="0"),  # "sold 6, left 14" is two
    shop_reference(),
    sa.Column("fingerprint", sa.LargeBinary(16), nullable=False),  # of all cells: tells changes
    sa.Column("change", sa.Integer, nullable=False, server_default="0"),  # 1, 2, 3, ... in a shop: what wrote it last
    *(sa.Column(name, sa.Text, nullable=False) for name in _TEXTS),
    sa.Column("condition", sa.SmallInteger, nullable=False),
    sa.Column("sourced", sa.SmallInteger, nullable=False),
    sa.Column("quantity", sa.Integer, nullable=False),
    *(sa.Column(name, sa.Double, nullable=True) for name in _MONEY),
    sa.Column("listing_minutes", sa.Double, nullable=True),
    *(sa.Column(name, sa.Integer, nullable=True) for name in _DAYS),
    sa.UniqueConstraint("shop_id", "fingerprint"),
)
