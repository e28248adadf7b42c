"""How did three years of the invented shop go?  Lots and single finds come in, wait, are listed and mostly sell.

Units of one product sell as one stream while any is in stock, oldest first.
"""

import datetime as dt
import math
import random
from collections import defaultdict, deque

from goods import Product, normal, source
from market import AS_OF, DAYS, START, WORTH, Market, Unit, day_of

LOT_SD = 0.20
MINUTES = {"sealed": 11.0, "opened": 12.5, "works": 14.0, "worn": 15.0, "untested": 13.0, "salvage": 12.0}
SINGLES = {"sealed": 22, "opened": 24, "works": 38, "worn": 16}
RETURNS = {"sealed": 44, "opened": 27, "works": 10, "worn": 5, "untested": 11, "salvage": 3}
SOURCES = ("Hollow Lane Depot", "North Yard Auctions", "Overstock Hall 9")


def picked(rng: random.Random, weights: dict[str, int]) -> str:
    """A key, by weight."""
    return rng.choices(list(weights), list(weights.values()))[0]


def lot_units(name: str, origin: str, arrives: int, contents: list[tuple[Product, str, int]]) -> list[Unit]:
    """The units of one purchased lot, listed over the weeks after it came in."""
    rng = source(f"lot:{name}")
    shock = LOT_SD * normal(rng)
    units: list[Unit] = []
    for product, condition, quantity in contents:
        for place in range(quantity):
            cost = round(0.11 * product.tag * math.exp(WORTH[condition] + 0.5 * shock), 2)
            minutes = minutes_for(rng, condition, place)
            listed = day_of(min(DAYS - 1, arrives + 2 + int(len(units) / 6)))
            units.append(Unit(product, condition, name, origin, shock, cost, listed, minutes))
    return units


def minutes_for(rng: random.Random, condition: str, place: int) -> float:
    """Listing minutes; a further sealed unit of the same thing is quick, a further used one needs its own photos."""
    usual = MINUTES[condition] if place == 0 else (1.5 if condition == "sealed" else 6.5)
    return max(1.0, round(usual * math.exp(0.3 * normal(rng)) * 2) / 2)


def history_lots(catalogue: list[Product]) -> list[Unit]:
    """Twenty-odd lots over the three years."""
    rng = source("lots")
    weights = [product.weight for product in catalogue]
    units: list[Unit] = []
    arrives, number = 6, 0
    while arrives < (AS_OF - START).days - 10:
        number += 1
        contents = [
            (product, picked(rng, RETURNS), rng.choices((1, 2, 3, 4, 6, 8), (48, 22, 12, 9, 6, 3))[0])
            for product in rng.choices(catalogue, weights, k=rng.randint(36, 66))
        ]
        units += lot_units(f"LOT-{number:02d}", rng.choice(SOURCES), arrives, contents)
        arrives += rng.randint(35, 55)
    return units


def single_units(catalogue: list[Product]) -> list[Unit]:
    """Hand-picked finds, a few a day."""
    rng = source("singles")
    weights = [math.sqrt(product.weight) for product in catalogue]
    units: list[Unit] = []
    for day in range(DAYS - 3):
        for _ in range(rng.choices((0, 1, 2, 3, 4, 5, 6, 7), (5, 10, 18, 22, 20, 13, 8, 4))[0]):
            product, condition = rng.choices(catalogue, weights)[0], picked(rng, SINGLES)
            cost = round(0.12 * product.tag * math.exp(WORTH[condition]) * math.exp(0.3 * normal(rng)), 2)
            minutes = minutes_for(rng, condition, 0)
            units.append(Unit(product, condition, "", "", 0.0, cost, day_of(day + rng.randint(1, 3)), minutes))
    return units


def sell(units: list[Unit], market: Market) -> None:
    """Live through every day: each product's stream takes the unit that has waited longest."""
    rng = source("sales")
    arriving: dict[int, list[Unit]] = defaultdict(list)
    for unit in units:
        arriving[(unit.listed - START).days].append(unit)
    stock: dict[str, deque[Unit]] = defaultdict(deque)
    order = 0
    for day in range(DAYS):
        for unit in arriving[day]:
            stock[unit.product.sku].append(unit)
        for sku in sorted(stock):
            for unit in _sold_today(stock[sku], market, day, rng):
                order += 1
                unit.order = order


def number_listings(units: list[Unit]) -> None:
    """Give each unit its listing number, in order of listing; a unit keeps it in both exports."""
    for number, unit in enumerate(sorted(units, key=lambda one: one.listed), start=10001):
        unit.listing = number


def together(units: list[Unit]) -> list[Unit]:
    """Sealed units of one thing and lot that left on one day went to one buyer, at one price, as one row."""
    first: dict[tuple[str, str, dt.date], Unit] = {}
    kept: list[Unit] = []
    for unit in units:
        if unit.sold is None or unit.condition != "sealed":
            kept.append(unit)
            continue
        key = (unit.product.sku, unit.lot, unit.sold)
        if key in first:
            first[key].with_it += 1
        else:
            first[key] = unit
            kept.append(unit)
    return kept


def _sold_today(waiting: deque[Unit], market: Market, day: int, rng: random.Random) -> list[Unit]:
    if not waiting:
        return []
    product = waiting[0].product
    rate = product.rate * math.exp(product.category.swing * market.season(product.category, day))
    sold: list[Unit] = []
    left = -math.log(1 - rng.random()) / rate
    while left < 1 and waiting:
        unit = waiting.popleft()
        unit.sold, unit.price = day_of(day), market.price(unit, day, rng)
        sold.append(unit)
        left += -math.log(1 - rng.random()) / rate
    return sold
