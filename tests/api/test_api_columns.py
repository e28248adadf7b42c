"""Columns that are asked about: the question in the API and on the page, the answer, and whose it is."""

import re
from typing import Any

import pytest
from api_world import Shop, World
from page_reading import send, words
from starlette.testclient import TestClient

from models.services.do_next_job import do_next_job
from models.store.states import Queue

MANIFEST = b"Item,Qty,Price,Buyer city\nBlue glass mug,2,12.99,Springfield\nDesk lamp with shade,1,45.00,Shelbyville\n"
NEXT_MANIFEST = MANIFEST.replace(b"12.99", b"13.50")


@pytest.fixture
def shop(world: World) -> Shop:
    return world.shop("heron")


@pytest.fixture
def browser(world: World, shop: Shop) -> TestClient:
    return world.browser(shop)


def work_off(world: World) -> None:
    while any(do_next_job(world.store, queue, world.wakes) for queue in Queue):
        pass


def sent(world: World, shop: Shop, content: bytes = MANIFEST) -> dict[str, Any]:
    client = world.client(shop)
    made = client.post("/api/v1/lots", files={"manifest": ("m.csv", content)}).json()["lot"]
    work_off(world)
    lot: dict[str, Any] = client.get(f"/api/v1/lots/{made['id']}").json()
    return lot


def test_the_question_stands_in_the_lot_with_cells_of_the_file(world: World, shop: Shop) -> None:
    lot = sent(world, shop)
    assert (lot["state"], lot["file"]["missing"]) == ("needs_columns", ["tag_each"])
    (question,) = lot["file"]["questions"]
    assert (question["key"], question["guess"], question["examples"]) == ("tag_each", "Price", ["12.99", "45.00"])
    assert 0.5 < question["confidence"] < 0.9
    none = {"value": "-", "words": "none of them: the file has no price tag of one unit", "samples": []}
    assert none in question["choices"]
    assert ("Price", ["12.99", "45.00"]) in [(one["value"], one["samples"]) for one in question["choices"]]
    assert lot["file"]["found"] == {"description": "Item", "quantity": "Qty"}
    assert "Springfield" not in str(lot), "cells about people are shown to nobody"


def test_a_mapping_answers_and_holds_for_the_next_file_of_this_shop_alone(world: World, shop: Shop) -> None:
    lot, client = sent(world, shop), world.client(shop)
    assert client.put(f"/api/v1/lots/{lot['id']}/mapping", json={"tag_each": "Price"}).status_code == 202
    work_off(world)
    read = client.get(f"/api/v1/lots/{lot['id']}").json()
    assert (read["state"], read["file"]["questions"], read["tag_total"]) == ("needs_model", [], "70.98")
    assert read["file"]["confidence"]["tag_each"] == 1
    assert 0.9 < read["file"]["confidence"]["description"] < 1
    assert sent(world, shop, NEXT_MANIFEST)["tag_total"] == "72.00"
    assert sent(world, world.shop("stork"), NEXT_MANIFEST)["state"] == "needs_columns"


@pytest.mark.parametrize(
    ("mapping", "fault"),
    [
        ({"tag_each": "Preis"}, "no heading"),
        ({"tag_is": "box"}, "must be one of"),
        ({"colour": "Price"}, "no such column"),
        ({"tag_each": ""}, "must name a header"),
        ({"tag_each": "Price", "quantity": " price"}, "quantity: 'price' is named for another column, too"),
    ],
)
def test_what_does_not_answer_is_refused(world: World, shop: Shop, mapping: dict[str, str], fault: str) -> None:
    lot, client = sent(world, shop), world.client(shop)
    answer = client.put(f"/api/v1/lots/{lot['id']}/mapping", json=mapping)
    assert answer.status_code == 422
    assert fault in answer.text
    assert client.get(f"/api/v1/lots/{lot['id']}").json()["state"] == "needs_columns"


