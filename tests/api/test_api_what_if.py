"""The decision under other settings: what a new evaluation would say, at once, and saved nowhere."""

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from api_world import Shop, World, open_world
from full_shop import fill
from real_lot import manifest, real_lot, work_off
from starlette.testclient import TestClient

from models.services.what_if import _without

PROGRAM = """
import json, sys
import api.http.app, models.services.what_if, models.appraisal.read_again
print(json.dumps(sorted({name.split(".")[0] for name in sys.modules})))
"""
DECISION = (
    "bid_ceiling", "at_ceiling", "cash_proceeds", "proceeds_after_pay", "hours", "backlog", "bid_curve",
)  # fmt: skip


@pytest.fixture(scope="module")
def lot(tables: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[World, Shop, str]]:
    world = open_world(tables, tmp_path_factory.mktemp("what-if"))
    shop = world.shop("What")
    yield world, shop, real_lot(world, shop)
    world.close()


def ask(lot: tuple[World, Shop, str], settings: dict[str, Any]) -> dict[str, Any]:
    world, shop, lot_id = lot
    answer = world.client(shop).post(f"/api/v1/lots/{lot_id}/what-if", json={"settings": settings})
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()
    return told


def evaluation(lot: tuple[World, Shop, str]) -> dict[str, Any]:
    world, shop, lot_id = lot
    told: dict[str, Any] = world.client(shop).get(f"/api/v1/lots/{lot_id}/evaluation").json()
    return told


def test_without_a_change_it_is_the_evaluation(lot: tuple[World, Shop, str]) -> None:
    told, whole = ask(lot, {}), evaluation(lot)
    assert {name: told[name] for name in DECISION} == {name: whole[name] for name in DECISION}
    assert told["cash_curve"] == whole["cash_curve"]
    assert (told["held"], told["evaluation_id"]) == ([], whole["id"])


def test_what_it_says_is_what_a_new_evaluation_says(lot: tuple[World, Shop, str]) -> None:
    world, shop, lot_id = lot
    change = {"buying": {"premium": 0.21, "freight": "87.35", "rivals": "many"}, "goals": {"confidence": 0.9}}
    told, client = ask(lot, change), world.client(shop)
    before = client.get(f"/api/v1/lots/{lot_id}/evaluations").json()["items"]
    client.post(f"/api/v1/lots/{lot_id}/evaluations", json={"settings": change})
    work_off(world)
    whole = evaluation(lot)
    assert len(client.get(f"/api/v1/lots/{lot_id}/evaluations").json()["items"]) == len(before) + 1
    without_weeks(whole)  # other rivals, so another shade than the kept cash by week
    assert {name: told[name] for name in DECISION} == {name: whole[name] for name in DECISION}
    # taken back with null, the evaluation's own settings fall back to what held without them
    back = ask(lot, {"buying": {"premium": None, "freight": None, "rivals": None}, "goals": {"confidence": None}})
    client.post(f"/api/v1/lots/{lot_id}/evaluations", json={"settings": {}})
    work_off(world)
    whole = evaluation(lot)
    without_weeks(whole)
    assert {name: back[name] for name in DECISION} == {name: whole[name] for name in DECISION}


def test_null_takes_back_the_lots_own_word_alone(lot: tuple[World, Shop, str]) -> None:
    """What the shop and the lot's source say then holds, as in a new evaluation whose settings say nothing of it."""
    world, shop, _ = lot
    client, own = world.client(shop), {"buying": {"freight": "60"}, "lot": {"source": "North hall"}}
    given = {"buying": {"freight": "190", "premium": 0.1}}
    before = client.get("/api/v1/settings").json()["given"]
    client.put("/api/v1/settings", json=before | given, headers={"if-match": "*"})
    terms = {"buying": {"premium": 0.2}}
    client.put("/api/v1/settings?source=North hall", json=terms, headers={"if-match": "*"})
    form = {"settings": json.dumps(own)}
    made = client.post("/api/v1/lots", files={"manifest": ("lot.csv", manifest())}, data=form).json()["lot"]["id"]
    work_off(world)
    mine = (world, shop, made)
    back = ask(mine, {"buying": {"freight": None, "premium": None}})
    client.post(f"/api/v1/lots/{made}/evaluations", json={"settings": {"lot": own["lot"]}})
    work_off(world)
    whole = evaluation(mine)
    told = {one["key"]: one["value"] for one in whole["assumptions"]}
    assert (told["buying.freight"], told["buying.premium"]) == ("190.00", 0.2)
    client.put("/api/v1/settings", json=before, headers={"if-match": "*"})
    assert {name: back[name] for name in DECISION} == {name: whole[name] for name in DECISION}
    assert back["held"] == []


