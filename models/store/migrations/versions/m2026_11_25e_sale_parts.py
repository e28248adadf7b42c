"""What each file of sold history said by itself, so that all files can be joined again; pieces of one row."""

import sqlalchemy as sa
from alembic import op

revision = "2026_11_25e"
down_revision = "2026_11_25d"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add a column each; SQLite makes the tables anew, since it can change neither a key nor a reference."""
    with op.batch_alter_table("import") as table:
        table.add_column(sa.Column("part_blob_id", sa.String(length=32), nullable=True))
        table.create_foreign_key("fk_import_part_blob_id_blob", "blob", ["part_blob_id"], ["id"], ondelete="SET NULL")
    with op.batch_alter_table("sale") as table:
        table.add_column(sa.Column("piece", sa.SmallInteger(), nullable=False, server_default="0"))
        table.drop_constraint("pk_sale", type_="primary")
        table.create_primary_key("pk_sale", ["import_id", "row", "piece"])