def test_the_page_asks_in_words_with_examples_and_our_guess(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop)
    text = browser.get(f"/lots/{lot['id']}").text
    said = words(text)
    assert "One question first" in said
    assert "Which column is the price tag of one unit" in said
    assert "Our guess, which is not sure: Price." in said
    guess = '<input type="radio" name="column-tag_each" value="Price" required checked><span><b>Price</b>'
    assert guess in text
    assert 'value="-" required><span>none of them: the file has no price tag of one unit</span>' in text
    assert "Springfield" not in text
    assert "tag_each" not in said, "no name of ours where a person reads"
    address = f"/lots/{lot['id']}"
    form = {"column-tag_each": "Price", "column-description": "Item", "column-brand": ""}
    assert send(browser, f"{address}/columns", form) == address
    work_off(world)
    read = world.client(shop).get(f"/api/v1/lots/{lot['id']}").json()
    assert read["tag_total"] == "70.98"


def test_many_columns_become_a_list_to_choose_from(world: World, shop: Shop, browser: TestClient) -> None:
    more = [f"zz{letter}" for letter in "abcdefgh"]
    prices = [f"{number}.25" for number in range(1, 9)]
    rows = [["Item", "Price", *more], ["Blue mug", "12.99", *prices], ["Desk lamp", "45.00", *prices]]
    lot = sent(world, shop, "\n".join(map(",".join, rows)).encode())
    text = browser.get(f"/lots/{lot['id']}").text
    assert '<option value="Price" selected>Price: 12.99, 45.00</option>' in text
    assert '<option value="zzh">zzh: 8.25</option>' in text


def test_none_of_them_is_an_answer_that_the_page_shows_again(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop)
    send(browser, f"/lots/{lot['id']}/columns", {"column-tag_each": "-"})
    work_off(world)
    assert world.client(shop).get(f"/api/v1/lots/{lot['id']}").json()["file"]["mapping"]["tag_each"] == "-"
    text = browser.get(f"/lots/{lot['id']}").text
    field = text[text.index('id="column-tag_each"') :]
    assert re.search(r'<option value="-" selected>the file has none</option>', field[: field.index("</select>")])


def test_a_number_typed_beside_a_question_is_the_answer(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop, b"Description,Quantity,MSRP\nBlue mug,4 CS,10\nLamp,2 CS,20\nDrill,3 CS,30\n")
    (question,) = lot["file"]["questions"]
    assert (question["key"], question["number"]) == ("quantity_is", True)
    assert 'id="number-quantity_is"' in browser.get(f"/lots/{lot['id']}").text
    form = {"column-quantity_is": "", "number-quantity_is": "12"}
    send(browser, f"/lots/{lot['id']}/columns", form)
    work_off(world)
    assert world.client(shop).get(f"/api/v1/lots/{lot['id']}").json()["units"] == 108
    assert "A quantity counts" in words(browser.get(f"/lots/{lot['id']}").text)


CASES = b"Description,Quantity,MSRP,Cond\nBlue mug,4 CS,10,B\nLamp,2 CS,20,A\nDrill,3 CS,30,B\n"


def answered(browser: TestClient, address: str, **answers: str) -> tuple[int, str]:
    found = re.search(r'name="csrf" content="(\w+)"', browser.get("/").text)
    assert found is not None
    answer = browser.post(f"{address}/columns", data={"csrf": found[1], **answers})
    return answer.status_code, answer.text


def test_the_page_names_the_file_once(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop)
    before = words(browser.get(f"/lots/{lot['id']}").text).partition("One question first")[0]
    assert before.count("m.csv") == 2, "in the title and the heading"


