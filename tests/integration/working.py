"""Worker processes of a test, and waiting for what they do."""

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Mapping
from typing import TypeVar

T = TypeVar("T")


class Worker:
    """`python -m worker` as a process in a session of its own, tied to this one by a pipe."""

    def __init__(self, queue: str, environment: Mapping[str, str], lease_seconds: float = 30) -> None:
        self.environment = dict(environment)
        clean = {name: value for name, value in os.environ.items() if not name.startswith("LOTWRIGHT_")}
        self.process = subprocess.Popen(
            [
                sys.executable,
                "-m",
                "worker",
                "--queue",
                queue,
                "--log-level",
                "INFO",
                "--dies-with-stdin",
                "--lease-seconds",
                str(lease_seconds),
            ],
            env=clean | dict(environment),
            stdin=subprocess.PIPE,
            stderr=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            text=True,
            start_new_session=True,
        )
        self.said: list[str] = []
        self._listener = threading.Thread(target=self._listen, daemon=True)
        self._listener.start()

    def _listen(self) -> None:
        assert self.process.stderr is not None
        self.said.extend(self.process.stderr)

    def wait_until_ready(self) -> None:
        until(lambda: any("ready" in line for line in self.said), 60, lambda: "".join(self.said))

    def kill(self) -> None:
        """End the worker with its pool, as a power cut would."""
        if self.process.poll() is None:
            os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait(10)
        self._listener.join(10)
        assert self.process.stdin is not None
        assert self.process.stderr is not None
        self.process.stdin.close()
        self.process.stderr.close()


def until(found: Callable[[], T], seconds: float, says: Callable[[], str] = lambda: "") -> T:
    """Wait for something true."""
    end = time.monotonic() + seconds
    while True:
        value = found()
        if value:
            return value
        assert time.monotonic() < end, f"not within {seconds} s\n{says()}"
        time.sleep(0.05)
