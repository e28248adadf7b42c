"""Every setting of the product, declared once: the API schema, the TOML reader, the README and the page read it here.

Defaults are common practice without source, in USD.  In memory money is minor units; documents write major units.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Any

from models.values.categories import plain_path
from models.values.fields import Declared, Unit, declared_fields, setting
from models.values.goods_kinds import USUALLY_NOT_LISTED

RIVALS: Mapping[str, int] = MappingProxyType({"none": 0, "few": 3, "many": 8})


@dataclass(frozen=True)
class Buying:
    """Buying terms: what the lot costs beside the bid."""

    premium: float = setting(0.15, Unit.SHARE, "Buyer's premium.", between=(0.05, 0.25), of_base="hammer price")
    tax_rate: float = setting(
        0.0, Unit.SHARE, "Sales tax; a resale certificate may free from it, local rules decide.",
        between=(0.0, 0.10), of_base="hammer price and premium",
    )  # fmt: skip
    payment_surcharge: float = setting(
        0.0,
        Unit.SHARE,
        "Surcharge for the way of paying.",
        between=(0.0, 0.04),
        of_base="hammer price, premium and tax",
    )
    freight: float = setting(250.0, Unit.MONEY, "Freight a pallet.", between=(150.0, 450.0))
    other_fees: float = setting(0.0, Unit.MONEY, "Any other fee on the whole lot.")
    bid_step: tuple[tuple[float, float], ...] = setting(
        1.0, Unit.STEPS, "Bids are rounded down to this step: one amount, or steps [[from, step], ...]."
    )
    rivals: str | float = setting(
        "few", Unit.RIVALS, "Other serious bidders: none (0), few (3), many (8), or a number."
    )
    common_share: float = setting(0.5, Unit.SHARE, "How much rivals see the lot as you do.", between=(0.25, 0.75))
    bidding: str = setting("rising", Unit.CHOICE, "How the auction runs.", choices=("rising", "sealed"))


@dataclass(frozen=True)
class LotTerms:
    """What is known of this lot beside its lines."""

    source: str | None = setting(None, Unit.TEXT, "Who offers the lot.", optional=True)
    pallets: float = setting(1.0, Unit.COUNT, "Pallets that freight is paid for.")
    arrives_on: dt.date | None = setting(
        None, Unit.DATE, "Day the lot arrives; unset: ten days after as_of, but not before payment.", optional=True
    )
    closes_at: dt.datetime | None = setting(None, Unit.MOMENT, "When bidding ends; payment is that day.", optional=True)
    current_bid: float | None = setting(None, Unit.MONEY, "The bid that stands now.", optional=True)
    missing_share: float = setting(
        0.02, Unit.SHARE, "Units listed that do not arrive.", between=(0.01, 0.05), of_base="units"
    )
    dead_share: float = setting(
        0.03,
        Unit.SHARE,
        "Units that arrive dead, where the condition is not untested.",
        between=(0.01, 0.08),
        of_base="units",
    )
    dead_untested_share: float = setting(
        0.25, Unit.SHARE, "Untested units that turn out dead.", between=(0.10, 0.40), of_base="untested units"
    )


@dataclass(frozen=True)
class Selling:
    """Selling costs of one unit, and what becomes of unsold ones."""

    fee_share: float = setting(0.12, Unit.SHARE, "Selling fee.", between=(0.08, 0.16), of_base="price")
    fixed_fee: float = setting(0.30, Unit.MONEY, "Fixed fee an order.")
    advertising_share: float = setting(0.0, Unit.SHARE, "Paid promotion.", between=(0.0, 0.10), of_base="price")
    packing: float = setting(1.00, Unit.MONEY, "Packing material an order.", between=(0.50, 2.0))
    postage_each: float = setting(
        0.0,
        Unit.MONEY,
        "Postage you pay beyond what buyers pay you, per order.",
        between=(0.0, 8.0),
        limits=(None, None),
    )
    refund_share: float = setting(0.05, Unit.SHARE, "Orders refunded.", between=(0.02, 0.10), of_base="orders")
    refund_loss_share: float = setting(
        0.5, Unit.SHARE, "Of a refunded price, what is lost for good.", between=(0.3, 0.8), of_base="price"
    )
    leftover_share: float = setting(
        0.10, Unit.SHARE, "What a unit that has not sold in time still brings; may be negative.",
        between=(-0.05, 0.25), of_base="net price", limits=(-1.0, 1.0),
    )  # fmt: skip
    bundle_discount: float = setting(
        0.25, Unit.SHARE, "Discount of a pack against its units sold singly.", of_base="price"
    )
    never_sells_share: float = setting(
        0.15, Unit.SHARE, "Listings that never sell, where the history holds sold ones only.", of_base="listings"
    )
    days_to_sell: float = setting(
        45.0, Unit.DAYS, "Days until half of the others sold, where the history cannot tell.", limits=(0.1, None)
    )


@dataclass(frozen=True)
class Goals:
    """What the seller demands of a buy: choices, so they have no range."""

    return_on_cash: float = setting(
        0.30,
        Unit.SHARE,
        "Return after pay over the lot's life.",
        of_base="all cash paid for the lot",
        limits=(0.0, 100.0),
    )
    hourly_pay: float = setting(15.0, Unit.MONEY, "Pay for an hour of your own.")
    confidence: float = setting(0.80, Unit.SHARE, "Chance that the cash comes back.", limits=(0.5, 0.99))
    loss_limit: float | None = setting(None, Unit.MONEY, "Most cash to lose on the lot; unset: off.", optional=True)
    loss_chance: float = setting(
        0.05, Unit.SHARE, "Chance accepted of losing more than the loss limit.", limits=(0.001, 0.5)
    )
    cash_limit: float | None = setting(None, Unit.MONEY, "Most cash to put into the lot; unset: off.", optional=True)
    max_weeks_to_clear: float = setting(26.0, Unit.WEEKS, "Most weeks the backlog may take to clear with the lot.")
    max_unsold_units: float | None = setting(
        None, Unit.COUNT, "Most units waiting with the lot; unset: off.", optional=True
    )
    horizon_weeks: float = setting(
        26.0, Unit.WEEKS, "Weeks from payment until a unit must have sold.", limits=(1.0, 260.0)
    )
    yearly_cost_of_cash: float = setting(0.10, Unit.SHARE, "Yearly cost of money tied up.", limits=(0.0, 5.0))


@dataclass(frozen=True)
class Effort:
    """Minutes of the seller's own time."""

    minutes_first: float = setting(12.0, Unit.MINUTES, "A listing.", between=(5.0, 20.0))
    minutes_repeat: float = setting(1.0, Unit.MINUTES, "A further sealed unit of the item.", between=(1.0, 3.0))
    minutes_used_unit: float = setting(
        6.0, Unit.MINUTES, "A further unit that needs its own photos.", between=(3.0, 10.0)
    )
    minutes_sort: float = setting(2.0, Unit.MINUTES, "Unloading, sorting and testing a unit.", between=(1.0, 4.0))
    minutes_pack: float = setting(6.0, Unit.MINUTES, "Packing and posting an order.", between=(3.0, 10.0))


