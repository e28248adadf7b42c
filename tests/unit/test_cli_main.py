"""The command itself: quick to start, plain about mistakes."""

import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = ("numpy", "pandas", "scipy", "sklearn", "sqlalchemy", "fastapi", "celery", "uvicorn")


def lotwright(*arguments: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "api.cli.main", *arguments]
    return subprocess.run(command, capture_output=True, text=True, timeout=120, cwd=cwd, check=False)


def test_help_loads_nothing_that_computes_or_serves() -> None:
    look = f"import sys, api.cli.main; print([name for name in {HEAVY} if name in sys.modules])"
    found = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True, timeout=60)
    assert found.stdout.strip() == "[]"


def test_help_names_every_command() -> None:
    text = lotwright("--help").stdout
    for command in ("demo", "serve", "worker", "migrate", "check", "user", "token", "evaluate", "backtest"):
        assert f" {command} " in text


def test_linear_algebra_is_held_to_one_thread() -> None:
    look = "import os, api.cli.main; print(os.environ['OPENBLAS_NUM_THREADS'], os.environ['OMP_NUM_THREADS'])"
    found = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True, timeout=60)
    assert found.stdout.split() == ["1", "1"]


@pytest.mark.parametrize(
    ("arguments", "reason"),
    [
        (("evaluate", "none.csv", "--sales", "none.csv"), "none.csv: No such file or directory"),
        (("evaluate", "none.csv", "--sales", "none.csv", "--as-of", "yesterday"), "write the date as 2026-07-01"),
        (("evaluate", "none.csv", "--sales", "none.csv", "--map", "colour=Farbe"), "write COLUMN=HEADER"),
        (
            ("evaluate", "none.csv", "--sales", "none.csv", "--map", "sold_price_is=lot"),
            "must be one of unit, row, order",
        ),
        (("evaluate", "none.csv", "--sales", "none.csv", "--settings", "bad.toml"), "not a TOML file"),
        (
            ("evaluate", "none.csv", "--sales", "none.csv", "--settings", "odd.toml"),
            "buying.premium: must be at most 1",
        ),
        (("worker", "--queue", "slow"), "'slow' is not a queue"),
    ],
)
def test_mistakes_are_one_clear_message(arguments: tuple[str, ...], reason: str, tmp_path: Path) -> None:
    (tmp_path / "bad.toml").write_text("premium = = 1")
    (tmp_path / "odd.toml").write_text("[buying]\npremium = 3")
    found = lotwright(*arguments, cwd=tmp_path)
    assert found.returncode == 2
    assert reason in " ".join(found.stderr.replace("│", " ").split())
    assert "Traceback" not in found.stderr
    assert found.stdout == ""
