"""The day a listing ended without a sale."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_26c"
down_revision = "2026_11_26b"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one column; of sales that were read before nobody knows."""
    op.add_column("sale", sa.Column("ended_on", sa.Integer(), nullable=True))
