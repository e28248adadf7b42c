"""What does a bid lead to?  The same figures at the ceiling and along the bid curve, each following from the others."""

from dataclasses import dataclass

from models.decide.ceiling import LotDraws
from models.decide.quantiles import lowest_at
from models.decide.terms import cash_out, highest_bid, next_step, round_down_to_step
from models.values.money import whole_minor
from models.values.settings import Settings

_SPREAD = (0.4, 0.6, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5)  # of the ceiling, along the curve
_FEWEST = 5


@dataclass(frozen=True)
class BidFigures:
    """Money in whole minor units, profits expected; chances and returns are fractions."""

    bid: float
    cash_out: float
    expected_profit: float  # after pay
    expected_cash_gain: float
    chance_of_cash_loss: float
    chance_below_pay: float
    return_on_cash: float | None  # None where nothing is paid
    profit_per_hour: float | None  # None where the lot takes no time


def figures_at(bid: float, draws: LotDraws, settings: Settings) -> BidFigures:
    """What to expect if one bid wins.

    Parameters
    ----------
    bid : float
        Hammer price [minor units].
    draws : LotDraws
        Proceeds of the lot.
    settings : Settings
        Buying terms and hourly pay in force.

    Returns
    -------
    BidFigures
        From the printed cash out and means, all whole minor units.

    Notes
    -----
    expected_profit = mean after pay - cash out; expected_cash_gain = mean cash - cash out; return_on_cash =
    expected_profit / cash out; profit_per_hour = (expected_profit + pay of all hours) / hours.

    Examples
    --------
    >>> import numpy as np
    >>> from models.values.settings import Buying
    >>> draws = LotDraws(np.array([90000.0, 150000.0]), np.array([80000.0, 140000.0]), hours=5.0)
    >>> got = figures_at(80000.0, draws, Settings(buying=Buying(freight=0.0)))
    >>> got.cash_out, got.expected_profit, got.expected_cash_gain, got.chance_of_cash_loss, got.profit_per_hour
    (92000.0, 18000.0, 28000.0, 0.5, 5100.0)
    """
    paid = float(whole_minor(cash_out(bid, settings.buying, settings.lot.pallets)))
    profit = whole_minor(float(draws.after_pay.mean())) - paid
    per_hour = (profit + settings.goals.hourly_pay * draws.hours) / draws.hours if draws.hours > 0 else None
    return BidFigures(
        bid=bid,
        cash_out=paid,
        expected_profit=profit,
        expected_cash_gain=whole_minor(float(draws.cash.mean())) - paid,
        chance_of_cash_loss=float((draws.cash < paid).mean()),
        chance_below_pay=float((draws.after_pay < paid).mean()),
        return_on_cash=profit / paid if paid > 0 else None,
        profit_per_hour=None if per_hour is None else float(whole_minor(per_hour)),
    )


def bid_curve(unrounded: float, draws: LotDraws, settings: Settings) -> tuple[BidFigures, ...]:
    """The figures along rising bids around the ceiling, also where the verdict is a pass.

    Parameters
    ----------
    unrounded : float
        The ceiling before the bid step [minor units]; 0 where no rule leaves a positive bid.
    draws : LotDraws
        Proceeds of the lot.
    settings : Settings
        Buying terms and hourly pay in force.

    Returns
    -------
    tuple of BidFigures
        At least five, bids rising and above 0, the ceiling among them.

    Examples
    --------
    >>> import numpy as np
    >>> from models.values.settings import Buying
    >>> draws = LotDraws(np.array([90000.0, 150000.0]), np.array([80000.0, 140000.0]), hours=5.0)
    >>> settings = Settings(buying=Buying(freight=0.0, bid_step=((0.0, 2500.0),)))
    >>> [point.bid for point in bid_curve(40000.0, draws, settings)]
    [15000.0, 22500.0, 30000.0, 35000.0, 40000.0, 42500.0, 50000.0, 60000.0]
    """
    centre = unrounded if unrounded > 0 else _break_even(draws, settings)
    steps = settings.buying.bid_step
    bids = sorted({bid for part in _SPREAD if (bid := round_down_to_step(part * centre, steps)) > 0})
    while len(bids) < _FEWEST:
        bids.append(next_step(bids[-1] if bids else 0.0, steps))
    return tuple(figures_at(bid, draws, settings) for bid in bids)


def _break_even(draws: LotDraws, settings: Settings) -> float:
    """The hammer price whose cash comes back in half of the draws: where a curve without a ceiling says most."""
    return highest_bid(lowest_at(draws.cash, 0.5), settings.buying, settings.lot.pallets)
