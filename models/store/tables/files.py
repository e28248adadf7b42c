"""Bytes kept in the database, so that a second machine needs nothing but it; and what reading a file told."""

import sqlalchemy as sa

from models.store.tables.base import Json, Millis, id_column, metadata, reference, shop_reference

blob = sa.Table(
    "blob",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("size", sa.BigInteger, nullable=False),
    sa.Column("sha256", sa.String(64), nullable=False),
    sa.Column("created_at", Millis, nullable=False),
)

chunk = sa.Table(
    "chunk",
    metadata,
    reference("blob_id", "blob", primary_key=True),
    sa.Column("no", sa.Integer, primary_key=True),
    sa.Column("sha256", sa.String(64), nullable=False),
    sa.Column("data", sa.LargeBinary, nullable=False),  # at most 1 MiB
)

upload = sa.Table(
    "upload",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("blob_id", sa.String(32), sa.ForeignKey("blob.id", ondelete="SET NULL"), nullable=True),  # None: pruned
    sa.Column("filename", sa.Text, nullable=False),
    sa.Column("size", sa.BigInteger, nullable=False),
    sa.Column("sha256", sa.String(64), nullable=False),
    sa.Column("headers", Json, nullable=True),  # where columns must be named
    sa.Column("missing", Json, nullable=True),
    sa.Column("rows", sa.Integer, nullable=False),
    sa.Column("kept", sa.Integer, nullable=False),
    sa.Column("set_aside", sa.Integer, nullable=False),
    sa.Column("cautions", Json, nullable=False),
    sa.Column("stated", Json, nullable=True),  # the file's own totals
    sa.Column("asked", Json, nullable=True),  # questions to the seller, columns found all the same, how sure each is
    sa.Column("created_at", Millis, nullable=False),
    sa.Index(None, "shop_id", "sha256"),
)

column_mapping = sa.Table(
    "column_mapping",
    metadata,
    reference("upload_id", "upload", primary_key=True),
    sa.Column("column", sa.String(64), primary_key=True),
    shop_reference(),
    sa.Column("header", sa.Text, nullable=False),
)

remembered_columns = sa.Table(
    "remembered_columns",
    metadata,
    reference("shop_id", "shop", primary_key=True),
    sa.Column("kind", sa.String(16), primary_key=True),  # manifest or history, what is meant in them, or grades
    sa.Column("signature", sa.String(64), primary_key=True),  # of the file's headers, of its source, or of both
    sa.Column("mapping", Json, nullable=False),  # what the seller said last
    sa.Column("remembered_at", Millis, nullable=False),
)

row_problem = sa.Table(
    "row_problem",
    metadata,
    reference("upload_id", "upload", primary_key=True),
    sa.Column("no", sa.Integer, primary_key=True),
    shop_reference(),
    sa.Column("row", sa.Integer, nullable=False),
    sa.Column("column", sa.String(64), nullable=False),
    sa.Column("value", sa.Text, nullable=False),
    sa.Column("reason", sa.Text, nullable=False),
    sa.Column("done", sa.Text, nullable=False),
)
