"""Goods of which the seller has units on offer say that they wait behind those."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
from appraisal_world import answer, demo_lines, demo_model

from models.appraisal.waiting_words import waiting_cautions
from models.estimate.tempo import days_to_sell
from models.estimate.tempo_lot import gamma_pace


def test_a_line_behind_own_units_says_so() -> None:
    stock = np.array([8.0, 0.0, 1.0, 8.0, 8.0])
    pace = gamma_pace(np.arange(5), np.array([2.0, 2.0, 2.0, 400.0, 2.0]), stock, 1.5, 90.0)
    pace = replace(pace, apart=np.array([False, False, False, False, True]))
    lot = SimpleNamespace(
        tempo=pace, lines=SimpleNamespace(no=np.array([4, 5, 6, 7, 8])), days_to_sell=days_to_sell(pace, 3650.0)
    )
    told = list(waiting_cautions(lot))  # type: ignore[arg-type]
    assert [one.line for one in told] == [4, 6]
    assert told[0].what == "8 of it are on offer already; these wait behind them."
    assert told[1].what == "1 of it is on offer already; these wait behind it."
    assert told[0].check == "Without that half of these would sell within 53 days: buy fewer, or count on the wait."


def test_own_units_on_offer_are_told_on_the_lines_of_an_answer_alone() -> None:
    model = demo_model()
    full = replace(model, tempo=replace(model.tempo, stock=np.full_like(model.tempo.stock, 30.0)))
    told = [answer(demo_lines("manifest_tidy.xlsx"), {}, one) for one in (model, full)]
    behind = [
        [said["what"] for line in one.lines for said in line["cautions"] if "wait behind" in said["what"]]
        for one in told
    ]
    assert "30 of it are on offer already; these wait behind them." in behind[1]
    assert len(behind[1]) > len(behind[0])
    assert not any("wait behind" in said["what"] for said in told[1].document["cautions"])
