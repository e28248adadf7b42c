"""Which keeping of a shop's sales wrote each row last: tells what changed since a model learned from them."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_26d"
down_revision = "2026_11_26c"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one column; what stands there already was written before all changes."""
    op.add_column("sale", sa.Column("change", sa.Integer(), nullable=False, server_default="0"))
