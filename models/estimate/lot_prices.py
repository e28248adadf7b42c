"""What will each line of a lot fetch, and what do the lines share?  From a fitted model, or declared priors."""

import numpy as np

from models.estimate.blocks import Facts, design
from models.estimate.declared_prices import declared_cautions, declared_cells, declared_mu, declared_tags
from models.estimate.lot_basis import basis_of
from models.estimate.lot_cautions import lot_cautions
from models.estimate.lot_cells import fitted_cells
from models.estimate.lot_content import line_items, line_keys, lot_key
from models.estimate.lot_facts import OwnListings, plain_facts
from models.estimate.lot_joint import LotPrices
from models.estimate.lot_own import OwnSales, own_sales
from models.estimate.lot_states import states_of
from models.estimate.lot_tag_use import declared_use, tag_use
from models.estimate.lot_tags import read_tags
from models.estimate.price_model import PriceModel, offsets
from models.estimate.products import Matched
from models.estimate.sparse_rows import SparseRows, from_entries, joined_rows, stacked
from models.values.arrays import BoolArray, FloatArray, texts
from models.values.lines import Lines

__all__ = ["LotPrices", "price_lot"]

_SLICE_LINES = 5000


def price_lot(
    lines: Lines, matched: Matched, model: PriceModel, days_ahead: FloatArray, own: OwnListings | None = None
) -> LotPrices:
    """Price every line of a lot jointly.

    Parameters
    ----------
    lines : Lines
        The manifest.
    matched : Matched
        Product of each line, from the model's own book.
    model : PriceModel
        Fitted prices.
    days_ahead : ndarray of shape (n_lines,)
        Days from the last known sale to the expected sale.
    own : OwnListings, optional
        Where the lines are listings of the shop's own and not a manifest's.

    Returns
    -------
    LotPrices
        The mean is raised only by what the data taught: `mu` is lowered by half of all drift ahead and of what a
        never-seen level's variance exceeds its block's.

    Raises
    ------
    ValueError
        If `days_ahead` does not have one entry a line.

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> lines, sales = Lines.blank(2), Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> found = match(book, lines.description, lines.sku, lines.gtin)
    >>> price_lot(lines, found, model, np.zeros(2)).basis.tolist()
    ['prior_only', 'prior_only']
    """
    if len(days_ahead) != len(lines):
        raise ValueError(f"days_ahead has {len(days_ahead)} entries for {len(lines)} lines")
    return (_fitted if model.fitted else _declared)(lines, matched, model, days_ahead, own)


def _fitted(
    lines: Lines, matched: Matched, model: PriceModel, days_ahead: FloatArray, listings: OwnListings | None
) -> LotPrices:
    states = states_of(lines, matched, model, listings)
    plain = plain_facts(lines, matched, model, days_ahead, listings).in_condition(states.condition)
    tags = read_tags(lines, matched, model, plain)
    facts = plain.with_tag(tags.value - model.centre, tags.no_tag)
    own = own_sales(model, np.where(lines.assorted, -1, tags.remembered), states)
    rows, mu = _level(model, facts, own)
    cells = fitted_cells(model, facts, tags, own, matched, lines.assorted)
    use = tag_use(lines, tags, model)
    basis, sales = basis_of(model, facts, own.sales, ~np.isnan(use.used))
    keys = line_keys(lines, matched)
    return LotPrices(
        no=lines.no,
        quantity=lines.quantity,
        mu=mu + states.shift - cells.unearned() / 2,
        noise_var=_noise_var(model, facts, lines.assorted),
        rows=rows,
        posterior=model.posterior,
        cells=cells,
        item=line_items(lines, matched),
        key=keys,
        lot_key=lot_key(keys),
        condition=facts.condition,
        tag_use=use,
        basis=basis,
        sales_like_it=sales,
        cautions=lot_cautions(lines, tags, model),
    )


def _level(model: PriceModel, facts: Facts, own: OwnSales) -> tuple[SparseRows, FloatArray]:
    """X - BX and the fitted ln price, own sales counted; in slices, since entries take much memory before they join."""
    rows, mu = [], []
    for first in range(0, max(len(facts), 1), _SLICE_LINES):
        index = np.arange(first, min(first + _SLICE_LINES, len(facts)))
        some, level = _slice_level(model, facts.take(index), own.weights.take(index))
        rows.append(some)
        mu.append(level)
    return joined_rows(rows), np.concatenate(mu)


def _slice_level(model: PriceModel, facts: Facts, weights: SparseRows) -> tuple[SparseRows, FloatArray]:
    rows, items = design(model.posterior.layout, facts), model.items
    rest = items.outcome - items.rows.times(model.posterior.mean)
    mu = offsets(facts, model.centre) + rows.times(model.posterior.mean) + weights.times(rest)
    entries = items.rows.take(weights.column)
    own_rows = from_entries(
        weights.row[entries.row], entries.column, weights.value[entries.row] * entries.value, (len(facts), rows.width)
    )
    ones = np.ones(len(facts))
    return stacked([(rows, ones), (own_rows, -ones)]), mu


def _noise_var(model: PriceModel, facts: Facts, apart: BoolArray) -> FloatArray:
    """Variance of one sale's own noise; units of an assorted line differ as products do."""
    noise = model.noise
    by_top = dict(zip(noise.top.tolist(), noise.by_top.tolist(), strict=True))
    top = np.array([by_top.get(name, 1.0) for name in facts.top.tolist()])
    own = noise.common * noise.by_condition[facts.condition] * top * noise.by_tag[(facts.no_tag > 0).astype(np.int64)]
    return np.asarray(own + apart * (model.product_var + model.item_var), dtype=np.float64)


def _declared(
    lines: Lines, matched: Matched, model: PriceModel, days_ahead: FloatArray, listings: OwnListings | None
) -> LotPrices:
    facts = plain_facts(lines, matched, model, days_ahead, listings)
    tag = declared_tags(lines, matched, model.currency)
    keys = line_keys(lines, matched)
    use = declared_use(lines, tag)
    n_lines = len(lines)
    none = np.zeros(0)
    return LotPrices(
        no=lines.no,
        quantity=lines.quantity,
        mu=declared_mu(tag, model, facts),
        noise_var=np.full(n_lines, model.noise.common),
        rows=from_entries(none.astype(np.int64), none.astype(np.int64), none, (n_lines, 0)),
        posterior=model.posterior,
        cells=declared_cells(~np.isnan(tag), matched),
        item=line_items(lines, matched),
        key=keys,
        lot_key=lot_key(keys),
        condition=facts.condition,
        tag_use=use,
        basis=texts(["prior_only"] * n_lines),
        sales_like_it=np.zeros(n_lines, dtype=np.int64),
        cautions=declared_cautions(lines, model, tag),
    )
