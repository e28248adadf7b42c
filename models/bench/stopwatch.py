"""Seconds and memory of this process."""

import resource
import time
from collections.abc import Callable


def seconds(work: Callable[[], object]) -> float:
    """How long one call takes."""
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def peak_mb() -> float:
    """Largest resident size of this process so far [MB of 10^6 bytes]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024 / 1e6
