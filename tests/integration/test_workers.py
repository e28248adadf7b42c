"""Real worker processes: on PostgreSQL and Redis, and on two SQLite files; what is killed comes out the same."""

import logging
import os
import signal
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from conftest import SHORT_LEASE, Addresses
from whole_shop import Service, history, manifest
from working import Worker, until

from models.services.environment import load_environment
from models.services.migrate import migrate
from models.services.submit_training import submit_training
from models.store.records import JobRecord
from models.store.states import FileState, JobState, Queue
from models.store.unit_of_work import Store
from worker.publish import Publisher

log = logging.getLogger(__name__)
LINES = 800  # some seconds of work


@pytest.fixture
def embedded(tmp_path: Path) -> Iterator[tuple[Service, list[Worker]]]:
    """Two SQLite files and two workers, one a queue, as `serve` runs them."""
    environment = load_environment(data_dir=tmp_path / "embedded")
    migrate(environment)
    store, publish = Store(environment.database), Publisher(environment.broker)
    workers = [
        Worker(queue, {"LOTWRIGHT_DATA_DIR": str(environment.data_dir)}, SHORT_LEASE) for queue in ("quick", "long")
    ]
    for worker in workers:
        worker.wait_until_ready()
    yield Service(store, publish), workers
    for worker in workers:
        worker.kill()
    publish.close()
    store.close()


@pytest.fixture
def spread(distributed: Addresses) -> Iterator[Service]:
    """The same on PostgreSQL and Redis."""
    store, publish = Store(distributed.database_url), Publisher(distributed.broker_url)
    yield Service(store, publish)
    publish.close()
    store.close()


def test_work_that_was_killed_or_never_heard_of_is_made_good(
    embedded: tuple[Service, list[Worker]],
    spread: Service,
    distributed: Addresses,
) -> None:
    services = (embedded[0], spread)
    for service in services:
        assert service.end_of(service.import_sales(history(400))).state is JobState.DONE
    for service in services:
        until(lambda service=service: has_model(service), 60)
    unheard = train_without_a_word(services[0])
    killed = [
        killed_halfway(services[0], embedded[1][0].kill),
        killed_halfway(services[1], lambda: pool_children_of(distributed.workers[0], signal.SIGKILL)),
    ]
    struck = time.monotonic()
    replacement = Worker("quick", embedded[1][0].environment, SHORT_LEASE)
    try:
        for service, job in zip(services, killed, strict=True):
            ended = service.end_of(job, 60)
            log.info("%.1f s from kill -9 to the end", time.monotonic() - struck)
            assert (ended.state, ended.attempt) == (JobState.DONE, 2)
            assert service.evaluations(job.subject_id) == 1
        assert services[0].end_of(unheard).state is JobState.DONE
        twins = [service.add_lot(manifest(LINES)) for service in services]
        for service, job, twin in zip(services, killed, twins, strict=True):
            assert service.end_of(twin).attempt == 1
            assert service.document(job.subject_id) == same_lot(service.document(twin.subject_id), job.subject_id)
    finally:
        replacement.kill()
    assert services[0].document(killed[0].subject_id)["lines"] == services[1].document(killed[1].subject_id)["lines"]


def killed_halfway(service: Service, kill: Callable[[], None]) -> JobRecord:
    """An evaluation whose worker is killed in the middle of it."""
    job = service.add_lot(manifest(LINES))
    until(lambda: service.job(job.id).progress > 0.35, 60)
    kill()
    assert service.job(job.id).state is JobState.RUNNING
    return job


def train_without_a_word(service: Service) -> JobRecord:
    """A job whose wake-up is lost."""
    with service.store.write(None) as work:
        return submit_training(work, service.shop).job


def has_model(service: Service) -> bool:
    with service.store.read() as work:
        return work.models.get_active_number(service.shop) is not None


def same_lot(document: dict[str, object], lot_id: str) -> dict[str, object]:
    """The document as if it were of this lot."""
    return document | {"lot": document["lot"] | {"id": lot_id}}  # type: ignore[operator]


def pool_children_of(worker: Worker, number: int) -> None:
    """Signal the processes that do a worker's jobs."""
    children = Path(f"/proc/{worker.process.pid}/task/{worker.process.pid}/children").read_text().split()
    assert children
    for child in children:
        os.kill(int(child), number)


def test_a_worker_asked_to_stop_gives_its_job_back(spread: Service, distributed: Addresses) -> None:
    assert spread.end_of(spread.import_sales(history(400))).state is JobState.DONE
    until(lambda: has_model(spread), 60)
    job = spread.add_lot(manifest(LINES))
    until(lambda: spread.job(job.id).progress > 0.35, 60)
    quick = distributed.workers[0]
    quick.process.terminate()
    assert quick.process.wait(10) == 0
    given_back = spread.job(job.id)
    assert (given_back.state, given_back.attempt) == (JobState.QUEUED, 0)
    next_one = Worker("quick", quick.environment, SHORT_LEASE)
    try:
        ended = spread.end_of(job)
        assert (ended.state, ended.attempt) == (JobState.DONE, 1)
    finally:
        next_one.kill()


def test_lots_wait_for_the_first_model(spread: Service) -> None:
    lot = spread.add_lot(manifest(5))
    assert spread.end_of(lot).state is JobState.DONE
    assert spread.lot(lot.subject_id).state is FileState.NEEDS_MODEL
    assert spread.end_of(spread.import_sales(history(200))).state is JobState.DONE
    assert spread.evaluated(lot.subject_id).state is FileState.READY
    broken = spread.end_of(spread.add_lot(b""))
    assert broken.state is JobState.FAILED
    assert "Traceback" not in str(broken.error)
    started = [spread.end_of(spread.add_lot(manifest(1))) for _ in range(3)]
    waits = [(job.started_at - job.created_at).total_seconds() for job in started if job.started_at]
    log.info("%s s from queued to started", sorted(waits))
    assert min(waits) < 2


def test_a_worker_dies_with_its_starter(embedded: tuple[Service, list[Worker]]) -> None:
    worker = embedded[1][0]
    group = os.getpgid(worker.process.pid)
    assert worker.process.stdin is not None
    worker.process.stdin.close()
    worker.process.wait(10)
    until(lambda: not alive(group), 10)


def alive(group: int) -> bool:
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True


@pytest.mark.parametrize("broker", ["redis://127.0.0.1:9/0", "sqla+sqlite:////proc/nowhere/queue.db"])
def test_a_silent_queue_costs_a_warning(broker: str, caplog: pytest.LogCaptureFixture) -> None:
    begun = time.monotonic()
    with caplog.at_level(logging.WARNING):
        publish = Publisher(broker)
        publish({Queue.QUICK})
        assert not publish.answers()
    publish.close()
    assert "the sweeper will" in caplog.text
    assert time.monotonic() - begun < 5
