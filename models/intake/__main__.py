"""The child that reads one foreign file: `python -m models.intake manifest|history|buyers`; see confined.py.

Standard input: one line of JSON, then the file.  Standard output: packed arrays, and nothing else.
"""

import gc
import json
import os
import sys
from typing import Any


def _limit(limits: dict[str, int]) -> None:
    """Before numpy is loaded; where the system has no such limits, the parent's clock is the only one."""
    try:
        import resource
    except ImportError:
        return
    seconds, most = limits["max_read_cpu_seconds"], limits["max_read_mib"] << 20
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 1))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    if sys.platform == "linux":  # elsewhere the limit is refused or ignored
        resource.setrlimit(resource.RLIMIT_AS, (most, most))


def _answer(kind: str, question: dict[str, Any], data: bytes) -> bytes:
    from models.intake.answers import packed_bytes, packed_reading, packed_refusal
    from models.intake.history import read_history
    from models.intake.limits import Limits, held_to
    from models.intake.manifest import read_manifest
    from models.intake.sales.without_buyers import without_buyers
    from models.values.errors import Rejected, TooLarge

    name = question["filename"]
    refusal: Rejected
    try:
        with held_to(Limits(**question["limits"])):
            asked = data, name, question["mapping"], question["currency"]
            if kind == "buyers":
                return packed_bytes(without_buyers(*asked))
            return packed_reading(read_manifest(*asked) if kind == "manifest" else read_history(*asked))
    except Rejected as error:
        refusal = error
    except MemoryError:
        refusal = TooLarge(f"{name} needs more memory to read than one file may have. Split it into smaller files.")
    return packed_refusal(refusal)  # only here has the failed attempt let go of its memory


def main() -> None:
    """Answer on a private copy of standard output: whatever else prints lands on standard error."""
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    gc.disable()  # this process lives for one file; looking for cycles among millions of cells took a tenth of its time
    question = json.loads(sys.stdin.buffer.readline())
    _limit(question["limits"])
    out.write(_answer(sys.argv[1], question, sys.stdin.buffer.read()))
    out.close()


if __name__ == "__main__":
    main()
