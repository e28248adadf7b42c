"""What a worker does when it is asked to stop, and when the process that does its jobs is killed."""

import logging
import os
import signal
import threading
from collections.abc import Sequence
from contextlib import suppress
from itertools import count
from typing import Any

from billiard.process import active_children
from celery.signals import worker_shutting_down

from worker.process import held

GIVE_BACK_SECONDS = 8.0  # less than the 10 s after which containers are killed
_LOOK_SECONDS = 0.1

_log = logging.getLogger(__name__)


def see_to_endings(embedded: bool, concurrency: int) -> None:
    """Listen in the parent, before it forks."""
    worker_shutting_down.connect(_stop)
    if embedded:
        _fork_only(concurrency)


def _fork_only(times: int) -> None:
    """Leave instead of forking a process in place of a lost one: `serve` starts us anew, with the lost job free.

    Over a queue in a file the pool forks from a thread while another one is inside SQLite; every second process made
    so never woke up (measured: it waited for a lock nobody held any more).  The first ones come before those threads.
    """
    forks, parent = count(), os.getpid()

    def look() -> None:
        if os.getpid() == parent and next(forks) >= times:
            _log.error("a process that did jobs was lost; this worker is started anew")
            os._exit(0 if held.stopping else 1)

    os.register_at_fork(before=look)


def _stop(**_: Any) -> None:
    """Asked to stop: give jobs back instead of finishing them, however long they are.

    Celery's own way out waits for the work under way, and hears further wake-ups meanwhile.
    """
    held.stopping = True  # a process forked from now on does nothing
    threading.Thread(target=_leave, args=([child.pid for child in active_children()],), name="leave").start()


def _leave(children: Sequence[int]) -> None:
    """The processes at work are told; what is not given back in time waits until its lease runs out."""
    for child in children:
        with suppress(ProcessLookupError):
            os.kill(child, signal.SIGTERM)
    pause, looks = threading.Event(), round(GIVE_BACK_SECONDS / _LOOK_SECONDS)
    while looks > 0 and any(_is_there(child) for child in children):
        looks -= 1
        pause.wait(_LOOK_SECONDS)
    os._exit(0)


def _is_there(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True
