"""`lotwright evaluate` with a sold history in several files: `--sales` once for each."""

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result
from typer.testing import CliRunner

from api.cli.main import app

GOODS = ("Kettle steel", "Toaster red", "Drill 18V", "Lamp large")


@pytest.fixture
def files(tmp_path: Path) -> Path:
    orders = ["Order number,Listing number,Title,Sold for,Sale date,Buyer name"]
    listings = ["Listing number,Title,Start price,Start date,End date"]
    fees = ["Order number,Fees"]
    for no in range(60):
        title, sold = GOODS[no % 4], f"2025-{no % 12 + 1:02d}-20"
        orders.append(f"O{no},L{no},{title},{20 + no % 7},{sold},Ann")
        listings.append(f"L{no},{title},{30 + no % 7},2025-{no % 12 + 1:02d}-03,{sold}")
        fees.append(f"O{no},{2 + no % 3}.50")
    listings += [f"M{no},{GOODS[no % 4]},35,2025-06-{no % 28 + 1:02d},2025-12-01" for no in range(20)]
    orders.append("O99,L99,Bad,eight,2025-12-20,Ann")
    for name, rows in (("orders", orders), ("listings", listings), ("fees", fees)):
        (tmp_path / f"{name}.csv").write_text("\n".join(rows) + "\n")
    (tmp_path / "lot.csv").write_text("Description,Qty\n" + "".join(f"{title},3\n" for title in GOODS))
    return tmp_path


def evaluate(files: Path, *sales: str) -> Result:
    given = [part for name in sales for part in ("--sales", str(files / name))]
    rest = ["--as-of", "2026-01-05", "--json", str(files / "out.json")]
    return CliRunner().invoke(app, ["evaluate", str(files / "lot.csv"), *given, *rest])


def answer(files: Path, *sales: str) -> Any:
    ran = evaluate(files, *sales)
    assert ran.exit_code == 0, ran.output
    return json.loads((files / "out.json").read_text())


def test_three_files_are_one_history(files: Path) -> None:
    found = answer(files, "orders.csv", "listings.csv", "fees.csv")
    assert found["model_version"]["sales_used"] == 60
    assert found["sales"]["rows"] == found["sales"]["kept"] + found["sales"]["set_aside"] == 61 + 80 + 60
    assert found["sales"]["items"][0]["reason"].startswith("orders.csv: ")
    assert found["sales"]["set_aside"] == 1
    sources = {one["key"]: one["source"] for one in found["assumptions"]}
    assert sources["selling.fee_share"] == "learned"  # from the statement


def test_the_same_files_again_change_nothing(files: Path) -> None:
    once = answer(files, "orders.csv", "listings.csv", "fees.csv")
    twice = answer(files, "orders.csv", "listings.csv", "fees.csv", "orders.csv", "fees.csv")
    assert once["bid_ceiling"] == twice["bid_ceiling"]
    assert twice["model_version"]["sales_used"] == 60


def test_what_is_unknown_is_said(files: Path) -> None:
    ran = evaluate(files, "orders.csv")
    assert "orders.csv: No sale has a listing date" in ran.stderr
    assert "listing date" not in evaluate(files, "orders.csv", "listings.csv").stderr
