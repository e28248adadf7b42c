"""`lotwright evaluate` on small files of our own: foreign wordings, several manifests, files that cannot be read."""

import csv
import json
import os
import random
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result
from typer.testing import CliRunner

from api.cli.main import app

GOODS = (
    ("Wasserkocher Stahl", "Olmreck", "Küche", 39.9),
    ("Toaster rot", "Olmreck", "Küche", 29.9),
    ("Bohrmaschine 18V", "Zantwil", "Werkzeug", 119.0),
    ("Lampe groß", "Zantwil", "Wohnen", 59.0),
)
SETTINGS = 'currency = "EUR"\n[buying]\nfreight = 40\n[goals]\nhourly_pay = 8\n[backlog]\nhours_per_week = 10\n'


def decimal_comma(amount: float) -> str:
    return f"{amount:.2f}".replace(".", ",")


@pytest.fixture
def files(tmp_path: Path) -> Path:
    """A history with semicolons and decimal commas, a manifest, and files that are none."""
    rng = random.Random(3)
    head = "Artikel;Marke;Warengruppe;Zustand;UVP;Verkaufspreis;Menge;Eingestellt am;Verkauft am"
    rows = [head]
    for _ in range(90):
        title, brand, category, tag = rng.choice(GOODS)
        price, month, day = tag * 0.6 * rng.lognormvariate(0, 0.1), rng.randint(1, 12), rng.randint(1, 12)
        dates = f"{day:02d}.{month:02d}.2025;{day + 14:02d}.{month:02d}.2025"
        rows.append(f"{title};{brand};{category};neu;{decimal_comma(tag)};{decimal_comma(price)};1;{dates}")
    (tmp_path / "sales.csv").write_text("\n".join(rows) + "\n", encoding="cp1252")
    lines = ["Posten 7", "", "Bezeichnung;Hersteller;Kategorie;Zustand;Stück;UVP"]
    lines += [f"{title};{brand};{category};neu;4;{decimal_comma(tag)}" for title, brand, category, tag in GOODS]
    (tmp_path / "lot.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    (tmp_path / "settings.toml").write_text(SETTINGS)
    (tmp_path / "colours.csv").write_text("Farbe,Qty\n=rot,2\nblau,3\n")
    (tmp_path / "empty.csv").write_bytes(b"")
    (tmp_path / "zero.xlsx").write_bytes(b"")
    (tmp_path / "paper.csv").write_bytes(b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n" + bytes(range(256)))
    (tmp_path / "header.csv").write_text("Description,Qty\n")
    return tmp_path


def evaluate(files: Path, *arguments: str, sales: str = "sales.csv") -> Result:
    given = ["--sales", str(files / sales), "--settings", str(files / "settings.toml"), "--as-of", "2026-01-05"]
    paths = [str(files / one) if (files / one).exists() else one for one in arguments]
    return CliRunner().invoke(app, ["evaluate", *paths, *given])


def answer(files: Path, *arguments: str, sales: str = "sales.csv") -> Any:
    ran = evaluate(files, *arguments, "--json", str(files / "out.json"), sales=sales)
    assert ran.exit_code == 0, ran.output
    return json.loads((files / "out.json").read_text(encoding="utf-8"))


def test_foreign_files_in_another_currency(files: Path) -> None:
    found = answer(files, "lot.csv")
    assert (found["lot"]["name"], found["lot"]["currency"]) == ("lot", "EUR")
    assert (found["lot"]["lines"], found["lot"]["units"], found["lot"]["tag_total"]) == (4, 16, "991.20")
    assert found["sales"] == {"rows": 90, "kept": 90, "set_aside": 0, "items": [], "stated": []}
    assert found["model_version"] == {"number": 1, "trained_on": "2026-01-05", "sales_used": 90}
    assert found["bid_ceiling"]["verdict"] == "bid"


def test_same_input_same_answer(files: Path) -> None:
    assert answer(files, "lot.csv") == answer(files, "lot.csv")
    assert answer(files, "lot.csv") != answer(files, "lot.csv", "--seed", "2")


def test_one_unreadable_manifest_does_not_stop_the_others(files: Path) -> None:
    table = files / "lines.csv"
    ran = evaluate(files, "empty.csv", "lot.csv", "gone.csv", "--json", str(files / "out.json"), "--lines", str(table))
    assert ran.exit_code == 2
    first, second, third = json.loads((files / "out.json").read_text(encoding="utf-8"))
    assert first == {"lot": {"name": "empty"}, "error": "empty.csv is empty."}
    assert second["lot"]["lines"] == 4
    assert third["error"] == "gone.csv: No such file or directory"
    with table.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert [row["manifest"] for row in rows] == [str(files / "lot.csv")] * 4
    assert "lot: 4 lines, 16 units" in ran.stdout


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("empty.csv", "empty.csv is empty."),
        ("zero.xlsx", "zero.xlsx is empty."),
        ("paper.csv", "PDF"),
        ("header.csv", "no lines"),
        ("colours.csv", '--map description="Farbe"'),
    ],
)
def test_a_lone_unreadable_manifest_is_one_clear_line(files: Path, name: str, reason: str) -> None:
    ran = evaluate(files, name, "--json", str(files / "out.json"))
    assert ran.exit_code == 2
    assert reason in ran.stderr
    assert ran.stderr.startswith("lotwright: ")
    assert ran.stderr.count("\n") == 1
    assert ran.stdout == ""
    assert not (files / "out.json").exists()


