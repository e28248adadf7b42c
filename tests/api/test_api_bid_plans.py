"""Several lots at once: what the program and the page are told, and what they refuse."""

import re
from typing import Any

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import said, send, words
from real_lot import history, manifest, work_off
from starlette.testclient import TestClient

from models.services.clock import local_date
from models.values.days import day_in_words

DAY = "2026-07-01"
PLENTY = {"cash_limit": "100000", "listing_hours": 1000}


@pytest.fixture
def client(world: World, shop: Shop) -> TestClient:
    made = world.client(shop)
    made.post("/api/v1/sales/imports", files={"file": ("sold.csv", history())})
    work_off(world)
    return made


def lot(world: World, client: TestClient, quantity: int, **given: Any) -> str:
    """An evaluated lot of so many of everything."""
    form = {"as_of": DAY, "name": f"Lot of {quantity}"} | given
    made = client.post("/api/v1/lots", files={"manifest": ("lot.csv", manifest(quantity))}, data=form)
    assert made.status_code == 202, made.text
    work_off(world)
    return str(made.json()["lot"]["id"])


def ask(client: TestClient, lots: list[str], status: int = 200, **limits: Any) -> Any:
    answer = client.post("/api/v1/bid-plans", json={"lots": lots} | PLENTY | limits)
    assert answer.status_code == status, answer.text
    return answer.json()


def evaluation(client: TestClient, lot_id: str) -> Any:
    return client.get(f"/api/v1/lots/{lot_id}/evaluation").json()


def test_a_plan_of_one_lot_is_its_own_ceiling(world: World, client: TestClient) -> None:
    one = lot(world, client, 4)
    own, plan = evaluation(client, one), ask(client, [one, one])
    assert own["bid_ceiling"]["verdict"] == "bid"
    at = own["at_ceiling"]
    assert [(part["id"], part["amount"], part["cash_out"]) for part in plan["lots"]] == [
        (one, own["bid_ceiling"]["amount"], at["cash_out"])
    ]
    same = ("cash_out", "expected_profit", "expected_cash_gain", "chance_of_cash_loss", "chance_below_pay")
    assert {name: plan["totals"][name] for name in same} == {name: at[name] for name in same}
    assert plan["totals"]["hours"] == own["hours"]["listing"]["mean"]
    assert plan["cash_proceeds"] == own["cash_proceeds"]
    assert plan["spread"]["together"] == plan["spread"]["if_unrelated"]
    assert (plan["gap"], plan["left_out"]) == ("0.00", [])
    assert (plan["as_of"], plan["seed"], plan["model_version"]) == (DAY, 1, 1)
    assert plan["cautions"][-1] == own["cautions"][-1]


def test_lots_together_are_added_draw_by_draw(world: World, client: TestClient) -> None:
    lots = [lot(world, client, quantity) for quantity in (3, 4, 5)]
    plan = ask(client, lots)
    assert {one["id"] for one in plan["lots"]} == set(lots)
    spread = {name: float(amount) for name, amount in plan["spread"].items()}
    assert spread["together"] > 1.02 * spread["if_unrelated"], "they have the market and their goods in common"
    parts = [evaluation(client, one)["at_ceiling"] for one in lots]
    assert float(plan["totals"]["expected_profit"]) == pytest.approx(
        sum(float(one["expected_profit"]) for one in parts)
    )
    assert float(plan["totals"]["cash_left"]) == pytest.approx(100000 - float(plan["totals"]["cash_out"]))
    assert any("5 items are in more than one lot" in one["what"] for one in plan["cautions"])
    assert ask(client, lots[::-1]) == plan


