"""Which own sales may be shown beside lines, and what are their words?  Every sold row that fetched a price."""

from itertools import chain

import numpy as np

from models.estimate.fit.prices_facts import usable
from models.estimate.own_comps import MOST, UNDATED, OwnComps, inverse_frequency, kinds_of_goods, sheet_words
from models.values.arrays import FloatArray, IntArray, TextArray, texts
from models.values.sales import Sales


def fit_comps(sales: Sales, product: IntArray) -> OwnComps:
    """Keep the sales that lines are compared with.

    Parameters
    ----------
    sales : Sales
        The history as it is known.
    product : ndarray of shape (n_rows,)
        Product of each row.

    Returns
    -------
    OwnComps

    Examples
    --------
    >>> from dataclasses import replace
    >>> sales = replace(Sales.blank(2), title=texts(["red mug", "blue mug"]), sold_price=np.array([500.0, np.nan]))
    >>> found = fit_comps(sales, np.array([0, 1]))
    >>> found.word.tolist(), found.price.tolist(), found.ref.tolist()
    (['mug', 'red'], [500.0], ['row 2'])
    """
    rows = np.flatnonzero(usable(sales))
    sold = sales.take(rows)
    sheet, words, of_product, brand, kind = _sheets(sold, product[rows])
    kept = _kept(sold, sheet)
    title, titles = _coded(sold.title[kept])
    word, idf, start, posting, weight = _postings(words)
    return OwnComps(
        word=word,
        idf=idf.astype(np.float32),
        start=start,
        sheet=posting.astype(np.int32),
        weight=weight.astype(np.float32),
        product=of_product,
        sales=_starts(sheet[kept], len(words)),
        condition=sold.condition[kept].astype(np.int8),
        price=sold.sold_price[kept],
        sold_on=_day_numbers(sold)[kept],
        days=_days_to_sell(sold)[kept],
        title=title,
        titles=titles,
        sourced=sold.sourced[kept].astype(np.int8),
        brand=brand,
        kind=kind,
        ref=_references(sold.take(kept)),
    )


def _sheets(sold: Sales, product: IntArray) -> tuple[IntArray, list[tuple[str, ...]], IntArray, TextArray, TextArray]:
    """The sheet of each row, the words of each sheet, its product, brand and kind."""
    words: dict[tuple[str, str, str], tuple[str, ...]] = {}
    numbers: dict[tuple[int, tuple[str, ...], str, str], int] = {}
    brand, kind = kinds_of_goods(sold.category, sold.brand)
    sheet = []
    said = zip(sold.title.tolist(), sold.brand.tolist(), sold.category.tolist(), strict=True)
    for own, text, name, goods in zip(product.tolist(), said, brand.tolist(), kind.tolist(), strict=True):
        if text not in words:
            words[text] = sheet_words(*text)
        sheet.append(numbers.setdefault((own, words[text], name, goods), len(numbers)))
    owns, told, names, goods_of = zip(*numbers, strict=True) if numbers else ((), (), (), ())
    of_product = np.array(owns, dtype=np.int64)
    return np.array(sheet, dtype=np.int64), list(told), of_product, texts(list(names)), texts(list(goods_of))


def _kept(sold: Sales, sheet: IntArray) -> IntArray:
    """Rows to keep, by sheet and condition, the newest few of each first; of one day the later in the history."""
    order = np.lexsort((-np.arange(len(sold)), -_day_numbers(sold), sold.condition, sheet))
    group = sheet[order] * 16 + sold.condition[order] + 1
    place = np.arange(len(order)) - _first_of(group)
    return np.asarray(order[place < MOST], dtype=np.int64)


def _first_of(group: IntArray) -> IntArray:
    """Position of the first of each run of equal numbers."""
    new = np.concatenate([[True], group[1:] != group[:-1]]) if len(group) else np.zeros(0, dtype=np.bool_)
    return np.asarray(np.maximum.accumulate(np.where(new, np.arange(len(group)), 0)), dtype=np.int64)


def _postings(words: list[tuple[str, ...]]) -> tuple[TextArray, FloatArray, IntArray, IntArray, FloatArray]:
    """Words, what each tells, and which sheets have it with which weight; every sheet's vector has length 1."""
    known = sorted(set(chain.from_iterable(words)))
    place = {word: number for number, word in enumerate(known)}
    at = np.array([place[word] for own in words for word in own], dtype=np.int64)
    sheet = np.repeat(np.arange(len(words)), [len(own) for own in words])
    idf = inverse_frequency(len(words), np.bincount(at, minlength=len(known)).astype(np.float64))
    length = np.sqrt(np.bincount(sheet, idf[at] ** 2, minlength=len(words)))
    order = np.argsort(at, kind="stable")
    return texts(known), idf, _starts(at[order], len(known)), sheet[order], idf[at[order]] / length[sheet[order]]


def _starts(ascending: IntArray, n_groups: int) -> IntArray:
    counts = np.bincount(ascending, minlength=n_groups)
    return np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)


def _coded(values: TextArray) -> tuple[IntArray, TextArray]:
    numbers: dict[str, int] = {}
    code = np.array([numbers.setdefault(text, len(numbers)) for text in values.tolist()], dtype=np.int64)
    return code, texts(list(numbers))


def _day_numbers(sold: Sales) -> IntArray:
    return np.where(np.isnat(sold.sold_on), UNDATED, sold.sold_on.astype("datetime64[D]").astype(np.int64))


def _days_to_sell(sold: Sales) -> FloatArray:
    days = (sold.sold_on - sold.first_listed).astype("timedelta64[D]")
    known = ~np.isnat(days)
    found = np.where(known, days.astype(np.int64), 0).astype(np.float64)
    return np.where(known & (found >= 0), found, np.nan)


def _references(sold: Sales) -> TextArray:
    said = zip(sold.order_ref.tolist(), sold.listing_ref.tolist(), sold.row.tolist(), strict=True)
    return texts([order or listing or f"row {row}" for order, listing, row in said])
