"""The main job through real PostgreSQL, real Redis and real worker processes: two addresses changed, nothing else."""

import datetime as dt
import os
import subprocess
import sys
import time
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from conftest import Addresses

from api.cli.own_api import Api
from models.appraisal.appraise import appraise
from models.appraisal.question import Question
from models.appraisal.training import fit
from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.values.given import read_given
from models.values.in_force import in_force

FILES = Path(__file__).parents[2] / "demo_data"
HISTORY, MANIFEST = FILES / "sold_history.csv", FILES / "manifest_messy.csv"
DAY = "2026-07-01"
SAYS = "Lotwright listens on "


def given() -> dict[str, Any]:
    return tomllib.loads((FILES / "settings.toml").read_text())


@contextmanager
def served(addresses: Addresses) -> Iterator[Api]:
    """`lotwright serve` as the compose file starts it, and a token for it."""
    place = {"DATABASE_URL": addresses.database_url, "BROKER_URL": addresses.broker_url}
    environment = os.environ | {f"LOTWRIGHT_{name}": value for name, value in place.items()}
    environment["LOTWRIGHT_DATA_DIR"] = str(addresses.data_dir)
    command = [sys.executable, "-m", "api.cli.main"]
    with subprocess.Popen(
        [*command, "serve", "--port", "0", "--tied"], env=environment, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        text=True,
    ) as process:  # fmt: skip
        try:
            assert process.stdout is not None
            address = next(line.removeprefix(SAYS).strip() for line in process.stdout if line.startswith(SAYS))
            told = subprocess.run(
                [*command, "token", "create", "--name", "test"],
                env=environment,
                capture_output=True,
                text=True,
                check=True,
            )
            yield Api(address, told.stdout.split()[-1])
        finally:
            process.terminate()
            process.communicate(timeout=20)


def ended(api: Api, job: str) -> dict[str, Any]:
    end = time.monotonic() + 90
    while time.monotonic() < end:
        found: dict[str, Any] = api.get(f"/jobs/{job}")
        if found["state"] in ("done", "failed", "cancelled"):
            assert found["state"] == "done", found
            return found
        time.sleep(0.1)
    raise AssertionError(f"job {job} did not end")


def on_files() -> dict[str, Any]:
    """The same answer without a service."""
    as_of = dt.date.fromisoformat(DAY)
    model = fit(
        read_history(HISTORY.read_bytes(), HISTORY.name, {}, "USD").sales, as_of, "USD", lambda share, step: None
    )
    read = read_manifest(MANIFEST.read_bytes(), MANIFEST.name, {}, "USD")
    held = in_force([read_given(given())], model.learned)
    question = Question(read.lines, read.problems, read.cautions, "messy", held, as_of, 1)
    return appraise(question, model, lambda share, step: None).document


def test_the_main_job_runs_distributed_and_answers_as_on_files(distributed: Addresses) -> None:
    with served(distributed) as api:
        api.put("/settings", given())
        made = api.upload("/sales/imports", "file", HISTORY)
        ended(api, made["job"]["id"])
        training = next(job for job in api.get("/jobs")["items"] if job["kind"] == "train_model")
        ended(api, training["id"])
        lot = api.upload("/lots", "manifest", MANIFEST, name="messy", as_of=DAY, seed="1")
        ended(api, lot["job"]["id"])
        told = api.get(f"/lots/{lot['lot']['id']}/evaluation")
    expected = on_files()
    for key in ("bid_ceiling", "at_ceiling", "cash_proceeds", "hours", "backlog", "bid_curve", "problems", "resale"):
        assert told[key] == expected[key], key
    assert told["bid_ceiling"]["verdict"] == "bid"
