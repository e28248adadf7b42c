"""The small commands on an empty folder: tables, people, tokens, and whether all is in place."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

CLEAN = {name: value for name, value in os.environ.items() if not name.startswith("LOTWRIGHT_")}


def lotwright(data: Path, *arguments: str, **more: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "api.cli.main", *arguments]
    environment = CLEAN | {"LOTWRIGHT_DATA_DIR": str(data)} | more
    return subprocess.run(command, capture_output=True, text=True, timeout=60, env=environment, check=False)


def test_check_tells_what_is_missing_and_migrate_brings_it(tmp_path: Path) -> None:
    before = lotwright(tmp_path, "check")
    assert before.returncode == 1
    assert "WRONG  tables: run `lotwright migrate`" in before.stdout
    assert lotwright(tmp_path, "migrate").returncode == 0
    assert lotwright(tmp_path, "migrate").returncode == 0
    after = lotwright(tmp_path, "check")
    assert (after.returncode, after.stderr) == (0, "")
    assert after.stdout.count("ok ") == 4


def test_the_first_user_owns_the_shop_and_the_next_one_joins_it(tmp_path: Path) -> None:
    first = lotwright(tmp_path, "user", "add", "Ann@Example.Test")
    assert first.stdout.startswith("ann@example.test is owner of My shop.")
    assert "/sign-in/link_" in first.stdout
    assert "ben@example.test is member of My shop." in lotwright(tmp_path, "user", "add", "ben@example.test").stdout
    again = lotwright(tmp_path, "user", "add", "ben@example.test")
    assert again.returncode == 0
    assert "already: this is a new sign-in address for an existing user." in again.stdout
    assert "/sign-in/link_" in again.stdout
    assert lotwright(tmp_path, "user", "add", "nobody").returncode == 2


def test_a_token_is_printed_alone(tmp_path: Path) -> None:
    made = lotwright(tmp_path, "token", "create", "--name", "scripts")
    assert (made.returncode, made.stderr) == (0, "")
    assert made.stdout.startswith("lotwright_")
    assert made.stdout.count("\n") == 1


GONE = "postgresql+psycopg://nobody@127.0.0.1:1/none"


@pytest.mark.parametrize(
    ("command", "variable", "value", "reason"),
    [
        ("migrate", "DATABASE_URL", GONE, "The database does not answer: "),
        ("serve", "DATABASE_URL", GONE, "The database does not answer: "),
        ("migrate", "DATABASE_URL", "nonsense", "LOTWRIGHT_DATABASE_URL cannot be used: "),
        ("serve", "MAX_UPLOAD_MIB", "much", "The environment cannot be used: LOTWRIGHT_MAX_UPLOAD_MIB: "),
    ],
)
def test_a_wrong_environment_is_one_clear_line(
    tmp_path: Path, command: str, variable: str, value: str, reason: str
) -> None:
    more = ("--port", "0") if command == "serve" else ()
    ran = lotwright(tmp_path, command, *more, **{f"LOTWRIGHT_{variable}": value})
    assert ran.returncode == 2
    assert ran.stderr.startswith(f"lotwright: {reason}")
    assert ran.stderr.count("\n") == 1


def test_check_makes_nothing(tmp_path: Path) -> None:
    missing = lotwright(tmp_path / "missing", "check")
    assert (missing.returncode, missing.stderr) == (1, "")
    assert "WRONG  data folder: " in missing.stdout
    assert list(tmp_path.iterdir()) == []
    empty = lotwright(tmp_path, "check")
    assert "WRONG  database: " in empty.stdout
    assert list(tmp_path.iterdir()) == []


def test_check_of_a_silent_database_is_one_clear_line(tmp_path: Path) -> None:
    ran = lotwright(tmp_path, "check", LOTWRIGHT_DATABASE_URL=GONE)
    assert (ran.returncode, ran.stderr) == (1, "")
    assert [line for line in ran.stdout.splitlines() if line.startswith("WRONG  database: ")]
    assert len(ran.stdout.splitlines()) == 4


@pytest.mark.parametrize("day", ["1999-12-31", "2999-01-01"])
def test_a_day_out_of_all_reason_is_refused(tmp_path: Path, day: str) -> None:
    ran = lotwright(tmp_path, "evaluate", "m.csv", "--sales", "s.csv", "--as-of", day)
    assert ran.returncode == 2
    assert ran.stderr.startswith("lotwright: The day to reckon from must lie between 2000-01-01 and ")


@pytest.mark.skipif(os.name != "posix", reason="looks at permissions")
def test_what_is_kept_is_for_its_owner_also_in_an_open_folder(tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    assert lotwright(tmp_path, "migrate").returncode == 0
    assert {file.stat().st_mode & 0o077 for file in tmp_path.iterdir()} == {0}
    assert "others on this machine can look into it" in lotwright(tmp_path, "check").stdout
