"""The limited child gives what the reader itself gives, and ends a hostile file with a refusal, never with us."""

import io
import json
import os
import signal
import subprocess
import sys
from dataclasses import asdict

import numpy as np
import openpyxl
import pytest
from intake_files import delimited, xlsx

from models.intake import confined
from models.intake.confined import read_history_confined, read_manifest_confined
from models.intake.history import read_history
from models.intake.limits import Limits
from models.intake.manifest import read_manifest
from models.values.errors import NeedsColumns, Rejected, TooLarge, Unreadable

MANIFEST = delimited(
    [["Description", "Qty", "Retail"], ["Café mug", "2", "$9.50"], ["Jug", "-1", "€3"], ["Pot", "", "€3"]]
)
HISTORY = delimited([["title", "sold_price", "sold_on"], ["Café mug", "8", "2026-01-02"], ["Jug", "", ""]])


def same(one: object, other: object) -> bool:
    return all(
        np.array_equal(mine, theirs, equal_nan=mine.dtype.kind in "fM") and mine.dtype == theirs.dtype
        for name in one.__dataclass_fields__  # type: ignore[attr-defined]
        for mine, theirs in [(getattr(one, name), getattr(other, name))]
    )


def test_a_manifest_read_by_the_child() -> None:
    theirs, ours = read_manifest_confined(MANIFEST, "é.csv", {}, "USD"), read_manifest(MANIFEST, "é.csv", {}, "USD")
    assert same(theirs.lines, ours.lines)
    assert (theirs.problems, theirs.cautions, theirs.mapping) == (ours.problems, ours.cautions, ours.mapping)


def test_a_history_read_by_the_child() -> None:
    mapping = {"sold_price_is": "row"}
    theirs, ours = (
        read_history_confined(HISTORY, "s.csv", mapping, "EUR"),
        read_history(HISTORY, "s.csv", mapping, "EUR"),
    )
    assert same(theirs.sales, ours.sales)
    assert (theirs.problems, theirs.cautions, theirs.mapping) == (ours.problems, ours.cautions, ours.mapping)


def test_a_history_without_rows_crosses_too() -> None:
    assert len(read_history_confined(b"title,sold_price\n", "s.csv", {}, "USD").sales) == 0


@pytest.mark.parametrize(
    ("data", "currency", "kind"),
    [
        (b"%PDF-1.7", "USD", Unreadable),
        (b"", "USD", Unreadable),
        (xlsx([["a" * 10] * 600]), "USD", TooLarge),
        (MANIFEST, "dollars", Rejected),
    ],
)
def test_refusals_keep_their_class_and_words(data: bytes, currency: str, kind: type[Rejected]) -> None:
    with pytest.raises(kind) as theirs:
        read_manifest_confined(data, "x.csv", {}, currency)
    with pytest.raises(kind) as ours:
        read_manifest(data, "x.csv", {}, currency)
    assert type(theirs.value) is type(ours.value)
    assert (theirs.value.message, theirs.value.faults) == (ours.value.message, ours.value.faults)


def test_columns_to_name_cross_as_data() -> None:
    with pytest.raises(NeedsColumns) as asked:
        read_history_confined(b"Thing,Got\nMug,5\n", "s.csv", {}, "USD")
    assert (asked.value.missing, asked.value.headers) == (("title", "sold_price"), ("Thing", "Got"))


def many_lines(count: int) -> bytes:
    return b"Description,Qty\n" + b"".join(b"mug %d,1\n" % number for number in range(count))


def test_out_of_memory_is_too_large(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LOTWRIGHT_MAX_READ_MIB", "250")
    with pytest.raises(TooLarge, match="memory"):
        read_manifest_confined(many_lines(600_000), "x.csv", {}, "USD")


def test_out_of_processor_time_is_too_large(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LOTWRIGHT_MAX_READ_CPU_SECONDS", "1")
    with pytest.raises(TooLarge, match="more time"):
        read_manifest_confined(many_lines(600_000), "x.csv", {}, "USD")


def test_out_of_time_is_too_large_and_leaves_no_process(monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[subprocess.Popen[bytes]] = []

    class Slow(subprocess.Popen[bytes]):
        def __init__(self, *_: object, **settings: object) -> None:
            super().__init__([sys.executable, "-c", "import time; time.sleep(60)"], **settings)  # type: ignore[call-overload]
            started.append(self)

    monkeypatch.setenv("LOTWRIGHT_MAX_READ_SECONDS", "1")
    monkeypatch.setattr(confined.subprocess, "Popen", Slow)
    with pytest.raises(TooLarge, match="too long"):
        read_manifest_confined(MANIFEST, "x.csv", {}, "USD")
    assert started[0].poll() == -signal.SIGKILL


def test_one_cell_in_the_farthest_corner_is_a_refusal() -> None:
    """A reader allocates the whole sheet for it and is ended by the system, past any exception."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Description", "Qty"])
    sheet.cell(1_048_576, 16_384, "x")
    data = io.BytesIO()
    book.save(data)
    with pytest.raises(Rejected, match="more"):
        read_manifest_confined(data.getvalue(), "x.xlsx", {}, "USD")


def test_a_child_that_dies_is_a_refusal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(confined.sys, "executable", "/bin/false")
    with pytest.raises(Unreadable, match="broken"):
        read_manifest_confined(MANIFEST, "x.csv", {}, "USD")


def test_the_child_sees_none_of_our_secrets(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LOTWRIGHT_SECRET_KEY", "hush")
    assert "LOTWRIGHT_SECRET_KEY" in os.environ
    assert "hush" not in confined._environment().values()


def test_standard_output_carries_nothing_but_the_answer() -> None:
    """Whatever a library prints lands on standard error."""
    code = (
        "import runpy, sys, builtins; sys.argv = ['x', 'manifest']; import models.intake.manifest as m; print('noise');"
    )
    code += "read = m.read_manifest; m.read_manifest = lambda *a: (print('noise', flush=True), read(*a))[1];"
    code += "runpy.run_module('models.intake', run_name='__main__')"
    limits = json.dumps(asdict(Limits())).encode()
    question = b'{"filename": "x.csv", "mapping": {}, "currency": "USD", "limits": ' + limits + b"}\n"
    run = subprocess.run([sys.executable, "-c", code], input=question + MANIFEST, capture_output=True, check=True)
    assert run.stdout.removeprefix(b"noise\n").startswith(b"PK")  # what was printed before the child took over
    assert run.stdout.count(b"noise\n") == 1
    assert b"noise" in run.stderr
