"""How far the seller means to bid: stamped with its time; going higher later shows what it adds and takes a reason."""

import datetime as dt
import re
from typing import Any

import pytest
from api_world import Shop, World
from full_shop import fill
from page_reading import said, send, words
from real_lot import real_lot, work_off
from starlette.testclient import TestClient

from models.services.clock import utc_now

KEY = {"idempotency-key": "k-1"}


@pytest.fixture
def client(world: World, shop: Shop) -> TestClient:
    return world.client(shop)


@pytest.fixture
def lot(world: World, shop: Shop) -> str:
    """The address of a lot whose ceiling is 720.00 and whose draws cannot be read."""
    return f"/lots/{fill(world, shop).lot_id}"


def fix(client: TestClient, lot: str, status: int = 201, **asked: Any) -> Any:
    answer = client.post(f"/api/v1{lot}/ceiling", json=asked)
    assert answer.status_code == status, answer.text
    return answer.json()


def test_a_first_ceiling_is_stamped(client: TestClient, shop: Shop, lot: str) -> None:
    assert client.get(f"/api/v1{lot}").json()["fixed_ceiling"] is None
    before = utc_now() - dt.timedelta(seconds=5)
    made = fix(client, lot, amount="700.00")
    assert before < dt.datetime.fromisoformat(made["fixed_at"]) < utc_now() + dt.timedelta(seconds=5)
    assert dt.datetime.fromisoformat(made["fixed_at"]).utcoffset() == dt.timedelta(0)
    del made["fixed_at"]
    assert made == {
        "number": 1, "amount": "700.00", "evaluation_number": 1, "evaluation_ceiling": "720.00", "reason": None,
        "adds": None, "fixed_by": shop.email, "token": "test",
    }  # fmt: skip
    kept = client.get(f"/api/v1{lot}").json()["fixed_ceiling"]
    assert (kept["number"], kept["amount"]) == (1, "700.00")
    assert client.get("/api/v1/lots").json()["items"][0]["fixed_ceiling"] == kept


def test_lowering_takes_no_reason_and_everything_stays_on_record(client: TestClient, lot: str) -> None:
    for amount in ("720", 650, 640, "600.5"):
        fix(client, lot, amount=amount)
    listed = client.get(f"/api/v1{lot}/ceilings?limit=3").json()
    assert [(one["number"], one["amount"]) for one in listed["items"]] == [
        (4, "600.50"), (3, "640.00"), (2, "650.00"),
    ]  # fmt: skip
    rest = client.get(f"/api/v1{lot}/ceilings?limit=3&cursor={listed['next']}").json()
    assert ([one["number"] for one in rest["items"]], rest["next"]) == ([1], None)
    assert client.get(f"/api/v1{lot}").json()["fixed_ceiling"]["amount"] == "600.50"
    assert client.get(f"/api/v1{lot}/ceilings?cursor=x").status_code == 422


@pytest.mark.parametrize("amount", ["0", "-5", "nan", "Infinity", "", "dear", "1e12", "700.005", 1e-9])
def test_an_amount_is_positive_and_has_the_currencys_digits(client: TestClient, lot: str, amount: Any) -> None:
    problem = fix(client, lot, 422, amount=amount)
    assert [one["key"] for one in problem["errors"]] == ["amount"]
    assert client.get(f"/api/v1{lot}/ceilings").json()["items"] == []


@pytest.mark.parametrize("body", [{}, {"amount": None}, {"amount": True}, {"amount": "1", "why": "x"}])
def test_what_is_no_ceiling_at_all_is_refused(client: TestClient, lot: str, body: dict[str, Any]) -> None:
    assert client.post(f"/api/v1{lot}/ceiling", json=body).status_code == 422


def test_a_reason_is_kept_whole_or_refused(client: TestClient, lot: str) -> None:
    problem = fix(client, lot, 422, amount="700", reason="x" * 501)
    assert problem["errors"] == [{"key": "reason", "detail": "at most 500 characters"}]
    assert fix(client, lot, amount="700", reason="x" * 500)["reason"] == "x" * 500


def test_sent_twice_is_fixed_once(client: TestClient, lot: str) -> None:
    first, again = (client.post(f"/api/v1{lot}/ceiling", json={"amount": "700"}, headers=KEY) for _ in range(2))
    assert (first.status_code, again.status_code) == (201, 201)
    assert first.json() == again.json()
    assert len(client.get(f"/api/v1{lot}/ceilings").json()["items"]) == 1
    assert client.post(f"/api/v1{lot}/ceiling", json={"amount": "600"}, headers=KEY).status_code == 409