def test_what_does_not_fit_is_left_out_and_why_is_said(world: World, client: TestClient) -> None:
    small, large = lot(world, client, 3), lot(world, client, 8)
    due = {one["id"]: float(one["cash_out"]) for one in ask(client, [small, large])["lots"]}
    plan = ask(client, [small, large], cash_limit=due[large] + 1)
    assert [one["id"] for one in plan["lots"]] == [large], "it earns more"
    left = plan["left_out"][0]
    assert (left["id"], left["reason"]) == (small, "cash")
    assert f"${due[small] - 1:,.2f}".removesuffix(".00") + " more cash than there is" in left["words"]
    short = ask(client, [small, large], listing_hours=0.01)
    assert {one["reason"] for one in short["left_out"]} == {"hours_alone"}
    assert (short["lots"], short["totals"]["cash_out"], short["totals"]["return_on_cash"]) == ([], "0.00", None)
    assert {one["reason"] for one in ask(client, [small], cash_limit=0)["left_out"]} == {"cash_alone"}


def test_the_shops_goals_hold_for_the_sum(world: World, client: TestClient) -> None:
    bold = '{"goals": {"confidence": 0.5, "return_on_cash": 0}}'
    lots = [lot(world, client, quantity, settings=bold) for quantity in (3, 5)]
    assert float(ask(client, lots)["goals"]["confidence"]["cash"]) == 0.0, "bold lots, a careful shop"
    assert {one["reason"] for one in ask(client, lots)["left_out"]} == {"confidence"}
    client.put("/api/v1/settings", json={"goals": {"confidence": 0.5}}, headers={"if-match": "*"})
    assert len(ask(client, lots)["lots"]) == 2
    goals = {"goals": {"confidence": 0.5, "loss_limit": 10}}
    client.put("/api/v1/settings", json=goals, headers={"if-match": "*"})
    plan = ask(client, lots)
    assert {one["reason"] for one in plan["left_out"]} == {"loss_limit"}
    assert plan["goals"]["loss_limit"] == {"limit": "10.00", "chance": 0.05, "loss": "0.00"}


def test_lots_to_pass_on_say_what_stands_in_the_way(world: World, client: TestClient) -> None:
    passed = lot(world, client, 4, settings='{"goals": {"return_on_cash": 90}}')
    stands = lot(world, client, 5, settings='{"lot": {"current_bid": "90000"}}')
    left = {one["id"]: one for one in ask(client, [passed, stands])["left_out"]}
    assert {one["reason"] for one in left.values()} == {"pass"}
    assert "the return you ask for" in left[passed]["words"]
    assert left[stands]["words"].startswith("The bid stands at $90,000; the most that meets its goals is")


def test_a_ceiling_fixed_lower_is_the_most_to_bid(world: World, client: TestClient) -> None:
    one = lot(world, client, 4)
    assert client.post(f"/api/v1/lots/{one}/ceiling", json={"amount": "100"}).status_code == 201
    part = ask(client, [one])["lots"][0]
    assert (part["amount"], part["is_fixed"]) == ("100.00", True)


def test_what_closes_first_is_told_first(world: World, browser: TestClient, client: TestClient) -> None:
    later, sooner = (
        lot(world, client, units, settings=f'{{"lot": {{"closes_at": "2026-07-{day}T18:00:00Z"}}}}')
        for units, day in ((3, "09"), (4, "08"))
    )
    unknown = lot(world, client, 5)
    told = [(one["id"], one["closes_at"]) for one in ask(client, [later, unknown, sooner])["lots"]]
    assert told == [(sooner, "2026-07-08T18:00:00Z"), (later, "2026-07-09T18:00:00Z"), (unknown, None)]
    page = said(browser, f"/bid-plan?lot={later}&lot={sooner}&cash=100000&hours=500")
    assert "Lot of 4 closes Wed 8 Jul 2026, 18:00 UTC" in page


def test_the_same_manifest_twice_is_said(world: World, client: TestClient) -> None:
    lots = [lot(world, client, 4), lot(world, client, 4, name="Again")]
    assert any("2 lots of the plan have the same manifest" in one["what"] for one in ask(client, lots)["cautions"])


