"""`serve` and its workers killed or stopped in the middle of an evaluation: nothing waits for a lease to run out."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from whole_shop import history, manifest

from api.cli.own_api import Api

pytestmark = pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks for processes under /proc")
CLEAN = {name: value for name, value in os.environ.items() if not name.startswith("LOTWRIGHT_")}
LEASE_SECONDS = 30
COMMAND = [sys.executable, "-m", "api.cli.main"]


class Served:
    """A running `serve` and its API."""

    def __init__(self, data: Path, process: subprocess.Popen[str], token: str) -> None:
        assert process.stdout is not None
        self.data, self.process = data, process
        self.api = Api(process.stdout.readline().rpartition(" ")[2].strip(), token)

    def job(self, job: str) -> dict[str, Any]:
        found: dict[str, Any] = self.api.get(f"/jobs/{job}")
        return found

    def ended(self, job: str, seconds: float = 60) -> dict[str, Any]:
        end = time.monotonic() + seconds
        while (found := self.job(job))["state"] not in ("done", "failed", "cancelled"):
            assert time.monotonic() < end, found
            time.sleep(0.05)
        return found

    def half_done(self, lines: int = 1500) -> str:
        """An evaluation in the middle of its work."""
        file = self.data.parent / "lot.csv"
        file.write_bytes(manifest(lines))
        made: str = self.api.upload("/lots", "manifest", file, name="A lot")["job"]["id"]
        self.reached(made, 0.3)
        return made

    def reached(self, job: str, share: float, attempt: int = 1) -> None:
        end = time.monotonic() + 60
        while (found := self.job(job))["attempt"] != attempt or found["progress"] < share:
            assert found["state"] in ("queued", "running"), found
            assert time.monotonic() < end, found
            time.sleep(0.02)

    def processes(self) -> dict[str, int]:
        """The worker of `quick` and the process that does its jobs."""
        found = {pid: words for pid, words in _commands() if "quick" in words and "worker" in words}
        parents = {pid: _parent(pid) for pid in found}
        worker = next(pid for pid, parent in parents.items() if parent == self.process.pid)
        return {"worker": worker, "pool": next(pid for pid, parent in parents.items() if parent == worker)}


def _commands() -> Iterator[tuple[int, list[str]]]:
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                yield int(entry.name), (entry / "cmdline").read_text().split("\0")
            except OSError:
                continue


def _parent(pid: int) -> int:
    try:
        return int(Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[1])
    except OSError:
        return 0


@contextmanager
def serving(data: Path, token: str) -> Iterator[Served]:
    command = [*COMMAND, "serve", "--port", "0", "--data", str(data)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=CLEAN) as process:
        try:
            yield Served(data, process, token)
        finally:
            process.terminate()


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """A folder with a trained model, and a token."""
    data = tmp_path_factory.mktemp("recovery") / "data"
    environment = CLEAN | {"LOTWRIGHT_DATA_DIR": str(data)}
    made = subprocess.run(
        [*COMMAND, "token", "create", "--name", "t"], env=environment, capture_output=True, text=True, check=True
    )
    sales = data.parent / "sales.csv"
    sales.write_bytes(history(400))
    with serving(data, made.stdout.strip()) as one:
        one.ended(one.api.upload("/sales/imports", "file", sales)["job"]["id"])
        for kind in ("train_model", "backtest"):  # the first queues the second
            one.ended(next(job["id"] for job in one.api.get("/jobs")["items"] if job["kind"] == kind))
    return data, made.stdout.strip()


def test_a_killed_worker_costs_seconds_and_a_job_that_kills_each_comes_to_an_end(shop: tuple[Path, str]) -> None:
    with serving(*shop) as one:
        job = one.half_done()
        struck = time.monotonic()
        os.kill(one.processes()["worker"], signal.SIGKILL)
        ended = one.ended(job)
        assert (ended["state"], ended["attempt"]) == ("done", 2)
        assert time.monotonic() - struck < LEASE_SECONDS - 5
        deadly = one.half_done()
        struck = time.monotonic()
        for attempt in (1, 2, 3):
            one.reached(deadly, 0.01, attempt)
            os.kill(one.processes()["pool"], signal.SIGKILL)
        ended = one.ended(deadly)
        assert ended["error"] == "The worker stopped 3 times while doing this."
        assert time.monotonic() - struck < LEASE_SECONDS


@pytest.mark.parametrize(("number", "attempt"), [(signal.SIGKILL, 2), (signal.SIGTERM, 1)])
def test_the_next_serve_goes_on_at_once(shop: tuple[Path, str], number: int, attempt: int) -> None:
    """Being killed counts as an attempt, being stopped does not."""
    with serving(*shop) as one:
        job = one.half_done()
        struck = time.monotonic()
        one.process.send_signal(number)
        one.process.wait(20)
    with serving(*shop) as two:
        ended = two.ended(job)
    assert (ended["state"], ended["attempt"]) == ("done", attempt)
    assert time.monotonic() - struck < LEASE_SECONDS - 5
