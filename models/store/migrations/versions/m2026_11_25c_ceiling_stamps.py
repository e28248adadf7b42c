"""Ceilings that sellers fixed, each with its time."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_25c"
down_revision = "2026_11_25b"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one table."""
    op.create_table(
        "ceiling_stamp",
        sa.Column("lot_id", sa.String(length=32), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("shop_id", sa.String(length=32), nullable=False),
        sa.Column("amount", sa.Double(), nullable=False),
        sa.Column("evaluation_number", sa.Integer(), nullable=False),
        sa.Column("evaluation_ceiling", sa.Double(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=True),
        sa.Column("adds", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("fixed_by", sa.String(length=254), nullable=False),
        sa.Column("token", sa.Text(), nullable=True),
        sa.Column("fixed_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["lot_id"], ["lot.id"], name="fk_ceiling_stamp_lot_id_lot", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["shop_id"], ["shop.id"], name="fk_ceiling_stamp_shop_id_shop", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("lot_id", "number", name="pk_ceiling_stamp"),
    )
