"""The file's own words for the condition of a line, beside what they were taken for."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_25f"
down_revision = "2026_11_25e"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one column."""
    op.add_column("line", sa.Column("condition_said", sa.Text(), nullable=False, server_default=""))
