"""Which listings are still unsold once all files are joined, and what do they tell of the sales they became?

A file that names a listing as unsold knows it up to the file's last day.  Units sold after that day, or sold by a file
that does not hold the listing's end, are no longer for sale: unsold in March and sold in May is one listing.
"""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from models.intake.sales.join_pool import BLANK_DAY, Pool, days_of
from models.intake.sales.join_table import Folded
from models.values.arrays import IntArray
from models.values.sale_parts import ENDED, KNOWN, LEFT, LIVE

_WORD = re.compile(r"\w{3,}")


@dataclass
class Absorbed:
    """Units each listing has left, and which listing each sale was."""

    left: IntArray
    listing_of: dict[int, int] = field(default_factory=dict)  # place of the sale -> place of the listing
    retitled: int = 0  # sales that met their listing by SKU, under other words


def absorb(pool: Pool, sold: Folded, listed: Folded) -> Absorbed:
    """Take sold units from their listings: by listing number, else by SKU and words, words, or SKU and some words."""
    return _Absorbing(pool, sold, listed).done()


class _Absorbing:
    def __init__(self, pool: Pool, sold: Folded, listed: Folded) -> None:
        self.pool, self.sold, self.listed = pool, sold, listed
        self.day = days_of(sold.sales.sold_on)
        self.units = np.maximum(sold.sales.quantity, 1).tolist()
        self.refunded = (np.nan_to_num(sold.sales.refunded) > 0).tolist()
        self.known_to = [{pool.of[row] for row in group} for group in sold.groups]
        nothing_left = np.array([pool.roles[group[-1]] == KNOWN for group in listed.groups], dtype=bool)
        ended_on = pool.sales.ended_on[np.array([group[-1] for group in listed.groups], dtype=np.int64)]
        self.over = days_of(np.where(nothing_left, ended_on, np.datetime64("NaT", "D")))
        self.answer = Absorbed(np.where(nothing_left, 0, np.maximum(listed.sales.quantity, 1)).astype(np.int64))

    def done(self) -> Absorbed:
        sold_by, listed_by = self.sold.by_listing(self.pool), self.listed.by_listing(self.pool)
        for number, places in listed_by.items():
            for sale in sold_by.get(number, ()):
                self._by_number(sale, places)
        self._by_text(lambda row: (self.pool.sku[row], self.pool.title[row]) if self.pool.sku[row] else None)
        self._by_text(lambda row: self.pool.title[row] or None)
        told = len(self.answer.listing_of)
        self._by_text(lambda row: self.pool.sku[row] if self.pool.sku[row] in self.pool.skus_of_one_thing else None)
        self.answer.retitled = len(self.answer.listing_of) - told
        return self.answer

    def _by_number(self, sale: int, places: Sequence[int]) -> None:
        """Variations of one listing are told apart by their words."""
        words = self.pool.title[self.sold.groups[sale][-1]]
        own = [place for place in places if self.pool.title[self.listed.groups[place][-1]] == words]
        place = (own or list(places))[0]
        self.answer.listing_of[sale] = place
        newest = self.listed.groups[place][-1]
        if self.pool.of[newest] in self.known_to[sale]:
            return  # the file counts what is left after this sale
        if self._after(sale, newest) or not (self._counts_left(newest) or self.refunded[sale]):
            self.answer.left[place] -= self.units[sale]

    def _by_text(self, key: object) -> None:
        listed_by = self.listed.by(key)  # type: ignore[arg-type]
        if not listed_by:
            return
        sold_by = self.sold.by(key)  # type: ignore[arg-type]
        for words, places in listed_by.items():
            sales = [sale for sale in sold_by.get(words, ()) if sale not in self.answer.listing_of]
            if sales:
                self._same_words(sorted(sales, key=lambda sale: self.day[sale]), places)

    def _same_words(self, sales: Sequence[int], places: Sequence[int]) -> None:
        waiting, days = list(places), Counter(self.day[sale] for sale in sales)
        for sale in sales:
            place = next((one for one in waiting if self._is_this(sale, one)), None)
            if place is not None:
                self.answer.listing_of[sale] = place
                self.answer.left[place] -= self.units[sale]
                if self.answer.left[place] <= 0:
                    waiting.remove(place)
            elif len(places) == 1 and self._may_be(sale, places[0]):
                self.answer.listing_of[sale] = places[0]  # sold earlier from a listing that goes on
            elif days[self.day[sale]] == 1:
                self._sold_out(sale, places)

    def _sold_out(self, sale: int, places: Sequence[int]) -> None:
        """Of several listings the one that sold out on the very day of this sale."""
        over = [place for place in places if self.over[place] == self.day[sale] != BLANK_DAY]
        if len(over) == 1 and self._may_be(sale, over[0]):
            self.answer.listing_of[sale] = over[0]

    def _is_this(self, sale: int, place: int) -> bool:
        newest = self.listed.groups[place][-1]
        if self.answer.left[place] <= 0 or not self._may_be(sale, place):
            return False
        ended = self.pool.roles[newest] == ENDED and bool(self.pool.sku[newest])
        return self._after(sale, newest) or ended

    def _counts_left(self, newest: int) -> bool:
        """What the file tells as left is less what sold of it before."""
        return self.pool.roles[newest] in (LIVE, LEFT)

    def _may_be(self, sale: int, place: int) -> bool:
        one, other = self.sold.groups[sale][-1], self.listed.groups[place][-1]
        if self.pool.of[other] in self.known_to[sale] or self.pool.differ(one, other):
            return False
        begun = self.pool.listed_on[other]
        too_late = BLANK_DAY not in (begun, self.day[sale]) and begun > self.day[sale]
        return not (too_late or self.pool.listed_apart(one, other)) and self._share_a_word(one, other)

    def _share_a_word(self, one: int, other: int) -> bool:
        """A retitled listing keeps some of its words; a SKU that was given anew keeps none."""
        titles = self.pool.title[one], self.pool.title[other]
        return titles[0] == titles[1] or bool(set(_WORD.findall(titles[0])) & set(_WORD.findall(titles[1])))

    def _after(self, sale: int, newest: int) -> bool:
        """Sold after the file's last day; unknown days are taken to be."""
        known = self.pool.as_of[self.pool.of[newest]]
        return BLANK_DAY in (known, self.day[sale]) or self.day[sale] > known


