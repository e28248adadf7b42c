"""Totals of listing work: so many items in so many hours."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_26b"
down_revision = "2026_11_26"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one table."""
    op.create_table(
        "work_log",
        sa.Column("id", sa.String(length=32), nullable=False),
        sa.Column("shop_id", sa.String(length=32), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("items", sa.Integer(), nullable=False),
        sa.Column("hours", sa.Double(), nullable=False),
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("category", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("created_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["shop_id"], ["shop.id"], name="fk_work_log_shop_id_shop", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_work_log"),
    )
    op.create_index("ix_work_log_shop_id", "work_log", ["shop_id"])
