"""What files say of their own totals, beside our counts."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_25d"
down_revision = "2026_11_25c"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one column; files that were read before said nothing that we kept."""
    op.add_column("upload", sa.Column("stated", sa.JSON(none_as_null=True), nullable=True))