@dataclass(frozen=True)
class Backlog:
    """The shop's listing capacity and what already waits for it."""

    hours_per_week: float = setting(15.0, Unit.HOURS, "Hours a week for listing.", limits=(0.1, 168.0))
    waiting_units: float = setting(0.0, Unit.COUNT, "Units bought and not yet listed.")
    weekly_intake_units: float = setting(0.0, Unit.COUNT, "Units coming in each week without this lot.")


@dataclass(frozen=True)
class Never:
    """What this shop cannot or will not sell: no hours, leftover value."""

    brands: tuple[str, ...] = setting((), Unit.TEXTS, "Brands never listed here.")
    categories: tuple[str, ...] = setting((), Unit.TEXTS, "Categories never listed here.")
    words: tuple[str, ...] = setting((), Unit.TEXTS, "Words of goods never listed here.")
    listed_anyway: tuple[str, ...] = setting(
        (),
        Unit.TEXTS,
        f"Kinds of goods that usually are not listed but are here: {', '.join(USUALLY_NOT_LISTED)}.",
        choices=USUALLY_NOT_LISTED,
    )


GROUPS: Mapping[str, type] = MappingProxyType({
    "buying": Buying, "lot": LotTerms, "selling": Selling, "goals": Goals, "effort": Effort, "backlog": Backlog,
    "never": Never,
})  # fmt: skip

CURRENCY = Declared(
    key="currency",
    unit=Unit.TEXT,
    default="USD",
    low=None,
    high=None,
    says="Currency of every amount, ISO 4217; amounts are never converted.",
    of_base="",
    choices=(),
    optional=False,
    least=None,
    most=None,
)
REGISTRY: Mapping[str, Declared] = MappingProxyType(
    {"currency": CURRENCY} | {one.key: one for group, table in GROUPS.items() for one in declared_fields(group, table)}
)


@dataclass(frozen=True)
class Settings:
    """All settings in force for one evaluation."""

    currency: str = "USD"
    buying: Buying = field(default_factory=Buying)
    lot: LotTerms = field(default_factory=LotTerms)
    selling: Selling = field(default_factory=Selling)
    goals: Goals = field(default_factory=Goals)
    effort: Effort = field(default_factory=Effort)
    backlog: Backlog = field(default_factory=Backlog)
    never: Never = field(default_factory=Never)
    by_category: Mapping[str, Mapping[str, Any]] = field(
        default_factory=dict
    )  # overrides of `selling`, in memory units

    def selling_for(self, category: str) -> Selling:
        """Selling costs of one category: its full text, else its top, else the general ones.

        Examples
        --------
        >>> Settings(by_category={"Toys": {"fee_share": 0.2}}).selling_for("Toys > Dolls").fee_share
        0.2
        """
        return replace(self.selling, **self.by_category.get(self.cost_key(category), {}))

    def cost_key(self, category: str) -> str:
        """The key of `by_category` that holds for a category: its full text, else its top, else ""; any case will do.

        Examples
        --------
        >>> settings = Settings(by_category={"Toys": {"fee_share": 0.2}, "Home > Lamps": {"packing": 200.0}})
        >>> [settings.cost_key(name) for name in ("toys > Dolls", "HOME  > Lamps", "Home")]
        ['Toys', 'Home > Lamps', '']
        """
        alike = {plain_path(key): key for key in self.by_category}
        full, top = category.strip(), category.split(">")[0].strip()
        found = (text if text in self.by_category else alike.get(plain_path(text)) for text in (full, top))
        return next((key for key in found if key is not None), "")

    @property
    def rivals_count(self) -> float:
        """Number of other serious bidders."""
        return float(RIVALS[self.buying.rivals] if isinstance(self.buying.rivals, str) else self.buying.rivals)
