"""Foreign files are parsed in a child with limits on memory, processor and time: a hostile one costs one refusal.

The child gets the file on its standard input and none of our environment's secrets; what it answers is plain arrays.
A multiprocessing child would not do: the worker's own processes may have none.
"""

import json
import os
import signal
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path

from models.intake.answers import bytes_of, history_of, manifest_of, raise_if_refused
from models.intake.history import ReadHistory
from models.intake.limits import limits_of
from models.intake.manifest import ReadManifest
from models.values.arrays import Arrays
from models.values.errors import Rejected, TooLarge, Unreadable
from models.values.packing import unpack

_ROOT = str(Path(__file__).resolve().parents[2])
_PASSED_ON = ("PATH", "SYSTEMROOT", "LANG", "LC_ALL", "VIRTUAL_ENV", "TMPDIR")


def read_manifest_confined(data: bytes, filename: str, mapping: Mapping[str, str], currency: str) -> ReadManifest:
    """`read_manifest` in a limited child: same arguments, same result, same errors.

    Raises
    ------
    Unreadable, NeedsColumns, TooLarge, Rejected
        As `read_manifest`; TooLarge also if the child ran out of memory or time, Unreadable if the file made it fail.
    """
    return manifest_of(_ask("manifest", data, filename, mapping, currency))


def read_history_confined(data: bytes, filename: str, mapping: Mapping[str, str], currency: str) -> ReadHistory:
    """`read_history` in a limited child: same arguments, same result, same errors.

    Raises
    ------
    Unreadable, NeedsColumns, TooLarge, Rejected
        As `read_history`; TooLarge also if the child ran out of memory or time, Unreadable if the file made it fail.
    """
    return history_of(_ask("history", data, filename, mapping, currency))


def without_buyers_confined(data: bytes, filename: str, mapping: Mapping[str, str], currency: str) -> bytes | None:
    """`without_buyers` in a limited child; None also where the child could not answer."""
    try:
        return bytes_of(_ask("buyers", data, filename, mapping, currency))
    except Rejected:
        return None


def _ask(kind: str, data: bytes, filename: str, mapping: Mapping[str, str], currency: str) -> Arrays:
    limits = limits_of(os.environ)
    question = {"filename": filename, "mapping": dict(mapping), "currency": currency, "limits": asdict(limits)}
    child = subprocess.Popen(  # noqa: S603 - our own interpreter and module, no shell
        [sys.executable, "-m", "models.intake", kind],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        cwd=_ROOT,
        env=_environment(),
        start_new_session=True,
    )
    try:
        answer, _ = child.communicate(json.dumps(question).encode() + b"\n" + data, limits.max_read_seconds)
    except subprocess.TimeoutExpired as error:
        raise TooLarge(f"{filename} took too long to read. Split it into smaller files.") from error
    finally:
        _end(child)
    return _understood(answer, child.returncode, filename)


def _environment() -> dict[str, str]:
    """One thread, UTF-8, and only what an interpreter needs to start: no keys, no addresses."""
    kept = {name: os.environ[name] for name in _PASSED_ON if name in os.environ}
    path = os.pathsep.join(part for part in (_ROOT, os.environ.get("PYTHONPATH", "")) if part)
    threads = dict.fromkeys(("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"), "1")
    return kept | threads | {"PYTHONPATH": path, "PYTHONUTF8": "1", "PYTHONDONTWRITEBYTECODE": "1"}


def _end(child: subprocess.Popen[bytes]) -> None:
    if child.poll() is None:
        child.kill()
        child.communicate()


def _understood(answer: bytes, code: int, filename: str) -> Arrays:
    if code in (-signal.SIGKILL, -getattr(signal, "SIGXCPU", signal.SIGKILL)):
        raise TooLarge(f"{filename} needs more time to read than one file may have. Split it into smaller files.")
    try:
        arrays = unpack(answer)
    except Exception as error:
        raise Unreadable(
            f"{filename} is broken, or needs more memory to read than one file may have. Open it, save it again as CSV "
            "or XLSX, in smaller files if it is large, and upload that."
        ) from error
    raise_if_refused(arrays)
    return arrays
