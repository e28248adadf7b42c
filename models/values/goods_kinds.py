"""Which kinds of goods call for a check before they are bought or listed?  One entry a kind, with its source.

The words that tell a kind are in `goods_words`.  No entry is legal advice: local rules decide.  `source` names what was
read; "common practice, no source" where nothing was.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from models.values.conditions import CONDITIONS, Condition

_ALL = frozenset(CONDITIONS)
_USED = frozenset({Condition.OPENED, Condition.WORKS, Condition.WORN, Condition.SALVAGE})
_NOT_SEALED = _ALL - {Condition.SEALED}
NO_SOURCE = "common practice, no source"
_RECALLS = (
    "US CPSC resale guidance (resellers may not knowingly sell or give away recalled goods); 15 U.S.C. 2068; "
    "Regulation (EU) 2023/988"
)
_POST = "USPS Publication 52; 49 CFR 173.185"
_LOOK = "Look in the regulator's recall list today; we did not."


@dataclass(frozen=True)
class GoodsKind:
    """One kind: `what` is wrong with it, what to `check`, and in which conditions either holds.

    A line of unknown condition is cautioned like any; it is not listed only where that holds in every condition.
    """

    title: str
    what: str
    check: str
    source: str
    cautioned: frozenset[Condition] = _ALL
    not_listed: frozenset[Condition] = frozenset()  # by default, unless the seller chooses to


GOODS_KINDS: Mapping[str, GoodsKind] = MappingProxyType({
    "child_seat": GoodsKind(
        "Child seat", "expired, crashed or recalled ones must not be used again.",
        f"{_LOOK} List it only with its date of make, all parts and a known past; otherwise destroy it.",
        f"{_RECALLS}; expiry and crashes: {NO_SOURCE}", not_listed=_ALL,
    ),
    "helmet": GoodsKind(
        "Helmet", "one that took a blow does not protect, and it may not show.",
        f"{_LOOK} List it only factory sealed and with its safety mark.", NO_SOURCE, not_listed=_ALL,
    ),
    "crib": GoodsKind(
        "Crib or bassinet",
        "these have been recalled by the million; broken, wobbly or incomplete ones are not to be sold.",
        f"{_LOOK} List it only complete, sound and of a model that today's rules allow.", _RECALLS, not_listed=_ALL,
    ),
    "banned_sleep": GoodsKind(
        "Crib bumper or inclined sleeper",
        "padded crib bumpers and sleepers that slope more than ten degrees are banned in the United States, new or "
        "used.",
        "Look at the goods; ask what other places say before you list it anywhere.",
        "Safe Sleep for Babies Act of 2021 (US Public Law 117-126)", not_listed=_ALL,
    ),
    "infant_formula": GoodsKind(
        "Infant formula", "it carries a use-by date, after which some places forbid its sale.",
        "Read the date on every pack; many places and marketplaces forbid resale altogether.",
        "21 CFR 107.20; Ohio Revised Code 3715.521, as one place's rule", not_listed=_ALL,
    ),
    "medicine": GoodsKind(
        "Medicine", "it expires, and its sale may need a licence.",
        "Read the date on every pack; ask a licensed adviser whether you may sell it at all.",
        f"Ohio Revised Code 3715.521, as one place's rule; licences: {NO_SOURCE}", not_listed=_ALL,
    ),
    "cosmetics": GoodsKind(
        "Cosmetics", "opened ones are not to be sold, sealed ones may be out of date.",
        "Look for seals and dates; many places ask for an address and a list of contents on the pack.",
        NO_SOURCE, not_listed=_USED,
    ),
    "mattress": GoodsKind(
        "Mattress", "used bedding may be forbidden, or need cleaning and a label.",
        "Ask what your place asks of used bedding before you list any.", NO_SOURCE, not_listed=_USED,
    ),
    "maybe_not_listed": GoodsKind(
        "May be goods that usually are not listed",
        "its words may name a child seat, helmet, crib, formula, medicine, cosmetics or mattress, or only something "
        "that goes with one.",
        "Look at the goods, and leave the line out if it is one.", NO_SOURCE,
    ),
    "food": GoodsKind(
        "Food or supplement", "it has a date and may have been stored too warm.",
        "Read the dates before you bid; what is out of date is worth nothing.", NO_SOURCE,
    ),
    "often_recalled": GoodsKind(
        "Kind of goods that is recalled often", "recalled goods may not knowingly be sold or given away.",
        f"{_LOOK} Search it by maker and model.", f"{_RECALLS}; which kinds: {NO_SOURCE}",
    ),
    "battery": GoodsKind(
        "Lithium battery or power bank",
        "sent on its own it is dangerous goods (UN3480) and may not fly in a passenger aircraft.",
        "Read your carrier's battery rules; damaged, swollen or recalled ones may not be posted.",
        f"{_POST}; US Postal Bulletin 22474",
    ),
    "battery_inside": GoodsKind(
        "Likely holds a lithium battery", "a battery inside a device restricts how it may be posted.",
        "Read your carrier's battery rules, and look for swollen ones.", _POST,
    ),
    "hazardous_post": GoodsKind(
        "Hazardous post",
        "aerosols, perfume, nail polish, fuels, gases, wet batteries and some cleaners may "
        "not travel as ordinary parcels.",
        "Read your carrier's rules for dangerous goods; it may have to go by ground, or not at all.",
        "USPS Publication 52; US Postal Bulletin 22482",
    ),
    "often_copied": GoodsKind(
        "Kind of goods that is often copied", "selling a copy is unlawful, even unknowingly bought.",
        "Ask for proof of origin before you bid, and compare the pieces with the maker's own.",
        "US Customs and Border Protection, yearly seizure statistics (bags and wallets, watches and jewellery, "
        "clothing, footwear, consumer electronics); INFORM Consumers Act guidance",
    ),
    "personal_data": GoodsKind(
        "May hold personal data", "it must be wiped before it is sold; a locked one is worth its parts.",
        "Wipe it so that nothing can be read again, and check that no account or manager locks it.",
        f"NIST SP 800-88; locked: {NO_SOURCE}", cautioned=_NOT_SEALED,
    ),
    "mains": GoodsKind(
        "Plug and voltage named", "what is made for another country's mains does not work here, or not safely.",
        "Read plug and volts on the label of one piece before you bid.", NO_SOURCE,
    ),
})  # fmt: skip
USUALLY_NOT_LISTED: tuple[str, ...] = tuple(kind for kind, one in GOODS_KINDS.items() if one.not_listed)