def test_a_category_taken_back_is_found_in_any_spelling() -> None:
    own = {"selling": {"fee_share": 0.1, "by_category": {"Home > Lamps": {"fee_share": 0.2, "packing": "1"}}}}
    asked = {"selling": {"by_category": {"home>lamps": {"fee_share": None}}}}
    assert _without(own, asked) == {"selling": {"fee_share": 0.1, "by_category": {"Home > Lamps": {"packing": "1"}}}}


def without_weeks(whole: dict[str, Any]) -> None:
    if whole["at_ceiling"]:
        del whole["at_ceiling"]["payback_weeks"]


def test_nothing_is_saved(lot: tuple[World, Shop, str]) -> None:
    world, shop, lot_id = lot
    client = world.client(shop)
    paths = (f"/api/v1/lots/{lot_id}", f"/api/v1/lots/{lot_id}/evaluations", "/api/v1/jobs", "/api/v1/settings")
    before = [client.get(path).text for path in paths]
    ask(lot, {"goals": {"hourly_pay": 40}, "lot": {"current_bid": 1}})
    assert [client.get(path).text for path in paths] == before


def test_what_is_kept_is_said(lot: tuple[World, Shop, str]) -> None:
    held = ask(lot, {"goals": {"hourly_pay": 16}, "never": {"words": ["kettle"]}})["held"]
    assert held[0] == "goals.hourly_pay: keeps which lines are listed, bundled or skipped."
    assert held[1].startswith("never.words: not applied, ")


def test_a_pass_says_what_would_change(lot: tuple[World, Shop, str]) -> None:
    told = ask(lot, {"buying": {"freight": 100000}})
    assert (told["bid_ceiling"]["verdict"], told["at_ceiling"]) == ("pass", None)
    (change,) = told["bid_ceiling"]["what_would_change"]
    assert (change["key"], change["from"]) == ("buying.freight", "100000.00")
    assert ask(lot, {"buying": {"freight": change["to"]}})["bid_ceiling"]["verdict"] == "bid"


@pytest.mark.parametrize(
    ("body", "fault"),
    [
        ({"settings": {"buying": {"premium": 3}}}, "buying.premium"),
        ({"settings": {"buying": {"prize": 3}}}, "buying.prize"),
        ({"settings": {"currency": "EUR"}}, "currency"),
        ({"settings": {}, "seed": 2}, "body.seed"),
        ({}, "body.settings"),
    ],
)
def test_unusable_settings_are_refused_key_by_key(
    lot: tuple[World, Shop, str], body: dict[str, Any], fault: str
) -> None:
    world, shop, lot_id = lot
    answer = world.client(shop).post(f"/api/v1/lots/{lot_id}/what-if", json=body)
    assert answer.status_code == 422
    assert fault in [one["key"] for one in answer.json()["errors"]]


def test_another_shop_finds_no_such_lot(lot: tuple[World, Shop, str]) -> None:
    world, _, lot_id = lot
    stranger = world.client(world.shop("Stranger"))
    assert stranger.post(f"/api/v1/lots/{lot_id}/what-if", json={"settings": {}}).status_code == 404


def refused(client: TestClient, lot_id: str) -> str:
    answer = client.post(f"/api/v1/lots/{lot_id}/what-if", json={"settings": {}})
    assert answer.status_code == 409, answer.text
    return str(answer.json()["detail"])


def test_a_lot_without_an_evaluation_has_nothing_to_read(lot: tuple[World, Shop, str]) -> None:
    client = lot[0].client(lot[1])
    made = client.post("/api/v1/lots", files={"manifest": ("lot.csv", manifest())}).json()["lot"]["id"]
    assert refused(client, made) == "This lot has no evaluation yet: there is nothing to read again."


def test_draws_of_an_older_form_ask_for_a_new_evaluation(lot: tuple[World, Shop, str]) -> None:
    world = lot[0]
    shop = world.shop("Older")
    assert "evaluate it again" in refused(world.client(shop), fill(world, shop).lot_id)


def test_reading_again_loads_no_scikit_learn() -> None:
    done = subprocess.run([sys.executable, "-c", PROGRAM], check=True, capture_output=True, text=True)
    loaded = json.loads(done.stdout)
    assert "scipy" in loaded
    assert not {"sklearn", "pandas"} & set(loaded)