def test_a_column_named_by_hand_is_taken_where_it_is(files: Path) -> None:
    (files / "wares.csv").write_text("Was;Hersteller\nToaster rot;Olmreck\n", encoding="utf-8")
    named = ("--map", "description=Farbe", "--map", "description=Was", "--map", "brand=Hersteller")
    first, second = answer(files, "colours.csv", "wares.csv", *named)
    assert (first["lot"]["lines"], second["lot"]["lines"]) == (2, 1)


@pytest.mark.parametrize("named", ["brand=Herstler", "description=Nope"])
def test_a_misspelt_header_is_refused_with_those_there_are(files: Path, named: str) -> None:
    ran = evaluate(files, "lot.csv", "--map", named, "--json", str(files / "out.json"))
    assert ran.exit_code == 2
    assert f"--map {named}: no file has that header" in ran.stderr
    assert "lot.csv: " in ran.stderr
    assert ran.stderr.count("\n") == 1
    assert not (files / "out.json").exists()


def test_price_per_row_is_divided_by_quantity(files: Path) -> None:
    text = (files / "sales.csv").read_text(encoding="cp1252").replace(";1;", ";4;")
    (files / "rows.csv").write_text(text, encoding="cp1252")
    each = answer(files, "lot.csv", sales="rows.csv")
    row = answer(files, "lot.csv", "--map", "sold_price_is=row", sales="rows.csv")
    assert float(row["resale"]["mean"]) < 0.5 * float(each["resale"]["mean"])


def test_texts_of_the_table_cannot_run(files: Path) -> None:
    table = files / "lines.csv"
    assert evaluate(files, "colours.csv", "--map", "description=Farbe", "--lines", str(table)).exit_code == 0
    with table.open(encoding="utf-8", newline="") as file:
        assert [row["description"] for row in csv.DictReader(file)] == ["'=rot", "blau"]


def test_a_history_without_a_sale_is_answered(files: Path) -> None:
    (files / "none.csv").write_text("title,sold_price\n", encoding="utf-8")
    found = answer(files, "lot.csv", "--lines", str(files / "lines.csv"), sales="none.csv")
    assert found["model_version"]["sales_used"] == 0
    with (files / "lines.csv").open(encoding="utf-8", newline="") as file:
        assert {row["basis"] for row in csv.DictReader(file)} == {"prior_only"}


def test_files_are_written_though_nobody_reads_what_is_said(files: Path) -> None:
    """As after `| head`, here with nobody reading from the start."""
    reader, writer = os.pipe()
    os.close(reader)
    given = ["--sales", "sales.csv", "--settings", "settings.toml", "--as-of", "2026-01-05"]
    command = [sys.executable, "-m", "api.cli.main", "evaluate", "lot.csv", *given]
    done = subprocess.run(
        [*command, "--json", "out.json", "--lines", "out.csv"], cwd=files, stdout=writer, stderr=subprocess.PIPE
    )
    os.close(writer)
    assert (done.returncode, b"Traceback" in done.stderr) == (0, False), done.stderr
    assert json.loads((files / "out.json").read_text())["lot"]["lines"] == 4
    assert len((files / "out.csv").read_text().splitlines()) == 5