def test_a_lot_without_an_evaluation_has_no_ceiling_to_fix(client: TestClient) -> None:
    made = client.post("/api/v1/lots", files={"manifest": ("m.csv", b"description\nLamp\n")}).json()
    fix(client, f"/lots/{made['lot']['id']}", 409, amount="10")


def test_draws_of_an_earlier_version_must_be_drawn_anew_before_going_higher(client: TestClient, lot: str) -> None:
    assert "evaluate it again" in fix(client, lot, 409, amount="721", reason="I know these")["detail"]


@pytest.fixture
def real(world: World, shop: Shop) -> str:
    return f"/lots/{real_lot(world, shop)}"


def point(client: TestClient, lot: str, bid: float) -> dict[str, Any]:
    """What the evaluation's own bid curve says at one of its bids."""
    curve = client.get(f"/api/v1{lot}/evaluation").json()["bid_curve"]
    return next(one for one in curve if float(one["bid"]) == bid)


def test_going_higher_says_what_it_adds_and_takes_a_reason(client: TestClient, real: str) -> None:
    evaluation = client.get(f"/api/v1{real}/evaluation").json()
    ceiling = float(evaluation["bid_ceiling"]["amount"])
    bids = [float(one["bid"]) for one in evaluation["bid_curve"]]
    high = min(bid for bid in bids if bid > ceiling)
    problem = fix(client, real, 422, amount=high)
    assert (problem["code"], [one["key"] for one in problem["errors"]]) == ("needs_reason", ["reason"])
    low_point, high_point, adds = point(client, real, ceiling), point(client, real, high), problem["adds"]
    for end, told in (("from", low_point), ("to", high_point)):
        assert adds[end]["amount"] == told["bid"]
        assert adds[end]["cash_out"] == told["cash_out"]
        assert adds[end]["chance_of_cash_loss"] == told["chance_of_cash_loss"]
        assert adds[end]["expected_profit"] == told["expected_profit"]
        assert adds[end]["return_on_cash"] == told["return_on_cash"]
    more_paid = float(high_point["cash_out"]) - float(low_point["cash_out"])
    more_lost = float(adds["extra"]["expected_loss"])
    assert float(adds["extra"]["cash_out"]) == pytest.approx(more_paid, abs=0.001)
    assert adds["extra"]["chance_of_cash_loss"] == pytest.approx(
        high_point["chance_of_cash_loss"] - low_point["chance_of_cash_loss"], abs=2e-6
    )
    # d E[(C - V)+] = P(V < C) dC: the extra lies between both chances times what more is paid
    assert more_paid * low_point["chance_of_cash_loss"] - 0.02 <= more_lost
    assert more_lost <= more_paid * high_point["chance_of_cash_loss"] + 0.02
    assert "above the ceiling of this evaluation" in problem["detail"]
    assert client.get(f"/api/v1{real}/ceilings").json()["items"] == [], "asked, not done"
    assert fix(client, real, 422, amount=high, reason=" \n ")["adds"] == adds, "a blank is no reason"
    made = fix(client, real, amount=high, reason=" My cousin\nwants  two. ")
    assert (made["reason"], made["adds"]) == ("My cousin wants two.", adds)


def test_going_above_what_was_fixed_takes_a_reason_even_below_the_ceiling(client: TestClient, real: str) -> None:
    ceiling = float(client.get(f"/api/v1{real}/evaluation").json()["bid_ceiling"]["amount"])
    fix(client, real, amount=ceiling - 20)
    problem = fix(client, real, 422, amount=ceiling - 10)
    assert "above the ceiling that you fixed last" in problem["detail"]
    assert float(problem["adds"]["from"]["amount"]) == ceiling - 20
    fix(client, real, amount=ceiling - 10, reason="Seen it")
    fix(client, real, amount=ceiling - 30)
    listed = client.get(f"/api/v1{real}/ceilings").json()["items"]
    assert [one["reason"] for one in listed] == [None, "Seen it", None]


def test_a_newer_evaluation_that_says_less_is_gone_above_with_a_reason_only(
    world: World, client: TestClient, real: str
) -> None:
    own = float(client.get(f"/api/v1{real}/evaluation").json()["bid_ceiling"]["amount"])
    fix(client, real, amount=own)
    dearer = {"settings": {"buying": {"premium": 0.5}}}
    assert client.post(f"/api/v1{real}/evaluations", json=dearer).status_code == 202
    work_off(world)
    less = float(client.get(f"/api/v1{real}/evaluation").json()["bid_ceiling"]["amount"])
    assert 2 < less < own - 2
    problem = fix(client, real, 422, amount=own - 1)
    assert "above the ceiling of this evaluation" in problem["detail"]
    assert (problem["adds"]["above"], float(problem["adds"]["from"]["amount"])) == ("evaluation", less)
    fix(client, real, amount=own - 1, reason="All the same")
    fix(client, real, amount=own - 2)
    assert fix(client, real, 422, amount=own)["adds"]["above"] == "fixed"
    fix(client, real, amount=less)


