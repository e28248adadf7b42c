"""GS1 General Specifications, section 7.9 (check digit: weights 3, 1, 3, ... from the right), and its UPC-E numbers.

Printed examples: 629104150021 -> 3, 730001100001 -> 7, 890400021003 -> 7; cited and recomputed: 03600029145 -> 2,
9638507 -> 4, 1061414100041 -> 5; UPC-E 04252614 -> 042100005264, 01234565 -> 012345000065.  ISBN (ISO 2108):
030640615 -> 2, 080442957 -> X, 978030640615 -> 7.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.intake.cells.gtin import check_digit, digits_of, expanded_upc_e, is_valid, isbn_13, right_check_digits

BODIES = st.text("0123456789", min_size=7, max_size=13).filter(lambda body: len(body) in (7, 11, 12, 13))


@pytest.mark.parametrize(
    ("body", "digit"),
    [
        ("629104150021", 3),
        ("730001100001", 7),
        ("890400021003", 7),
        ("03600029145", 2),
        ("9638507", 4),
        ("1061414100041", 5),
        ("978030640615", 7),
    ],
)
def test_published_check_digits(body: str, digit: int) -> None:
    assert check_digit(body) == digit
    assert is_valid(f"{body}{digit}")


@pytest.mark.parametrize(("short", "full"), [("04252614", "042100005264"), ("01234565", "012345000065")])
def test_published_upc_e(short: str, full: str) -> None:
    assert expanded_upc_e(short) == full


@pytest.mark.parametrize(
    ("short", "full"),
    [
        ("0120130", "01200000013"),  # last digit 0 to 2: that digit and four zeros
        ("0123453", "01230000045"),  # 3: five zeros before two digits
        ("0123454", "01234000005"),  # 4: five zeros before one digit
        ("0123458", "01234500008"),  # 5 to 9: four zeros before the digit itself
    ],
)
def test_each_way_upc_e_drops_zeros(short: str, full: str) -> None:
    """Bodies without their check digit, which is that of the full number."""
    digit = check_digit(full)
    assert expanded_upc_e(f"{short}{digit}") == f"{full}{digit}"
    assert expanded_upc_e(f"{short}{(digit + 1) % 10}") is None


@pytest.mark.parametrize(("isbn", "full"), [("0306406152", "9780306406157"), ("080442957X", "9780804429573")])
def test_published_isbn(isbn: str, full: str) -> None:
    assert isbn_13(isbn) == full
    assert is_valid(full)


@given(BODIES)
def test_left_zeros_never_change_the_check_digit(body: str) -> None:
    assert check_digit("000" + body) == check_digit(body)


@given(BODIES, st.data())
def test_every_single_digit_error_is_caught(body: str, data: st.DataObject) -> None:
    number = f"{body}{check_digit(body)}"
    place = data.draw(st.integers(0, len(number) - 1))
    wrong = data.draw(st.sampled_from([digit for digit in "0123456789" if digit != number[place]]))
    assert not is_valid(number[:place] + wrong + number[place + 1 :])


@given(BODIES, st.data())
def test_swaps_of_neighbours_are_caught_unless_they_differ_by_five(body: str, data: st.DataObject) -> None:
    number = f"{body}{check_digit(body)}"
    place = data.draw(st.integers(0, len(number) - 2))
    one, other = number[place], number[place + 1]
    swapped = number[:place] + other + one + number[place + 2 :]
    unseen = abs(int(one) - int(other)) in (0, 5)
    assert is_valid(swapped) == (unseen and bool(number.strip("0")))


@given(st.lists(st.text("0123456789", min_size=1, max_size=14), max_size=20))
def test_many_at_once_are_as_each_alone(numbers: list[str]) -> None:
    alone = [check_digit(number[:-1]) == int(number[-1]) for number in numbers]
    assert right_check_digits(digits_of(numbers)).tolist() == alone
