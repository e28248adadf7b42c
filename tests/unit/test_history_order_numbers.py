"""Order numbers restart, and two channels count alike: no sale is lost, and none comes back that was cancelled."""

import itertools

import pytest

from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history

HEAD = "Order,Item,Sold price,Sold on\n"
JANUARY = HEAD + "1,Brass lamp,20,2026-01-15\n2,Wool rug,30,2026-01-16\n3,Vase,9,2026-01-17\n"
FEBRUARY = HEAD + "1,Oak desk,40,2026-02-15\n2,Tin pan,10,2026-02-16\n"


def together(*texts: str) -> ReadHistory:
    files = [(f"{n}.csv", read_history(text.encode(), f"{n}.csv", {}, "USD")) for n, text in enumerate(texts)]
    return histories_together(files)


def told(*texts: str) -> list[tuple[str, float]]:
    sales = together(*texts).sales
    return sorted(zip(sales.title, sales.sold_price.tolist(), strict=True))


FIVE = [("Brass lamp", 2000), ("Oak desk", 4000), ("Tin pan", 1000), ("Vase", 900), ("Wool rug", 3000)]


@pytest.mark.parametrize("files", list(itertools.permutations((JANUARY, FEBRUARY, JANUARY))))
def test_numbers_that_restart_lose_no_sale(files: tuple[str, ...]) -> None:
    assert told(*files) == FIVE
    assert any("2 (1, 2)" in caution.what for caution in together(*files).cautions)


def test_two_channels_that_count_alike() -> None:
    one = HEAD + "7,Blue vase,20,2026-01-10\n8,Red vase,22,2026-01-12\n9,Jug,5,2026-01-13\n"
    other = HEAD + "7,Oak stool,40,2026-01-11\n8,Red vase,25,2026-01-14\n9,Mat,6,2026-01-13\n"
    assert len(told(one, other)) == 6
    assert len(told(HEAD + "8,Red vase,22,2026-01-12\n", HEAD + "8,Red vase,25,2026-03-12\n")) == 2
    with_place = "Order,Item,Sold price,Sold on,Channel\n8,Red vase,22,2026-01-12,"
    assert len(told(with_place + "Stall\n", with_place + "Web\n")) == 2


def test_what_one_order_says_twice_is_one_sale() -> None:
    for correction in (
        "1,Brass lamp,19,2026-01-15\n",  # another price
        "1,Brass lamp,20,2026-01-19\n",  # the day it was sent
        "1,Lamp brass large,19,2026-01-15\n",  # another title and price
        "1,Messinglampe,20,2026-01-16\n",  # another language, another time zone
    ):
        assert len(told(JANUARY, HEAD + correction)) == 3, correction
    assert not any("two files" in one.what for one in together(JANUARY, HEAD + "1,Brass lamp,19,2026-01-15\n").cautions)


def test_days_that_agree_number_by_number_make_one_series() -> None:
    bare = HEAD + "1,Messinglampe,24,2026-01-15\n2,Wollteppich,33,2026-01-16\n3,Glas,9.5,2026-01-17\n"
    assert len(told(JANUARY, bare)) == 3
    one_day = "1,Brass lamp,20,2026-01-15\n2,Wool rug,30,2026-01-15\n3,Vase,9,2026-01-15\n"
    other_stall = "1,Oak desk,40,2026-01-15\n2,Tin pan,10,2026-01-15\n3,Jug,7,2026-01-15\n"
    assert len(told(HEAD + one_day, HEAD + other_stall)) == 6


def test_a_fee_is_of_the_order_before_it() -> None:
    fees = "Order number,Type,Amount,Date\n1,Selling fee,2.00,2026-01-16\n1,Selling fee,4.00,2026-02-15\n"
    done = together(JANUARY, FEBRUARY, fees)
    fee = dict(zip(done.sales.title, done.sales.fees.tolist(), strict=True))
    assert (fee["Brass lamp"], fee["Oak desk"]) == (200, 400)
    unclear = together(JANUARY, FEBRUARY, "Order number,Type,Amount\n1,Selling fee,2.00\n")
    assert not (unclear.sales.fees > 0).any()
    assert any("order 1, which several sales have" in caution.what for caution in unclear.cautions)


def test_a_cancellation_undoes_its_own_order_alone() -> None:
    status = "Order,Item,Sold price,Sold on,Status\n"
    assert len(told(JANUARY, status + "1,Oak desk,40,2026-02-15,Cancelled\n")) == 3
    assert len(told(JANUARY, status + "1,Brass lamp,20,2026-01-15,Cancelled\n")) == 2


def test_an_old_file_given_again_revives_no_cancelled_sale() -> None:
    status = "Order,Item,Sold price,Sold on,Status\n"
    old = status + "P-1,Blue vase,20,2026-01-10,Paid\nP-2,Red vase,22,2026-02-10,Paid\n"
    new = status + "P-2,Red vase,22,2026-02-10,Cancelled\nP-3,Jar,12,2026-03-10,Paid\n"
    cancelled = status + "P-2,Red vase,22,2026-02-10,Cancelled\n"
    left = [("Blue vase", 2000), ("Jar", 1200)]
    for files in ((old, new, old), (new, old), (old, new)):
        assert told(*files) == left
    assert told(old, cancelled, old) == left[:1]
    assert any("1 (P-2)" in caution.what for caution in together(old, new, old).cautions)
    paid = new.replace("Cancelled", "Paid") + "P-4,Cup,3,2026-03-11,Paid\n"
    assert len(told(old, new, paid)) == 4


GRADED = "Order,Item,SKU,Condition,Sold price,Sold on\n"
STALL = GRADED + "1,Lamp,L-1,New,20,2026-01-15\n2,Rug,R-1,Used - good,30,2026-01-16\n3,Vase,V-1,New,9,2026-01-17\n"


@pytest.mark.parametrize("line", ["1,Lamp,L-1,Open box,20,2026-01-15", "1,Lamp,L-9,For parts,20,2026-01-15"])
def test_a_line_whose_condition_or_sku_is_put_right_stays_one_sale(line: str) -> None:
    later = STALL.replace("1,Lamp,L-1,New,20,2026-01-15", line)
    for files in ((STALL, later), (later, STALL), (STALL, later, STALL), (STALL, later, later)):
        read = together(*files)
        last = read.sales.condition.tolist()[0], read.sales.sku.tolist()[0]
        alone = together(files[-1]).sales
        assert last == (alone.condition[0], alone.sku[0]), files
        assert len(read.sales) == 3
        assert not any("Order numbers that two files" in caution.what for caution in read.cautions)


def test_lines_of_one_order_with_the_same_words_stay_apart() -> None:
    both = STALL + "1,Lamp,L-2,Used - good,14,2026-01-15\n"
    assert len(told(STALL, both)) == len(told(both, STALL)) == len(told(both, STALL, both)) == 4
    unlike = GRADED + "1,Lamp,L-3,Open box,20,2026-01-15\n1,Lamp,L-4,For parts,14,2026-01-15\n"
    assert len(told(both, unlike)) == 6  # which of two became which is not told


def test_the_same_words_on_one_day_of_two_stalls_are_two_sales() -> None:
    other = GRADED + "1,Lamp,M-1,Open box,25,2026-01-15\n2,Desk,D-1,New,70,2026-02-16\n3,Jug,J-1,New,6,2026-02-17\n"
    assert len(told(STALL, other)) == 6
