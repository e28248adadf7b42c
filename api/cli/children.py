"""Worker processes that live exactly as long as `serve`: started again if they die, gone when it is gone.

Each has its own session and holds the reading end of a pipe; the system closes the pipe however `serve` ends, kill -9
included, and its end makes the worker kill its whole session.
"""

import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from contextlib import suppress

QUEUES = ("quick", "long")
FIRST_PAUSE, LONGEST_PAUSE = 0.5, 30.0  # seconds before a dead worker is started again, doubled each time
LIVED_LONG = 60.0  # seconds after which a death is news again, not the same failure
STOP_SECONDS = 5.0


class Child:
    """One worker process, kept alive by a thread of ours."""

    def __init__(self, queue: str, lost: Callable[[str], None]) -> None:
        self._queue = queue
        self._lost = lost
        self._stopping = threading.Event()
        self._process = self._started()
        self._watcher = threading.Thread(target=self._watch, name=f"watch-{queue}", daemon=True)
        self._watcher.start()

    def stop(self) -> None:
        """End the worker and what it started."""
        self._stopping.set()
        process = self._process
        if process.stdin:
            process.stdin.close()
        try:
            process.wait(STOP_SECONDS)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()
        self._watcher.join(STOP_SECONDS)

    def _started(self) -> subprocess.Popen[bytes]:
        command = [sys.executable, "-m", "worker", "--queue", self._queue, "--dies-with-stdin"]
        return subprocess.Popen(command, stdin=subprocess.PIPE, stdout=sys.stderr, start_new_session=True)  # noqa: S603

    def _bury(self) -> None:
        """End what the dead worker started, then tell of it: nobody holds its job any more."""
        with suppress(ProcessLookupError):
            os.killpg(self._process.pid, signal.SIGKILL)
        self._lost(self._queue)

    def _watch(self) -> None:
        from models.services.clock import steady_seconds

        pause = FIRST_PAUSE
        while not self._stopping.is_set():
            started = steady_seconds()
            self._process.wait()
            if not self._stopping.is_set():
                self._bury()
            pause = FIRST_PAUSE if steady_seconds() - started > LIVED_LONG else pause
            if self._stopping.wait(pause):
                return
            pause = min(2 * pause, LONGEST_PAUSE)
            self._process = self._started()


class Crew:
    """All workers of one `serve`; `lost` hears the queue of each that died by itself, and raises nothing."""

    def __init__(self, lost: Callable[[str], None]) -> None:
        self._children = [Child(queue, lost) for queue in QUEUES]

    def stop(self) -> None:
        """End every worker, each in its own time."""
        threads = [threading.Thread(target=child.stop) for child in self._children]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
