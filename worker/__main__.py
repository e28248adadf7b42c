"""`python -m worker --queue quick`: one worker process with its pool; `lotwright worker` and `serve` start it so."""

import argparse
import logging
import os
import signal
import socket
import sys
import threading
import warnings

from models.services.threads import one_thread

one_thread()

from celery.exceptions import SecurityWarning  # noqa: E402

from models.services.environment import load_environment  # noqa: E402 - the cap comes before numpy
from models.store.states import Queue  # noqa: E402
from models.store.unit_of_work import LEASE_MS  # noqa: E402
from worker.app import wake_app  # noqa: E402
from worker.endings import see_to_endings  # noqa: E402
from worker.process import held  # noqa: E402
from worker.sweeper import Sweeper  # noqa: E402
from worker.tasks import add_task  # noqa: E402


def main() -> int:
    """Work until told to stop."""
    os.umask(0o077)  # what is kept is for its owner
    asked = _arguments()
    logging.basicConfig(level=asked.log_level, format="%(asctime)s %(levelname)s %(name)s %(message)s")
    if asked.dies_with_stdin:
        threading.Thread(target=_die_with_stdin, name="stdin", daemon=True).start()
    warnings.filterwarnings("ignore", category=SecurityWarning)  # of running as root: only JSON is accepted here
    held.environment = load_environment()
    held.lease_ms = round(asked.lease_seconds * 1000)
    app = wake_app(held.environment.broker)
    add_task(app)
    app.steps["worker"].add(Sweeper)
    see_to_endings(held.environment.embedded, asked.concurrency)
    worker = app.Worker(
        queues=asked.queue,
        hostname=f"{'-'.join(asked.queue)}-{os.getpid()}@{socket.gethostname()}",
        concurrency=asked.concurrency,
        pool="prefork",
        loglevel=asked.log_level,
        without_gossip=True,
        without_mingle=True,
        without_heartbeat=True,
        quiet=True,
    )
    worker.start()
    return int(worker.exitcode or 0)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m worker", description="Do the jobs of one or more queues.")
    parser.add_argument("--queue", action="append", choices=[queue.value for queue in Queue], required=True)
    parser.add_argument("--concurrency", type=int, default=1, help="jobs at once")
    parser.add_argument(
        "--lease-seconds", type=float, default=LEASE_MS / 1000, help="how long the job of a lost worker waits"
    )
    parser.add_argument("--log-level", default="WARNING")
    parser.add_argument("--dies-with-stdin", action="store_true", help="stop at once when standard input closes")
    return parser.parse_args()


def _die_with_stdin() -> None:
    """The starter holds the other end of the pipe: however it dies, the pipe closes and nothing is left behind."""
    while os.read(sys.stdin.fileno(), 1024):
        pass
    if hasattr(os, "killpg") and os.getpgid(0) == os.getpid():  # only in a session of our own
        os.killpg(0, signal.SIGKILL)
    os._exit(1)


if __name__ == "__main__":
    sys.exit(main())
