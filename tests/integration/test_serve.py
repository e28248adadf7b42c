"""`lotwright serve` as a process: what it starts, what it leaves behind, and what it does when something dies."""

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(not Path("/proc/self/environ").exists(), reason="looks for processes under /proc")
LISTENS, SIGN_IN = "Lotwright listens on ", "Sign in once, within an hour: "


class Serving:
    """One `serve` on a folder."""

    def __init__(self, data: Path, *more: str) -> None:
        self.data = data
        environment = {name: value for name, value in os.environ.items() if not name.startswith("LOTWRIGHT_")}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "api.cli.main", "serve", "--port", "0", "--data", str(data), *more],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=environment,
        )

    def said(self, beginning: str) -> str:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            if line.startswith(beginning):
                return line.removeprefix(beginning).strip()
        raise AssertionError(self.process.communicate()[1])

    def end(self, number: int = signal.SIGTERM) -> tuple[int, str]:
        self.process.send_signal(number)
        _, errors = self.process.communicate(timeout=30)
        return self.process.returncode, errors


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[..., Serving]]:
    started: list[Serving] = []

    def start(*more: str) -> Serving:
        started.append(Serving(tmp_path / "data", *more))
        return started[-1]

    yield start
    for one in started:
        if one.process.poll() is None:
            one.end(signal.SIGKILL)
    until(lambda: not workers(tmp_path / "data"), 20)


def workers(data: Path) -> list[int]:
    """Processes that work on this folder, `serve` itself apart."""
    mine = f"LOTWRIGHT_DATA_DIR={data.resolve()}".encode()
    return [int(entry.name) for entry in Path("/proc").iterdir() if entry.name.isdigit() and mine in facts(entry)]


def facts(entry: Path) -> list[bytes]:
    try:
        command = (entry / "cmdline").read_bytes()
        return (entry / "environ").read_bytes().split(b"\0") if command else []  # a zombie has no command any more
    except OSError:
        return []


def until(true: Callable[[], bool], seconds: float) -> None:
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end, f"not within {seconds} s"
        time.sleep(0.1)


def opened(address: str) -> int:
    with urllib.request.urlopen(address, timeout=10) as answer:
        return int(answer.status)


def test_serve_answers_and_leaves_nothing_behind(serve: Callable[..., Serving]) -> None:
    one = serve()
    address, link = one.said(LISTENS), one.said(SIGN_IN)
    assert address.startswith("http://127.0.0.1:")
    assert (opened(address + "/healthz"), opened(link)) == (200, 200)
    until(lambda: len(workers(one.data)) >= 2, 20)
    status, errors = one.end()
    assert (status, errors) == (0, "")
    assert workers(one.data) == []


def test_an_interrupt_is_as_good(serve: Callable[..., Serving]) -> None:
    one = serve()
    one.said(SIGN_IN)
    until(lambda: len(workers(one.data)) >= 2, 20)
    assert one.end(signal.SIGINT) == (0, "")
    assert workers(one.data) == []


def test_a_killed_serve_takes_its_workers_along(serve: Callable[..., Serving]) -> None:
    one = serve()
    one.said(SIGN_IN)
    until(lambda: len(workers(one.data)) >= 2, 20)
    one.end(signal.SIGKILL)
    until(lambda: not workers(one.data), 10)


def test_a_dead_worker_is_started_again(serve: Callable[..., Serving]) -> None:
    one = serve()
    one.said(SIGN_IN)
    until(lambda: len(workers(one.data)) >= 2, 20)
    time.sleep(1)
    before = set(workers(one.data))
    victim = min(before)
    os.killpg(os.getpgid(victim), signal.SIGKILL)
    until(lambda: victim not in workers(one.data) and bool(set(workers(one.data)) - before), 20)
    assert one.end()[0] == 0


def test_a_tied_serve_ends_with_its_standard_input(tmp_path: Path) -> None:
    data = tmp_path / "data"
    command = [sys.executable, "-m", "api.cli.main", "serve", "--port", "0", "--data", str(data), "--tied"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stdout.readline().startswith(LISTENS)
        process.stdin.close()
        assert process.wait(30) == 0
    assert workers(data) == []


def test_a_second_serve_on_the_same_folder_is_told_so(serve: Callable[..., Serving]) -> None:
    serve().said(SIGN_IN)
    second = serve()
    errors = second.process.communicate(timeout=30)[1]
    assert second.process.returncode == 2
    assert errors.startswith("lotwright: Another serve uses ")
    assert errors.count("\n") == 1


def test_a_busy_port_is_told(serve: Callable[..., Serving]) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        one = serve("--port", str(other.getsockname()[1]))
        errors = one.process.communicate(timeout=30)[1]
    assert one.process.returncode == 2
    assert errors.startswith("lotwright: Cannot listen on 127.0.0.1:")
    assert workers(one.data) == []


def test_two_serves_share_a_folder_where_the_queue_is_elsewhere(tmp_path: Path, redis_address: str) -> None:
    """The folder then holds the key only, as on two containers with one volume."""
    environment = {name: value for name, value in os.environ.items() if not name.startswith("LOTWRIGHT_")}
    command = [sys.executable, "-m", "api.cli.main", "serve", "--port", "0", "--data", str(tmp_path / "data")]
    environment["LOTWRIGHT_BROKER_URL"] = redis_address
    pipe = subprocess.PIPE
    with (
        subprocess.Popen(command, stdout=pipe, text=True, env=environment) as first,
        subprocess.Popen(command, stdout=pipe, text=True, env=environment) as second,
    ):
        for process in (first, second):
            assert process.stdout is not None
            assert process.stdout.readline().startswith(LISTENS)
            process.terminate()


def test_a_folder_open_to_others_is_told(tmp_path: Path, serve: Callable[..., Serving]) -> None:
    (tmp_path / "data").mkdir(mode=0o755)
    one = serve()
    one.said(SIGN_IN)
    assert "others on this machine can look into" in one.end()[1]
    assert {file.stat().st_mode & 0o077 for file in one.data.iterdir()} == {0}
