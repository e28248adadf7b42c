"""What the page of a lot says around the bidding: reached, over, sealed, never, costs alone, a limit now too high."""

import datetime as dt
from typing import Any

import full_shop
import pytest
from api_world import Shop, World
from evaluation_document import backlog, ceiling, document
from page_reading import said
from real_lot import real_lot
from starlette.testclient import TestClient

from models.services.clock import utc_now
from models.services.submit_evaluation import submit_evaluation
from models.services.submit_lot import LotAsked, submit_lot
from models.store.queries.evaluations import NewEvaluation
from models.store.records import Upload


@pytest.fixture
def page_of(world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch) -> Any:
    """The words of a lot whose evaluation has other parts."""

    def page(verdict: str = "bid", **other: Any) -> str:
        whole = document(verdict) | other
        monkeypatch.setattr(full_shop, "document", lambda _: whole)
        return said(browser, f"/lots/{full_shop.fill(world, shop).lot_id}")

    return page


def held(**values: Any) -> list[dict[str, Any]]:
    """The assumptions with some values of this lot's own."""
    keys = {key.replace("_", ".", 1): value for key, value in values.items()}
    rows = [one for one in document()["assumptions"] if one["key"] not in keys]
    return rows + [
        {"key": key, "value": value, "source": "yours", "low": None, "high": None, "ceiling_low": None,
         "ceiling_high": None} for key, value in keys.items()
    ]  # fmt: skip


def test_a_bid_that_stands_at_the_ceiling_is_no_invitation(page_of: Any) -> None:
    reached = ceiling(True) | {"steps_left": {"steps": 0, "next_step_cash": "28.75"}}
    page = page_of(bid_ceiling=reached, lot=document()["lot"] | {"current_bid": "720.00"})
    assert "Bid no more than $720" in page
    assert "The bid already stands at your ceiling: bid no more, unless the bid that stands is yours." in page
    assert "Bid up to" not in page
    assert "0 bid steps" not in page


def test_bidding_that_has_ended_is_said_first(page_of: Any) -> None:
    over = (utc_now() - dt.timedelta(days=3)).isoformat()
    page = page_of(lot=document()["lot"] | {"closes_at": over})
    assert "Bidding has ended. The ceiling was $720 Bidding ended" in page
    assert "Closes" not in page
    assert "steps are left" not in page
    assert "Bid up to" not in page
    assert "Bidding ended" not in page_of()


def test_what_is_paid_names_only_what_counts(page_of: Any) -> None:
    page = page_of()
    assert "You pay in all $1,100 with premium and freight; no tax counted" in page
    assert "in all, with premium and freight; no tax counted." in page
    taxed = page_of(assumptions=held(buying_tax_rate=0.0825, buying_freight="0.00", buying_other_fees="20.00"))
    assert "in all, with premium, tax and fees." in taxed


def test_a_sealed_bid_does_not_rise(page_of: Any) -> None:
    assert "if the price rises to this bid and you win" in page_of()
    page = page_of(assumptions=held(buying_bidding="sealed"))
    assert "rises" not in page
    assert "if your sealed bid of this wins" in page
    assert "if a sealed bid of the ceiling wins" in page


def test_a_backlog_that_never_clears_blames_no_lot_and_has_no_peak(page_of: Any) -> None:
    never = backlog()["after"] | {"grows_hours_per_week": 3.1}
    room = ceiling(False)["room"] | {"weeks_to_clear": None}
    told = "Your backlog never clears, with or without this lot: it grows by 3.1 hours a week."
    page = page_of("pass", backlog=backlog() | {"before": never, "after": never},
                   bid_ceiling=ceiling(False) | {"room": room})  # fmt: skip
    assert page.count(told) == 2
    assert "hours of listing wait" not in page


def test_a_backlog_is_not_said_to_be_largest_before_the_lot_comes(page_of: Any) -> None:
    clears = backlog()["before"]
    page = page_of(backlog=backlog() | {"after": clears | {"hours": 61.0}, "peak_hours": 33.0})
    assert "Today's plus this lot's" in page
    assert "When the lot arrives, 33 hours of listing wait: part of today's is done by then." in page
    page = page_of(backlog=backlog() | {"after": clears, "peak_hours": 28.0})
    assert "At its highest, today, 28 hours of listing wait." in page


def test_costs_alone_are_named_where_no_goal_allows_a_bid(page_of: Any) -> None:
    none = dict.fromkeys(("expected_return", "confidence"), "0.00")
    room = ceiling(True)["room"]
    nothing = ceiling(False) | {"room": room, "unrounded": "0.00", "by_rule": none}
    poor = document()["cash_proceeds"] | {"mean": "60.00"}
    costs = held(buying_freight="440.00", lot_pallets=1.0)
    page = page_of("pass", bid_ceiling=nothing, cash_proceeds=poor, assumptions=costs)
    assert "Costs alone exceed what it brings: freight and fees are $440, and after selling costs the goods" in page
    assert "stands in the way" not in page
    page = page_of("pass", bid_ceiling=nothing)
    assert "None of your goals allows any bid." in page


