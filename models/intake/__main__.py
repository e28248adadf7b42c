"""The child that reads one foreign file: `python -m models.intake manifest|history`; see models/intake/confined.py.

Standard input: one line of JSON, then the file.  Standard output: packed arrays, and nothing else.
"""

import json
import os
import sys


def _limit(address_space_bytes: int, cpu_seconds: int) -> None:
    """Before numpy is loaded; where the system has no such limits, the parent's clock is the only one."""
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_CPU, (cpu_seconds, cpu_seconds + 1))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    if sys.platform == "linux":  # elsewhere the limit is refused or ignored
        resource.setrlimit(resource.RLIMIT_AS, (address_space_bytes, address_space_bytes))


def _answer(kind: str, question: dict[str, str], data: bytes) -> bytes:
    from models.intake.answers import packed_reading, packed_refusal
    from models.intake.history import read_history
    from models.intake.manifest import read_manifest
    from models.values.errors import Rejected, TooLarge

    read = {"manifest": read_manifest, "history": read_history}[kind]
    name = question["filename"]
    refusal: Rejected
    try:
        return packed_reading(read(data, name, question["mapping"], question["currency"]))  # type: ignore[arg-type]
    except Rejected as error:
        refusal = error
    except MemoryError:
        refusal = TooLarge(f"{name} needs more memory to read than one file may have. Split it into smaller files.")
    return packed_refusal(refusal)  # only here has the failed attempt let go of its memory


def main() -> None:
    """Answer on a private copy of standard output: whatever else prints lands on standard error."""
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)
    question = json.loads(sys.stdin.buffer.readline())
    _limit(question.pop("address_space_bytes"), question.pop("cpu_seconds"))
    out.write(_answer(sys.argv[1], question, sys.stdin.buffer.read()))
    out.close()


if __name__ == "__main__":
    main()