def test_what_is_missing_is_said_and_what_was_chosen_is_kept(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop, CASES)
    address = f"/lots/{lot['id']}"
    status, page = answered(browser, address, **{"column-condition:B": "works", "column-sku": "MSRP"})
    assert status == 422
    assert "Not taken yet: 2 answers are missing or unclear." in words(page)
    assert re.search(r'<a href="#ask-1">Does &#39;Quantity&#39; count units', page)
    assert '<option value="works" selected>' in page
    assert words(page).count("Choose one of these") == 2
    field = page[page.index('id="column-sku"') :]
    assert "<option selected>MSRP</option>" in field[: field.index("</select>")]
    assert world.client(shop).get(f"/api/v1{address}").json()["state"] == "needs_columns"


def test_a_choice_and_a_number_at_once_are_asked_about(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop, CASES)
    answers = {"column-quantity_is": "units", "number-quantity_is": "12"}
    answers |= {"column-condition:A": "works", "column-condition:B": "works"}
    status, page = answered(browser, f"/lots/{lot['id']}", **answers)
    assert status == 422
    assert "keep one of them" in words(page)
    assert 'value="12" inputmode="numeric"' in page


def test_a_number_that_cannot_be_is_asked_again_beside_its_field(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop, CASES)
    answers = {"column-quantity_is": "", "number-quantity_is": "0"}
    answers |= {"column-condition:A": "works", "column-condition:B": "works"}
    status, page = answered(browser, f"/lots/{lot['id']}", **answers)
    assert status == 422
    assert "Say units or how many." in words(page)
    assert page.count('<option value="works" selected>') == 2


def test_cells_stand_beside_each_choice_and_goods_beside_a_grade(world: World, shop: Shop, browser: TestClient) -> None:
    page = browser.get(f"/lots/{sent(world, shop)['id']}").text
    assert '<b>Price</b><span class="samples"><span>12.99</span><span>45.00</span></span>' in page
    lot = sent(world, shop, CASES)
    told = {one["key"]: one["examples"] for one in lot["file"]["questions"]}
    assert told["condition:B"] == ["Blue mug", "Drill"]
    assert "In the file: Blue mug · Drill." in words(browser.get(f"/lots/{lot['id']}").text)


def test_a_history_asks_again_in_the_same_way(world: World, shop: Shop, browser: TestClient) -> None:
    rows = b"Item,Amount,Total,Sale date\nMug,12.00,14.00,13/04/2026\nLamp,40.00,44.00,25/04/2026\n"
    made = world.client(shop).post("/api/v1/sales/imports", files={"file": ("o.csv", rows)}).json()["import"]
    work_off(world)
    status, page = answered(browser, f"/history/imports/{made['id']}")
    assert (status, "Choose one of these." in words(page)) == (422, True)
    assert "checked" not in page, "our guess was not chosen, and is not put back"


def test_all_questions_of_a_file_are_asked_at_once(world: World, shop: Shop, browser: TestClient) -> None:
    content = b"Item,Cases,Price,Grade\nBlue glass mug,2,12.99,A\nDesk lamp,1,45.00,B\n"
    lot = sent(world, shop, content)
    assert lot["file"]["missing"] == ["tag_each", "quantity_is", "condition:A", "condition:B"]
    text = browser.get(f"/lots/{lot['id']}").text
    assert all(f'name="column-{key}"' in text for key in lot["file"]["missing"])
    answers = {"tag_each": "Price", "quantity_is": "12", "condition:A": "opened", "condition:B": "worn"}
    assert world.client(shop).put(f"/api/v1/lots/{lot['id']}/mapping", json=answers).status_code == 202
    work_off(world)
    read = world.client(shop).get(f"/api/v1/lots/{lot['id']}").json()
    assert (read["state"], read["units"], read["tag_total"]) == ("needs_model", 36, "851.76")