def relisted(pool: Pool, table: Folded, ended: Sequence[int]) -> list[tuple[int, int]]:
    """(ended listing, the next listing of the same unit), places in `table`, the earliest listing first.

    By SKU and words, one to one; without a SKU by words that only the one ended and one later listing have.  A sale
    whose own listing no file tells began before it sold.
    """
    begun = days_of(table.sales.listed_on)
    sold_on = days_of(table.sales.sold_on)
    since = [sold if listed == BLANK_DAY else listed for listed, sold in zip(begun, sold_on, strict=True)]
    by_words: dict[tuple[str, str], list[int]] = {}
    for place, group in enumerate(table.groups):
        by_words.setdefault((pool.sku[group[-1]], pool.title[group[-1]]), []).append(place)
    over, pairs = set(ended), []
    for (sku, _), places in by_words.items():
        gone = sorted((place for place in places if place in over), key=lambda place: begun[place], reverse=True)
        if not gone or (not sku and len(places) != 2):
            continue
        free = sorted((place for place in places if since[place] != BLANK_DAY), key=lambda place: since[place])
        for place in gone:
            found = next((one for one in free if _again(pool, table, place, one)), None)
            if found is not None:
                pairs.append((place, found))
                free.remove(found)
    return sorted(pairs, key=lambda pair: begun[pair[0]])


def _again(pool: Pool, table: Folded, place: int, other: int) -> bool:
    one, two = table.groups[place][-1], table.groups[other][-1]
    begun, again = table.sales.listed_on[place], table.sales.listed_on[other]
    if np.isnat(again) and pool.listing[two]:  # in a listing of its own: it went up again once the one was over
        begun, again = table.sales.ended_on[place], table.sales.sold_on[other]
    one_number = pool.listing[one] != "" and pool.listing[one] == pool.listing[two]
    same_state = min(pool.condition[one], pool.condition[two]) < 0 or pool.condition[one] == pool.condition[two]
    return bool(begun < again) and not one_number and same_state