def test_lots_that_were_not_drawn_together_are_named(world: World, client: TestClient) -> None:
    odd, newest = lot(world, client, 3, seed="7"), lot(world, client, 4)
    refused = ask(client, [odd, newest], 409)
    assert (refused["code"], refused["title"]) == ("not_together", "Conflict")
    assert refused["errors"] == [{"key": odd, "detail": "drawn with other random numbers"}]
    assert refused["evaluate_with"] == {"seed": 1, "model_version": 1, "as_of": DAY}
    assert "Lot of 3" in refused["detail"]
    assert "seed" not in refused["detail"]
    again = client.post(f"/api/v1/lots/{odd}/evaluations", json=refused["evaluate_with"])
    assert again.status_code == 202
    work_off(world)
    assert len(ask(client, [odd, newest])["lots"]) == 2


def test_the_odd_seed_is_named_even_where_it_is_the_newest(world: World, client: TestClient) -> None:
    many = [lot(world, client, quantity) for quantity in (3, 4)]
    odd = lot(world, client, 5, seed="7")
    refused = ask(client, [*many, odd], 409)
    assert [one["key"] for one in refused["errors"]] == [odd]
    assert refused["evaluate_with"]["seed"] == 1


def test_other_days_and_models_do_not_mix(world: World, client: TestClient) -> None:
    old, new = lot(world, client, 3, as_of="2026-06-30"), lot(world, client, 4)
    apart = "worked out for 30 Jun 2026, others for 1 Jul 2026"
    assert ask(client, [old, new], 409)["errors"] == [{"key": old, "detail": apart}]
    client.post("/api/v1/trainings", json={"as_of": DAY})
    work_off(world)
    client.post("/api/v1/model-versions/2/activate")
    work_off(world)
    newest = lot(world, client, 5)
    errors = {one["key"]: one["detail"] for one in ask(client, [old, new, newest], 409)["errors"]}
    assert set(errors) == {old, new}
    assert errors[new] == "worked out with what version 1 had learned from your sales, others with version 2"


@pytest.mark.parametrize(
    ("asked", "key"),
    [
        ({"lots": []}, "body.lots"),
        ({"lots": ["x"] * 201}, "body.lots"),
        ({"cash_limit": "much"}, "cash_limit"),
        ({"cash_limit": "-1"}, "cash_limit"),
        ({"cash_limit": "1e99"}, "cash_limit"),
        ({"cash_limit": 5.123}, "cash_limit"),
        ({"listing_hours": -1}, "body.listing_hours"),
        ({"listing_hours": 1e9}, "listing_hours"),
        ({"other": 1}, "body.other"),
    ],
    ids=str,
)
def test_what_is_no_question_is_refused(client: TestClient, asked: dict[str, Any], key: str) -> None:
    answer = client.post("/api/v1/bid-plans", json={"lots": ["x"]} | PLENTY | asked)
    assert answer.status_code == 422, answer.text
    assert [one["key"] for one in answer.json()["errors"]] == [key]


def test_another_shops_lot_is_not_found_and_a_lot_without_an_evaluation_is_named(world: World, shop: Shop) -> None:
    theirs = fill(world, world.shop("theirs")).lot_id
    client = world.client(shop)
    assert ask(client, [theirs], 404)["status"] == 404
    waiting = client.post("/api/v1/lots", files={"manifest": ("m.csv", manifest())}, data={"name": "Waits"})
    assert "Not valued yet: Waits" in ask(client, [waiting.json()["lot"]["id"]], 409)["detail"]


def test_draws_that_cannot_be_read_are_said(world: World, shop: Shop) -> None:
    lot_id = fill(world, shop).lot_id
    assert "value" in ask(world.client(shop), [lot_id], 409)["detail"].lower()


