"""ISO 4217: three capital letters; list one, codes in use, and list three, historic codes (DEM, FRF, ITL, HRK).

Minor units of list one: see test_money_digits_and_rounding.
"""

import pytest

from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.values.errors import Rejected

PLACES = {"USD": 2, "EUR": 2, "GBP": 2, "CAD": 2, "JPY": 0, "KRW": 0, "KWD": 3, "BHD": 3, "TND": 3, "CLF": 4}


@pytest.mark.parametrize("code", PLACES)
def test_an_amount_is_read_in_the_currencys_own_minor_units(code: str) -> None:
    data = f"description,quantity,tag_each\nmug,1,{code} 25\njug,1,25 {code}\nmat,1,25\n".encode()
    read = read_manifest(data, "m.csv", {}, code)
    assert read.lines.tag_each.tolist() == [25 * 10 ** PLACES[code]] * 3
    assert not [caution for caution in read.cautions if "currency" in caution.what]


@pytest.mark.parametrize("code", ["DEM", "FRF", "ITL", "HRK", "USB", "usd", "$", "", "US", "DOLLAR"])
def test_what_is_no_code_in_use_is_refused(code: str) -> None:
    for read in (read_manifest, read_history):
        with pytest.raises(Rejected):
            read(b"description,title,sold_price\nmug,mug,5\n", "x.csv", {}, code)


@pytest.mark.parametrize(("code", "cell"), [("USD", "EUR 25"), ("EUR", "25 USD"), ("GBP", "JPY 25")])
def test_an_amount_of_another_currency_is_never_taken_for_ours_in_silence(code: str, cell: str) -> None:
    rows = "".join(f"mug no. {number},1,25\n" for number in range(5))
    read = read_manifest(f"description,quantity,tag_each\n{rows}jug,1,{cell}\n".encode(), "m.csv", {}, code)
    assert [caution for caution in read.cautions if "currency" in caution.what]
