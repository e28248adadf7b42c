"""The house stays as agreed: import contracts, file lengths, the top level, empty packages, no forbidden words."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ROOMS = ("api", "worker", "models", "tests", "demo_data")
FILES = sorted(path for room in ROOMS for path in (ROOT / room).rglob("*.py"))
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "docker-compose.yml", *ROOMS}


def test_import_contracts_hold() -> None:
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as c; c()", "--no-cache"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout[-3000:] + run.stderr[-2000:]


def test_no_contract_was_dropped() -> None:
    text = (ROOT / "pyproject.toml").read_text()
    assert text.count("[[tool.importlinter.contracts]]") >= 14


WRITTEN = [path for path in FILES if path.parent.name != "versions"]  # a migration is one story, generated once


@pytest.mark.parametrize("path", WRITTEN, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_is_over_300_lines(path: Path) -> None:
    assert len(path.read_text().splitlines()) <= 300


def test_packages_are_empty() -> None:
    assert [str(path) for path in FILES if path.name == "__init__.py" and path.read_text().strip()] == []


def test_no_room_for_leftovers() -> None:
    forbidden = {"utils", "helpers", "common", "misc"}
    assert [str(path) for path in FILES if path.stem in forbidden or path.parent.name in forbidden] == []


def test_nothing_else_is_visible_at_the_top() -> None:
    tracked = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False).stdout.split(
        "\n"
    )
    if not any(tracked):
        pytest.skip("not a git checkout")
    top = {name.split("/")[0] for name in tracked if name and not name.startswith(".")}
    assert top <= TOP_LEVEL


def test_no_registry_host_is_named() -> None:
    hosts = re.compile("|".join(("pypi" + r"\.org", "python" + "hosted", r"registry\." + "npmjs", "deb" + r"\.debian")))
    texts = [ROOT / name for name in ("README.md", "DEVELOPERS.md", "pyproject.toml", "docker-compose.yml")]
    texts += [ROOT / ".ci/constraints.txt", ROOT / ".ci/run", ROOT / ".docker/Dockerfile", *FILES]
    assert [str(path) for path in texts if hosts.search(path.read_text())] == []