def test_a_pass_is_compared_with_not_buying(world: World, client: TestClient, real: str) -> None:
    never = {"settings": {"goals": {"return_on_cash": 90}}}
    assert client.post(f"/api/v1{real}/evaluations", json=never).status_code == 202
    work_off(world)
    assert client.get(f"/api/v1{real}/evaluation").json()["bid_ceiling"]["verdict"] == "pass"
    adds = fix(client, real, 422, amount="50")["adds"]
    nothing = {"amount": "0.00", "cash_out": "0.00", "chance_of_cash_loss": 0.0, "expected_loss": "0.00"}
    assert adds["from"] == nothing | {"expected_profit": "0.00", "return_on_cash": None}
    names = ("cash_out", "chance_of_cash_loss", "expected_loss", "expected_profit")
    assert adds["extra"] == {name: adds["to"][name] for name in names}
    assert "expected_return" in adds["breaks"]
    assert adds["asked_return"] == 90


def test_the_page_fixes_and_says_when(browser: TestClient, world: World, shop: Shop, lot: str) -> None:
    page = browser.get(lot).text
    assert re.search(r'name="amount" value="720.00"', page), "prefilled with the ceiling"
    assert words(page).index("Bid up to") < words(page).index("Fix this ceiling")
    assert send(browser, f"{lot}/ceiling", {"amount": "$700"}) == f"{lot}#fixed"
    told = said(browser, lot)
    assert re.search(r"Fixed at \$700 on \w{3} \d+ \w{3} \d{4}, \d\d:\d\d UTC", told)
    assert "by the program" not in told
    assert "Every time it was fixed" not in told
    send(browser, f"{lot}/ceiling", {"amount": "650"})
    assert re.search(r"Every time it was fixed .*650.00 .*700.00", said(browser, lot))
    stamp = world.client(shop).get(f"/api/v1{lot}").json()["fixed_ceiling"]
    assert (stamp["fixed_by"], stamp["token"]) == (shop.email, None)


def test_a_typing_slip_comes_back_as_it_was_typed(browser: TestClient, lot: str) -> None:
    answer = browser.post(f"{lot}/ceiling", data=_proof(browser) | {"amount": "7oo<b>"})
    assert answer.status_code == 422
    assert 'name="amount" value="7oo&lt;b&gt;"' in answer.text
    assert "not an amount of money above zero" in words(answer.text)
    assert 'name="reason"' not in answer.text


def test_the_page_asks_for_a_reason_and_shows_what_it_adds(client: TestClient, browser: TestClient, real: str) -> None:
    ceiling = float(client.get(f"/api/v1{real}/evaluation").json()["bid_ceiling"]["amount"])
    typed = {"amount": f"{ceiling + 50:.2f}", "form-key": "drawn-once"}
    answer = browser.post(f"{real}/ceiling", data=_proof(browser) | typed)
    assert answer.status_code == 422
    told = words(answer.text)
    assert "above this ceiling. It is not fixed yet." in told
    assert re.search(
        r"Expected profit falls from \$\d+ to \$\d+, the return from \d+% to \d+%; you ask for 30%\."
        r" It no longer meets how surely your cash must come back\."
        r" The chance of losing cash goes from [\d.]+% to [\d.]+%, and the loss to expect from \$[\d.]+ to \$[\d.]+\.",
        told,
    )
    assert 'name="reason"' in answer.text
    assert f'name="amount" value="{typed["amount"]}"' in answer.text
    data = _proof(browser) | typed | {"reason": "<i>Sure</i> of it"}
    assert [browser.post(f"{real}/ceiling", data=data).status_code for _ in range(2)] == [303, 303]
    assert len(client.get(f"/api/v1{real}/ceilings").json()["items"]) == 1, "a double click fixes once"
    assert "Your reason: <i>Sure</i> of it" in said(browser, real)


def test_a_later_evaluation_says_under_which_one_it_was_fixed(
    world: World, client: TestClient, browser: TestClient, real: str
) -> None:
    fix(client, real, amount="30")
    client.post(f"/api/v1{real}/evaluations", json={"seed": 5})
    work_off(world)
    told = said(browser, real)
    assert "That was under evaluation 1 of this lot; what you see is evaluation 2." in told
    assert "by the program test" in told


def _proof(browser: TestClient) -> dict[str, str]:
    found = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert found is not None
    return {"csrf": found[1]}
