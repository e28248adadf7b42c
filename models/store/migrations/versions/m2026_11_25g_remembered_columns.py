"""What a file is asked about, and what a shop answered for files of the same headers."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_25g"
down_revision = "2026_11_25f"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one column and one table; earlier answers were not kept by header."""
    op.add_column("upload", sa.Column("asked", sa.JSON(none_as_null=True), nullable=True))
    op.create_table(
        "remembered_columns",
        sa.Column("shop_id", sa.String(length=32), nullable=False),
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("signature", sa.String(length=64), nullable=False),
        sa.Column("mapping", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("remembered_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(
            ["shop_id"], ["shop.id"], name="fk_remembered_columns_shop_id_shop", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("shop_id", "kind", "signature", name="pk_remembered_columns"),
    )
