"""What we use of kombu that it does not promise: a change there must be seen here, not by a worker that hangs."""

from pathlib import Path

from kombu.transport.sqlalchemy import Transport

from worker.app import close_app, wake_app


def test_the_file_transport_keeps_its_engines_where_we_let_them_go(tmp_path: Path) -> None:
    before = set(Transport.Channel._engines)
    app = wake_app(f"sqla+sqlite:///{tmp_path / 'queue.db'}")
    made = [held for key, held in Transport.Channel._engines.items() if key not in before]
    assert len(made) == 1, "worker/process.py and worker/app.py dispose of these engines"
    engine, _session = made[0]
    pool = engine.pool
    close_app(app)
    assert engine.pool is not pool, "the engine was let go of"


def test_the_file_transport_looks_as_often_as_its_class_says() -> None:
    assert Transport.polling_interval == 0.1
