"""The backtest on files: read, walk, tell it in words, then every day in a table."""

import datetime as dt
import textwrap
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import typer

from api.cli.caution_lines import WIDTH
from api.cli.named_columns import require_used
from api.cli.own_files import read_map, read_sales, read_settings
from api.cli.progress import shown_progress
from api.cli.say import say
from api.cli.summary import MARGIN, whole
from api.cli.written_json import write_document
from models.appraisal.backtest.baselines import Method
from models.appraisal.backtest.walk import Asked, backtest
from models.intake.histories import histories_together
from models.services.backtest_words import backtest_headline, backtest_parts


@dataclass(frozen=True)
class Wish:
    """What was asked on the command line."""

    sales: tuple[Path, ...]
    settings: Path | None
    given_map: tuple[str, ...]
    as_of: dt.date
    cut_offs: int
    json: Path | None


def run(wish: Wish) -> None:
    """Read, test, tell, write."""
    given, pairs = read_settings(wish.settings), read_map(wish.given_map)
    currency = given.get("currency", "USD")
    read = [(path.name, read_sales(path, pairs, currency)) for path in wish.sales]
    require_used(pairs, dict(read))
    history = histories_together(read)
    with shown_progress("Testing on your own sales") as report:
        found = backtest(history.sales, Asked(wish.as_of, currency, given, wish.cut_offs, _others()), report)
    say("\n".join(lines_of(found)))
    for caution in history.cautions:
        typer.echo(f"{caution.what} {caution.check}".rstrip(), err=True)
    if wish.json:
        cautions = [{"what": one.what, "check": one.check} for one in history.cautions]
        write_document(wish.json, {**found, "cautions": cautions})


def lines_of(found: Mapping[str, Any]) -> list[str]:
    """The words, then the table of days."""
    currency = found["currency"]
    told = [*textwrap.wrap(backtest_headline(found), WIDTH), ""]
    for name, text in backtest_parts(found, lambda amount: f"{whole(amount)} {currency}"):
        told += textwrap.wrap(
            text,
            WIDTH,
            initial_indent=f"  {name:<{MARGIN - 2}}",
            subsequent_indent=" " * MARGIN,
            break_long_words=False,
        )
    return told + (["", *_table(found)] if found["enough"] else [])


def _table(found: Mapping[str, Any]) -> list[str]:
    """One row a day: expected and came in, lots inside their range, share of the units expected to sell and sold."""
    head = f"{'day':<12}{'sales known':>12}{'lots':>6}{'expected':>12}{'came in':>12}{'ratio':>9}{'inside':>8}"
    head += f"{'exp./sold in 30 d':>20}"
    return [head, *(_row(one) for one in found["cut_offs"])]


def _row(one: Mapping[str, Any]) -> str:
    start = f"{one['day']:<12}{one['sales_known']:>12,}{one['lots']:>6}"
    if not one["lots"]:
        return f"{start}{'none to judge':>30}"
    money, time = one["money"], one["time"]
    told, came = whole(money["told"]), whole(money["happened"])
    soon = f"{time['told']:.0%} / {time['happened']:.0%}" if time else ""
    return f"{start}{told:>12}{came:>12}{money['ratio']:>9.2f}{one['held']:>8}{soon:>20}"


def _others() -> dict[str, Method]:
    """LightGBM where it is installed."""
    if find_spec("lightgbm") is None:
        return {}
    from models.bench.baselines.own_history import boosted_trees

    return {"lightgbm": boosted_trees}
