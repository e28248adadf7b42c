"""Background work, and answers kept for requests that come twice.  The database is the truth, the queue only wakes."""

import sqlalchemy as sa

from models.store.tables.base import Id, Json, Millis, id_column, metadata, reference, shop_reference

job = sa.Table(
    "job",
    metadata,
    id_column(),
    shop_reference(),
    sa.Column("queue", sa.String(16), nullable=False),
    sa.Column("kind", sa.String(32), nullable=False),
    sa.Column("state", sa.String(16), nullable=False),
    sa.Column("subject_id", Id, nullable=False),
    sa.Column("payload", Json, nullable=False),
    sa.Column("attempt", sa.Integer, nullable=False),  # 0 before the first claim; the fence of every write
    sa.Column("lease_until", Millis, nullable=True),
    sa.Column("not_before", Millis, nullable=False),
    sa.Column("woken_at", Millis, nullable=False),  # so that N sweepers wake once
    sa.Column("cancel_requested", sa.Boolean, nullable=False),
    sa.Column("progress", sa.Double, nullable=False),  # share 0..1
    sa.Column("step", sa.Text, nullable=False),
    sa.Column("error", sa.Text, nullable=True),
    sa.Column("created_at", Millis, nullable=False),
    sa.Column("started_at", Millis, nullable=True),
    sa.Column("finished_at", Millis, nullable=True),
    sa.Index(None, "state", "queue", "not_before"),
    sa.Index(None, "shop_id", "created_at", "id"),
    sa.Index(None, "subject_id"),
)

idempotency_key = sa.Table(
    "idempotency_key",
    metadata,
    reference("shop_id", "shop", primary_key=True),
    sa.Column("key", sa.String(200), primary_key=True),
    sa.Column("request_fingerprint", sa.String(64), nullable=False),
    sa.Column("status", sa.Integer, nullable=False),
    sa.Column("body", Json, nullable=False),
    sa.Column("created_at", Millis, nullable=False),
)
