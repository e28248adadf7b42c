"""How near a model version would have been on the shop's own past."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_26"
down_revision = "2026_11_25g"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add one column; versions fitted before were not tested."""
    op.add_column("model_version", sa.Column("backtest", sa.JSON(none_as_null=True), nullable=True))
