"""The main job twice: through the service and on files."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

FILES = Path(__file__).parents[2] / "demo_data"
CLEAN = {name: value for name, value in os.environ.items() if not name.startswith("LOTWRIGHT_")}
MANIFESTS = [FILES / name for name in ("manifest_tidy.xlsx", "manifest_messy.csv", "manifest_new_brand.csv")]


def lotwright(*arguments: str | Path, timeout: float = 180, **more: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "api.cli.main", *map(str, arguments)]
    return subprocess.run(
        command,
        capture_output=True,
        text=True,
        timeout=timeout,
        env=CLEAN | more,
        stdin=subprocess.DEVNULL,
        check=False,
    )


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, dict[str, Any]]:
    file = tmp_path_factory.mktemp("demo") / "demo.json"
    ran = lotwright("demo", "--json", file)
    assert ran.returncode == 0, ran.stderr
    return ran.stdout, json.loads(file.read_text())


@pytest.fixture(scope="module")
def on_files(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    file = tmp_path_factory.mktemp("files") / "files.json"
    ran = lotwright(
        "evaluate", *MANIFESTS, "--sales", FILES / "sold_history.csv", "--settings", FILES / "settings.toml",
        "--as-of", "2026-07-01", "--json", file,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    found: list[dict[str, Any]] = json.loads(file.read_text())
    return found


def comparable(evaluation: dict[str, Any]) -> dict[str, Any]:
    """Without ids, times, `sales`, the lot's name and the model's number."""
    kept = _without_ids(evaluation)
    kept.pop("sales", None)
    kept["lot"].pop("name")
    kept["model_version"].pop("number")
    return kept


def _without_ids(value: Any) -> Any:
    if isinstance(value, list):
        return [_without_ids(one) for one in value]
    if isinstance(value, dict):
        own = {
            key: one
            for key, one in value.items()
            if key not in ("id", "trained_on") and not key.endswith(("_id", "_at"))
        }
        own |= {"closes_at": value["closes_at"]} if "closes_at" in value else {}
        return {key: _without_ids(one) for key, one in own.items()}
    return value


def test_the_service_and_the_files_give_one_answer(
    demo: tuple[str, dict[str, Any]], on_files: list[dict[str, Any]]
) -> None:
    assert comparable(demo[1]) == comparable(on_files[0])


def test_the_demo_says_what_a_seller_understands(demo: tuple[str, dict[str, Any]]) -> None:
    said, tidy = demo
    assert tidy["bid_ceiling"]["verdict"] == "bid"
    assert f"{float(tidy['bid_ceiling']['amount']):,.2f} USD: bid no more than this" in said
    for words in (
        "manifest_tidy",
        "manifest_messy",
        "manifest_new_brand",
        "Hours",
        "Backlog",
        "an estimate, not a promise",
    ):
        assert words in said
    assert "lotwright serve" in said


def test_what_the_tidy_manifest_holds_is_counted(on_files: list[dict[str, Any]]) -> None:
    assert (on_files[0]["lot"]["lines"], on_files[0]["problems"]["set_aside"]) == (156, 0)
    sales = on_files[0]["sales"]
    assert sales["rows"] == sales["kept"] + sales["set_aside"] == 6463


def test_the_messy_manifest_names_its_slips(on_files: list[dict[str, Any]]) -> None:
    problems = on_files[1]["problems"]
    assert (problems["rows"], problems["kept"], problems["set_aside"]) == (70, 70, 0)
    named = {(one["column"], one["value"]) for one in problems["items"]}
    assert ("gtin", "2.4E+11") in named
    assert ("condition", "grade ???") in named
    assert ("quantity", "") in named
    assert any("18,999" in caution["what"] or "18999" in caution["what"] for caution in on_files[1]["cautions"])