def test_a_page_shows_the_plan_first_then_what_was_left_out(
    world: World, browser: TestClient, client: TestClient
) -> None:
    small, large = lot(world, client, 3), lot(world, client, 8)
    empty = said(browser, "/bid-plan")
    assert "Lots to choose from" in empty
    assert "Bid on" not in empty
    assert "Plan bids on several lots" in said(browser, "/")
    due = {one["id"]: float(one["cash_out"]) for one in ask(client, [small, large])["lots"]}
    page = said(browser, f"/bid-plan?lot={small}&lot={large}&cash={due[large] + 1:.2f}&hours=500")
    order = ["Bid on 1 of 2 lots and pay at most", "Lot of 8", "All of them together", "Left out", "Lot of 3",
             "Before you bid", "Plan anew"]  # fmt: skip
    assert [page.index(part) for part in order] == sorted(page.index(part) for part in order)
    assert "more cash than there is" in page
    both = said(browser, f"/bid-plan?lot={small}&lot={large}&cash=$100,000&hours=500")
    assert "Bid on 2 of 2 lots" in both
    assert re.search(r"range is 1\.\d times as wide as for lots that have nothing in common", both)


def test_a_page_says_what_to_mend(world: World, browser: TestClient, client: TestClient) -> None:
    one = lot(world, client, 4)
    answer = browser.get(f"/bid-plan?lot={one}&cash=much&hours=")
    assert answer.status_code == 422
    page = words(answer.text)
    assert "Nothing was planned yet. Say how much cash there is" in page
    assert "Say how many hours you have" in page
    assert "Choose at least one lot" in words(browser.get("/bid-plan?cash=100&hours=4").text)
    assert browser.get(f"/bid-plan?lot={'0' * 20}&cash=1&hours=1").status_code == 404


def test_a_page_values_lots_again_alike(world: World, browser: TestClient, client: TestClient) -> None:
    odd, newest = lot(world, client, 3, seed="7"), lot(world, client, 4)
    query = f"lot={odd}&lot={newest}&cash=100000&hours=500"
    page = said(browser, f"/bid-plan?{query}")
    assert "1 lot differs from the others." in page
    assert "drawn with other random numbers" in page
    form = {"lots": f"{odd} {newest}", "cash": "100000", "hours": "500"}
    assert send(browser, "/bid-plan/evaluations", form) == f"/bid-plan?{query}"
    assert "2 lots are being valued again." in said(browser, f"/bid-plan?{query}"), "all of them as of today"
    work_off(world)
    assert {evaluation(client, one)["as_of"] for one in (odd, newest)} == {str(local_date("UTC"))}
    assert {evaluation(client, one)["seed"] for one in (odd, newest)} == {1}
    assert "Bid on 2 of 2 lots" in said(browser, f"/bid-plan?{query}")
    assert re.search(r'value="100000"', browser.get(f"/bid-plan?{query}").text)


def test_lots_of_different_days_are_valued_again_for_today(
    world: World, browser: TestClient, client: TestClient
) -> None:
    today = str(local_date("UTC"))
    old, newest = lot(world, client, 3), lot(world, client, 4, as_of=today)
    refused = ask(client, [old, newest], 409)
    day = day_in_words(local_date("UTC"))
    assert refused["errors"] == [{"key": old, "detail": f"worked out for 1 Jul 2026, others for {day}"}]
    before = evaluation(client, newest)
    send(browser, "/bid-plan/evaluations", {"lots": f"{old} {newest}", "cash": "100000", "hours": "500"})
    work_off(world)
    assert evaluation(client, old)["as_of"] == today
    assert evaluation(client, newest) == before, "the one of today stays"
    assert len(ask(client, [old, newest])["lots"]) == 2


def test_a_page_says_that_bidding_has_ended_for_a_chosen_lot(
    world: World, browser: TestClient, client: TestClient
) -> None:
    over = lot(world, client, 3, settings='{"lot": {"closes_at": "2026-07-02T18:00:00Z"}}')
    still = lot(world, client, 4)
    opened = browser.get("/bid-plan").text
    assert re.findall(r'name="lot" value="(\w+)" checked', opened) == [still], "what is over is not ticked"
    assert "Bidding has ended" not in words(opened)
    page = said(browser, f"/bid-plan?lot={over}&lot={still}&cash=100000&hours=500")
    assert "Bidding has ended for Lot of 3." in page
