"""What public sources name is found by its words.

- US Consumer Product Safety Commission, Resale and Thrift Store questions and answers: resellers cannot knowingly sell
  or give away what breaks the law; cribs and bassinets have been recalled by the million.  Also 15 U.S.C. 2068 and
  Regulation (EU) 2023/988.
- US Postal Service, Postal Bulletin 22482 (mailing standards for hazardous materials): toys and electronics with
  lithium batteries, perfume, hairspray, shaving gel, some cleaning agents.  Postal Bulletin 22474: lithium-ion cells
  on their own are UN3480 and may not fly in passenger aircraft.  USPS Publication 52; 49 CFR 173.185.
- Ohio Revised Code 3715.521: no expired drug, infant formula (use-by date of 21 CFR 107.20) or baby food may be sold.
- US Customs and Border Protection, yearly seizure statistics: handbags and wallets, watches and jewelry, footwear,
  consumer electronics, apparel.
- Safe Sleep for Babies Act of 2021 (US Public Law 117-126): crib bumpers (a mesh liner without padding is none) and
  sleepers that slope more than ten degrees are banned hazardous products, whenever they were made.
- NIST SP 800-88: hard and solid state drives, flash media and mobile devices hold data that must be sanitised.
Everything else in the table is common practice and says so.
"""

import pytest

from models.values.conditions import CONDITIONS
from models.values.goods_kinds import GOODS_KINDS, NO_SOURCE
from models.values.goods_matching import goods_named


@pytest.mark.parametrize(
    ("kind", "goods"),
    [
        ("crib", ("crib", "bassinet")),
        ("hazardous_post", ("perfume", "hairspray", "hair spray", "shaving gel", "oven cleaner", "bleach")),
        ("battery", ("lithium-ion battery", "lithium polymer pack", "UN3480")),
        ("medicine", ("medicine", "aspirin")),
        ("infant_formula", ("infant formula",)),
        ("banned_sleep", ("padded crib bumper", "inclined sleeper")),
        ("food", ("baby food",)),
        ("often_copied", ("handbag", "wallets", "wristwatch", "jewelry", "sneakers", "headphones", "jersey")),
        ("personal_data", ("hard drive", "solid state drive", "USB flash drive", "smartphone", "tablet")),
    ],
)
def test_goods_that_a_source_names_are_found(kind: str, goods: tuple[str, ...]) -> None:
    assert [one for one in goods if kind not in goods_named(one)] == []


@pytest.mark.parametrize(
    ("kind", "named"),
    [
        ("crib", "US CPSC resale guidance"),
        ("often_recalled", "15 U.S.C. 2068"),
        ("child_seat", "(EU) 2023/988"),
        ("battery", "49 CFR 173.185"),
        ("hazardous_post", "USPS Publication 52"),
        ("infant_formula", "21 CFR 107.20"),
        ("banned_sleep", "117-126"),
        ("medicine", "3715.521"),
        ("often_copied", "Customs and Border Protection"),
        ("personal_data", "NIST SP 800-88"),
    ],
)
def test_a_kind_names_its_source(kind: str, named: str) -> None:
    assert named in GOODS_KINDS[kind].source


def test_what_has_no_source_says_so() -> None:
    unsourced = {"helmet", "cosmetics", "mattress", "food", "mains", "maybe_not_listed"}
    assert {kind for kind, one in GOODS_KINDS.items() if one.source == NO_SOURCE} == unsourced


def test_recalls_are_never_said_to_be_looked_up() -> None:
    for kind in ("child_seat", "helmet", "crib", "often_recalled"):
        assert "we did not" in GOODS_KINDS[kind].check


def test_loose_batteries_carry_their_number_and_lists_never_say_safe() -> None:
    assert "UN3480" in GOODS_KINDS["battery"].what
    assert not any("safe." in one.what + one.check for one in GOODS_KINDS.values())


def test_child_seats_helmets_and_cribs_are_not_listed_in_any_condition() -> None:
    for kind in ("child_seat", "helmet", "crib"):
        assert GOODS_KINDS[kind].not_listed == frozenset(CONDITIONS)
