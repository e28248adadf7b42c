"""The sentence on winning: whom it counts with, what it expects, and only where a bid is allowed."""

import math

import numpy as np
import pytest
from appraisal_world import AS_OF, answer, demo_lines, demo_model

from models.appraisal.prepare import prepare
from models.appraisal.question import Question
from models.appraisal.rival_words import rivals_caution
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.problems import Problems

LINES = demo_lines("manifest_new_brand.csv").take(np.arange(6))
CHEAP = {"freight": 0, "premium": 0.05}


def test_a_rising_price_among_three_others() -> None:
    told = rivals_caution(3.0, "rising", 0.1996, 0.031)
    assert told.what == (
        "This counts on about 3 other bidders who know these goods no better than you; every price is counted 3% lower "
        "for that. If the price rises to this limit and you win, expect your cash back about 8 times in 10. If there "
        "are more, or they know more, you mostly win the lots you overpaid for: in our trials with bids meant to lose "
        "cash 1 time in 5, up to 1 in 4 of the lots won did, and about half of the few won from bidders who pay all "
        "that they expect."
    )
    assert told.check == "Enter their real number, and leave lots that others know better."


def test_a_sealed_bid_says_otherwise() -> None:
    told = rivals_caution(8.0, "sealed", 0.1, 0.004)
    assert told.what.startswith("This counts on about 8 other bidders who know")
    assert (
        "counted less than 1% lower for that. If you bid this much and win, expect your cash back about 9" in told.what
    )
    assert "1 in 4 to more than 1 in 3 of the lots won did, and more than half" in told.what


@pytest.mark.parametrize(("bidding", "lost"), [("rising", "about 1 in 5"), ("sealed", "about 1 in 3")])
def test_without_rivals_told(bidding: str, lost: str) -> None:
    told = rivals_caution(0.0, bidding, 0.2, 0.0)
    assert "nothing is taken off for rivals" in told.what
    assert f"{lost} of the lots won from 3 of them did." in told.what
    assert told.check == "Enter how many serious bidders you expect."


def test_one_rival_is_one() -> None:
    assert "on about 1 other bidder who knows these goods no better" in rivals_caution(1.0, "rising", 0.2, 0.02).what


@pytest.mark.parametrize(
    ("loss", "said"), [(0.0, "more than 19 times in 20"), (0.049, "more than 19"), (0.06, "about 9 times in 10")]
)
def test_small_chances_in_words(loss: float, said: str) -> None:
    assert said in rivals_caution(3.0, "rising", loss, 0.03).what


def test_a_lot_that_may_be_bid_for_says_it_first_and_a_pass_not_at_all() -> None:
    bid = answer(LINES, {"buying": CHEAP | {"rivals": 8, "bidding": "sealed"}}).document
    assert bid["bid_ceiling"]["verdict"] == "bid"
    shade = bid["bid_ceiling"]["rivals"]["shade"]
    expected = rivals_caution(8.0, "sealed", bid["at_ceiling"]["chance_of_cash_loss"], shade)
    assert bid["cautions"][0] == {"what": expected.what, "check": expected.check}
    refused = answer(LINES, {"buying": {"freight": 100_000}}).document
    assert refused["bid_ceiling"]["verdict"] == "pass"
    assert not any("expect your cash back" in one["what"] for one in refused["cautions"])


def test_the_shade_reads_the_spread_that_rivals_may_judge_otherwise() -> None:
    settings = {"buying": CHEAP | {"rivals": 3, "bidding": "sealed", "common_share": 0.3}}
    told = answer(LINES, settings)
    held = in_force([read_given(settings)], demo_model().learned)
    question = Question(LINES, Problems(6, 6, 0, ()), (), "a lot", held, AS_OF, 1)
    prices = prepare(question, demo_model()).prices
    assert 0 < prices.judgement_sd < prices.log_sd
    shade = told.document["bid_ceiling"]["rivals"]["shade"]
    assert 1 - shade == pytest.approx(math.exp(-1.02937537 * math.sqrt(0.3) * prices.judgement_sd), abs=1e-4)
