"""`lotwright backtest` on files: words first, then every day; the same file gives the same figures."""

import json
import random
import re
from datetime import date, timedelta
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from api.cli import backtest_run
from api.cli.main import app

HEAD = "title,brand,category,condition,tag_each,sold_price,quantity,listed_on,sold_on,lot,sourced,listing_minutes"
GOODS = [
    (f"Lamp model {number}", f"Brand{number % 7}", ("Home", "Toys")[number % 2], 20 + number) for number in range(40)
]


def history(rows: int) -> str:
    """Lots of ten bought a week apart; every ninth listing has not sold."""
    rng = random.Random(5)
    lines = [HEAD]
    for number in range(rows):
        title, brand, category, tag = rng.choice(GOODS)
        lot = number // 10
        listed = date(2024, 1, 1) + timedelta(days=7 * lot + number % 5)
        sold = listed + timedelta(days=rng.randint(2, 50))
        price = tag * 0.4 * rng.lognormvariate(0, 0.15)
        ends = ",,1" if number % 9 == 0 else f",{price:.2f},1"
        day = "" if number % 9 == 0 else sold.isoformat()
        lines.append(f"{title},{brand},{category},new,{tag}{ends},{listed},{day},Pallet {lot},bulk,{8 + number % 3}")
    return "\n".join(lines) + "\n"


def ran(folder: Path, rows: int, *more: str) -> Result:
    (folder / "sales.csv").write_text(history(rows))
    return CliRunner().invoke(app, ["backtest", "--sales", str(folder / "sales.csv"), "--as-of", "2026-01-05", *more])


@pytest.fixture(autouse=True)
def only_simple_ways(monkeypatch: pytest.MonkeyPatch) -> None:
    """Trees are tested once, below."""
    monkeypatch.setattr(backtest_run, "find_spec", lambda name: None)


def test_words_come_first_then_every_day(tmp_path: Path) -> None:
    found = ran(tmp_path, 400, "--json", str(tmp_path / "out.json"), "--cut-offs", "5")
    assert found.exit_code == 0, found.output
    document = json.loads((tmp_path / "out.json").read_text())
    text = " ".join(found.stdout.split())
    tested = document["tested"]
    assert len(document["lots"]) == tested["lots"]
    assert document["cautions"] == []
    assert text.startswith(f"On {tested['sales']} of your sales of goods bought in bulk since")
    assert "Other ways A fixed share of the tag came within" in text
    assert "How soon Within 30 days" in text
    assert "Your hours The" in text
    days = [one["day"] for one in document["cut_offs"]]
    assert 1 < len(days) <= 5
    assert [line.split()[0] for line in found.stdout.splitlines() if line[:4] in ("2024", "2025")] == days
    assert {one["name"] for one in document["baselines"]} == {"share_of_tag", "category_brand_medians"}
    assert sum(one.get("sales", 0) for one in document["cut_offs"]) == tested["sales"]
    money = document["money"]
    assert money["ratio"] == pytest.approx(float(money["told"]) / float(money["happened"]), abs=2e-4)
    assert sum(float(one["happened"]) for one in document["lots"]) == pytest.approx(float(money["happened"]), abs=0.5)


def test_the_same_file_gives_the_same_figures(tmp_path: Path) -> None:
    for name in ("one.json", "other.json"):
        assert ran(tmp_path, 200, "--json", str(tmp_path / name), "--cut-offs", "3").exit_code == 0
    assert (tmp_path / "one.json").read_text() == (tmp_path / "other.json").read_text()


def test_a_day_of_before_knows_less(tmp_path: Path) -> None:
    (tmp_path / "sales.csv").write_text(history(400))
    given = [
        "backtest",
        "--sales",
        str(tmp_path / "sales.csv"),
        "--json",
        str(tmp_path / "out.json"),
        "--cut-offs",
        "2",
    ]
    assert CliRunner().invoke(app, [*given, "--as-of", "2024-06-30"]).exit_code == 0
    document = json.loads((tmp_path / "out.json").read_text())
    assert document["known_until"] <= "2024-06-30"
    assert document["sales"]["dated"] < 300


def test_too_few_sales_end_well_and_say_so(tmp_path: Path) -> None:
    found = ran(tmp_path, 40, "--json", str(tmp_path / "out.json"))
    assert found.exit_code == 0, found.output
    assert "It could not be tested on your own sales yet. 35 sales say when they sold" in " ".join(found.stdout.split())
    assert json.loads((tmp_path / "out.json").read_text())["enough"] is False


def test_mistakes_are_one_clear_message(tmp_path: Path) -> None:
    assert "write the date as" in ran(tmp_path, 40, "--as-of", "soon").stderr
    gone = CliRunner().invoke(app, ["backtest", "--sales", str(tmp_path / "none.csv")])
    assert (gone.exit_code, gone.stderr.count("\n")) == (2, 1)
    odd = ran(tmp_path, 40, "--map", "brand=Marke")
    assert odd.exit_code == 2
    assert "--map brand=Marke: no file has that header" in odd.stderr


def test_without_tags_no_share_of_the_tag_is_compared(tmp_path: Path) -> None:
    (tmp_path / "bare.csv").write_text(re.sub(r",new,\d+,", ",new,,", history(200)))
    given = ["backtest", "--sales", str(tmp_path / "bare.csv"), "--as-of", "2026-01-05", "--cut-offs", "2"]
    found = CliRunner().invoke(app, [*given, "--json", str(tmp_path / "out.json")])
    assert found.exit_code == 0, found.output
    assert "fixed share of the tag" not in " ".join(found.stdout.split())
    assert [one["name"] for one in json.loads((tmp_path / "out.json").read_text())["baselines"]] == [
        "category_brand_medians"
    ]


def test_boosted_trees_are_one_more_way_where_they_are_installed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pytest.importorskip("lightgbm", reason="comes with the extra `bench`")
    monkeypatch.undo()
    found = ran(tmp_path, 200, "--json", str(tmp_path / "out.json"), "--cut-offs", "2")
    assert found.exit_code == 0, found.output
    document = json.loads((tmp_path / "out.json").read_text())
    trees = next(one for one in document["baselines"] if one["name"] == "lightgbm")
    assert 0.5 < trees["money"]["ratio"] < 2.0
    assert "boosted trees (LightGBM) came within" in " ".join(found.stdout.split())