def test_every_goal_that_stands_in_the_way_is_named(page_of: Any) -> None:
    ways = {"room": ceiling(True)["room"], "unrounded": "0.00", "by_rule": {"confidence": "0.00", "cash_limit": "9.00"}}
    page = page_of("pass", bid_ceiling=ceiling(False) | ways | {"in_the_way": ["confidence", "loss_limit"]})
    assert "What stands in the way is how surely the cash must come back; your loss limit." in page
    page = page_of("pass", bid_ceiling=ceiling(False) | ways)
    assert "What stands in the way is how surely the cash must come back." in page


def test_look_ups_that_would_not_help_are_not_asked_for(page_of: Any) -> None:
    asked = [one | {"spread_removed": 0.004} for one in document()["research_first"]]
    page = page_of(research_first=asked)
    assert "Looking up prices would hardly help" in page
    assert "A sold price would take" not in page


def test_the_sum_of_tags_and_what_was_priced_by_stand_side_by_side(page_of: Any) -> None:
    tags = {"tag_total": "35134.00", "tag_total_used": "16135.00", "tags_ignored": 2}
    assert "tags of $35,134 in the list, priced by tags of $16,135 (2 not believed)" in page_of(
        lot=document()["lot"] | tags
    )


def test_two_ceilings_that_are_alike_are_no_range(page_of: Any) -> None:
    row = held(buying_freight="250.00")[-1] | {"source": "assumed", "low": "150.00", "high": "450.00"}
    page = page_of("pass", assumptions=[row | {"ceiling_low": "0.00", "ceiling_high": "0.00"}])
    assert "pass at both ends" in page
    assert "pass to pass" not in page


def test_a_day_that_was_fixed_is_not_taken_for_today(world: World, shop: Shop, browser: TestClient) -> None:
    assert "Worked out as of Tue 30 Jun 2026, not today." in said(
        browser, f"/lots/{full_shop.fill(world, shop).lot_id}"
    )
    other = world.shop("heron")
    page = said(world.browser(other), f"/lots/{real_lot(world, other)}")
    assert "Worked out as of Wed 1 Jul 2026: a day fixed for this lot, as the demo does, not today." in page


def test_a_limit_above_the_present_ceiling_is_called_out(
    world: World, shop: Shop, browser: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    full = full_shop.fill(world, shop)
    lot = f"/lots/{full.lot_id}"
    program = world.client(shop)
    assert program.post(f"/api/v1{lot}/ceiling", json={"amount": "700"}).status_code == 201
    assert "Your limit of" not in said(browser, lot)
    less = document() | {"bid_ceiling": ceiling(True) | {"amount": "275.00"}}
    _evaluated_again(world, shop, full, less)
    page = said(browser, lot)
    assert "Your limit of $700 is $425 above what now meets your goals. Fix it anew ." in page
    assert page.index("Your limit of $700") < page.index("If you win at")
    assert "That is $425 above what now meets your goals. Fix it anew." in page
    assert "your limit of $700 is above it" in said(browser, "/")
    _evaluated_again(world, shop, full, document("pass"))
    assert "Your limit of $700 is above what now meets your goals: the answer is to pass." in said(browser, lot)


def _evaluated_again(world: World, shop: Shop, full: Any, told: dict[str, Any]) -> None:
    """As a job would leave it."""
    with world.store.write() as work:
        evaluation = work.lots.require(shop.id, full.lot_id).evaluation_id
        assert evaluation is not None
        _, frozen = work.evaluations.frozen(shop.id, evaluation)
        given = {"model_version": full.number, "seed": 1, "as_of": dt.date(2026, 6, 30), "draw_format": 1}
        new = NewEvaluation(**given, frozen=frozen, document=told, lines=[], components=b"draws")
        job = submit_evaluation(work, shop.id, full.lot_id).job
        assert job is not None
        work.evaluations.add(shop.id, full.lot_id, job.id, new)


def test_the_same_limit_twice_is_one_entry(world: World, shop: Shop) -> None:
    lot = f"/lots/{full_shop.fill(world, shop).lot_id}"
    program = world.client(shop)
    made = [program.post(f"/api/v1{lot}/ceiling", json={"amount": one}).json() for one in ("700", "700.00", "650")]
    assert [one["number"] for one in made] == [1, 1, 2]


def test_a_file_that_failed_is_named_once(world: World, shop: Shop, browser: TestClient) -> None:
    with world.store.write() as work:
        lot = submit_lot(work, shop.id, Upload("zero.csv", [b"x"]), LotAsked("zero")).subject
        work.lots.fail(shop.id, lot.id, "zero.csv has a header but no lines.")
    page = said(browser, f"/lots/{lot.id}")
    assert "zero.csv. zero.csv" not in page
    assert "zero.csv has a header but no lines. Your file is kept. Mend it, then upload it again ." in page
