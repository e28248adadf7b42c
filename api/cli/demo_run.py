"""What a seller does the night before an auction, step by step, through the service's own API."""

import json
import tempfile
import time
import tomllib
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from api.cli.caution_lines import standing_caution_lines
from api.cli.demo_files import HISTORY, MANIFESTS, SETTINGS
from api.cli.own_api import Api
from api.cli.own_environment import separate_environment
from api.cli.own_serve import own_serve
from api.cli.progress import shown_progress
from api.cli.say import say
from api.cli.summary import summary
from api.cli.token import token_secret
from models.values.errors import Conflict

DAY = "2026-07-01"  # the invented shop's today
SEED = 1
POLL_SECONDS = 0.2
FINAL = ("done", "failed", "cancelled")


def run_demo(files: Path, data: Path | None) -> dict[str, Any]:
    """The tidy manifest's evaluation, after telling all three on stdout."""
    say("An invented shop, three years of its sales, and three lots on offer.\n")
    with _folder(data) as folder, own_serve(folder) as address:
        api = Api(address, token_secret(separate_environment(folder), "demo"))
        api.put("/settings", tomllib.loads((files / SETTINGS).read_text(encoding="utf-8")))
        _teach(api, files / HISTORY)
        evaluations = _evaluations(api, [files / name for name in MANIFESTS])
    for one in evaluations:
        say("\n".join(summary(one)))
    say("\n".join(standing_caution_lines()))
    say(f"\n{_next(data)}")
    return evaluations[0]


@contextmanager
def _folder(data: Path | None) -> Iterator[Path]:
    if data is not None:
        yield data
        return
    with tempfile.TemporaryDirectory(prefix="lotwright-demo-", ignore_cleanup_errors=True) as made:
        yield Path(made)


def _next(data: Path | None) -> str:
    kept = f" --data {data}" if data else ""
    seen = "see these lots in your browser" if data else "upload your own files in your browser"
    return f"Run `lotwright serve{kept}` to {seen}; it prints an address that signs you in."


def _teach(api: Api, history: Path) -> None:
    """Sold history in, regressions fitted and in use, as known on DAY."""
    if not api.get("/sales?limit=1")["items"]:
        made = api.upload("/sales/imports", "file", history)
        _wait_for(api, [made["job"]["id"]], f"Reading {history.name}")
        found = _require_ready(api.get(f"/sales/imports/{made['import']['id']}"))["file"]
        say(f"Read {found['kept']:,} sales and listings, set {found['set_aside']} rows aside.")
    training = [job["id"] for job in api.get("/jobs")["items"] if job["kind"] == "train_model"]
    _wait_for(api, training[:1], "Learning prices, time to sell and effort")
    newest = api.get("/model-versions")["items"]
    if not newest or newest[0]["as_of"] < DAY:  # a machine whose date is before the demo's
        made = api.post("/trainings", {"as_of": DAY, "seed": SEED})
        _wait_for(api, [made["job"]["id"]], "Learning as of the demo's day")
        newest = [api.post(f"/model-versions/{made['training']['number']}/activate", {})]
    say(f"Learned from {newest[0]['sales_used']:,} sales.\n")


def _evaluations(api: Api, manifests: Sequence[Path]) -> list[dict[str, Any]]:
    lots = [
        api.upload("/lots", "manifest", path, name=path.stem, seed=str(SEED), as_of=DAY) for path in manifests
    ]  # fmt: skip
    _wait_for(api, [lot["job"]["id"] for lot in lots], "Valuing three lots")
    ids = [lot["lot"]["id"] for lot in lots]
    for one in ids:
        _require_ready(api.get(f"/lots/{one}"))
    return [api.get(f"/lots/{one}/evaluation") for one in ids]


def _require_ready(thing: dict[str, Any]) -> dict[str, Any]:
    if thing["state"] != "ready":
        raise Conflict(f"{thing.get('filename')}: {thing['state']}: {thing.get('error') or json.dumps(thing['file'])}")
    return thing


def _wait_for(api: Api, jobs: Sequence[str], what: str) -> None:
    """Watch jobs until all have ended; Conflict if one failed."""
    with shown_progress(what) as report:
        while True:
            found = [api.get(f"/jobs/{job}") for job in jobs]
            for job in found:
                if job["state"] in ("failed", "cancelled"):
                    raise Conflict(f"{what}: {job['error'] or job['state']}")
            if all(job["state"] in FINAL for job in found):
                return
            running = [job["step"] for job in found if job["state"] == "running"]
            report(sum(_done(job) for job in found) / len(found), running[0] if running else "")
            time.sleep(POLL_SECONDS)


def _done(job: dict[str, Any]) -> float:
    return 1.0 if job["state"] == "done" else float(job["progress"])