def test_a_mapping_sent_along_with_a_heading_the_file_lacks_is_asked_about(world: World, shop: Shop) -> None:
    client = world.client(shop)
    form = {"mapping": '{"description": "Nope", "tag_each": "Price"}'}
    made = client.post("/api/v1/lots", files={"manifest": ("m.csv", MANIFEST)}, data=form).json()["lot"]
    work_off(world)
    lot = client.get(f"/api/v1/lots/{made['id']}").json()
    assert (lot["state"], lot["file"]["missing"]) == ("needs_columns", ["description"])
    (question,) = lot["file"]["questions"]
    assert "no column 'Nope'" in question["words"]
    assert [choice["value"] for choice in question["choices"]] == ["Item", "Qty", "Price", "Buyer city"]
    assert client.put(f"/api/v1/lots/{lot['id']}/mapping", json={"description": "Item"}).status_code == 202
    work_off(world)
    assert client.get(f"/api/v1/lots/{lot['id']}").json()["tag_total"] == "70.98"


def test_a_blank_cell_is_shown_as_blank(world: World, shop: Shop, browser: TestClient) -> None:
    lot = sent(world, shop, b"Item,Qty,MSRP\nBlue glass mug,,12.99\nDesk lamp,1,45.00\n")
    assert "(blank) no quantity counted as 1" in words(browser.get(f"/lots/{lot['id']}/problems").text)


def test_a_lot_says_which_answers_it_was_read_with_and_where_to_change_them(
    world: World, shop: Shop, browser: TestClient
) -> None:
    lot, client = sent(world, shop), world.client(shop)
    client.put(f"/api/v1/lots/{lot['id']}/mapping", json={"tag_line": "Price"})
    work_off(world)
    assert client.get(f"/api/v1/lots/{lot['id']}").json()["file"]["remembered"] == {}
    again = sent(world, shop, NEXT_MANIFEST)
    assert again["file"]["remembered"] == {"tag_line": "Price"}
    what = again["file"]["cautions"][0]["what"]
    day = r"Read with your answers of \d+ \w{3} \d{4} for files with these headers: "
    assert re.fullmatch(day + r"'Price' is the tag of the whole line\.", what)
    text = browser.get(f"/lots/{again['id']}").text
    assert what in words(text)
    assert '<a href="#columns">Change it</a>' in text
    assert '<details id="columns" open>' in text


def test_a_history_says_so_too_and_what_all_files_leave_unsaid_stands_once(
    world: World, shop: Shop, browser: TestClient
) -> None:
    client, files = world.client(shop), []
    for price in ("12.50", "14.50"):
        content = f"Was,Erloes\nLot of 5 mugs,{price}\nBowl of glass,9.00\n".encode()
        made = client.post("/api/v1/sales/imports", files={"file": ("s.csv", content)}).json()["import"]
        work_off(world)
        if not files:
            said = {"title": "Was", "sold_price": "Erloes"}
            client.put(f"/api/v1/sales/imports/{made['id']}/mapping", json=said)
            work_off(world)
        files.append(made["id"])
    page = browser.get(f"/history/imports/{files[1]}").text
    assert "Read with your answers of" in words(page)
    assert '<a href="#columns">Change it</a>' in page
    assert "several things as one" not in page
    assert words(browser.get("/history").text).count("several things as one") == 1


def test_how_a_files_goods_came_in_is_said_once_under_its_columns(
    world: World, shop: Shop, browser: TestClient
) -> None:
    content = b"title,sold_price,sold_on\nBlue mug,8.00,2026-03-01\n"
    made = world.client(shop).post("/api/v1/sales/imports", files={"file": ("s.csv", content)}).json()["import"]
    work_off(world)
    page = browser.get(f"/history/imports/{made['id']}").text
    assert 'name="column-sourced_is"' in page
    assert "selected>bulk lots" not in page
    chosen = {"column-title": "title", "column-sold_price": "sold_price"}
    send(browser, f"/history/imports/{made['id']}/columns", chosen | {"column-sourced_is": "bulk"})
    work_off(world)
    assert "selected>bulk lots" in browser.get(f"/history/imports/{made['id']}").text
    told = world.client(shop).get(f"/api/v1/sales/imports/{made['id']}").json()
    assert told["file"]["mapping"]["sourced_is"] == "bulk"
