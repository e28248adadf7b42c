"""What sellers type in for a line of their lots."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_25b"
down_revision = "2026_11_25"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one table."""
    op.create_table(
        "line_edit",
        sa.Column("lot_id", sa.String(length=32), nullable=False),
        sa.Column("row", sa.Integer(), nullable=False),
        sa.Column("shop_id", sa.String(length=32), nullable=False),
        sa.Column("looked_up", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("action", sa.String(length=16), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("edited_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["lot_id"], ["lot.id"], name="fk_line_edit_lot_id_lot", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["shop_id"], ["shop.id"], name="fk_line_edit_shop_id_shop", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("lot_id", "row", name="pk_line_edit"),
    )
