"""Fit everything that a sold history can teach.  Job services and the command line import this; the web never does."""

import datetime as dt
from collections.abc import Callable

from models.appraisal.known import blanks_of, fingerprint, in_content_order, known_sales, known_until
from models.appraisal.model import Model
from models.estimate.fit.effort import fit_effort
from models.estimate.fit.learned import learned_minutes, learned_settings
from models.estimate.fit.own_comps import fit_comps
from models.estimate.fit.prices import fit_prices
from models.estimate.fit.tempo import fit_tempo
from models.estimate.pace import measured_pace
from models.estimate.products import build_book
from models.values.arrays import day
from models.values.categories import plain_path
from models.values.sales import Sales
from models.values.work_log import WorkLog

Progress = Callable[[float, str], None]


def fit(sales: Sales, as_of: dt.date, currency: str, progress: Progress, work_log: WorkLog | None = None) -> Model:
    """The model of one sold history, and of the work log beside it, as they were known on `as_of`."""
    until = known_until(sales, day(as_of))
    known = in_content_order(known_sales(sales, until))
    progress(0.05, "grouping products")
    book, product = build_book(known.title, known.sku, known.gtin)
    progress(0.10, "learning prices")
    prices = fit_prices(known, book, product, until, currency)
    progress(0.75, "learning time to sell")
    tempo = fit_tempo(known, product, book.n_products, until)
    progress(0.95, "learning listing effort")
    effort = fit_effort(known, product, None if work_log is None else work_log.take(work_log.on <= day(as_of)))
    pace = measured_pace(known, until, effort)
    return Model(
        book=book,
        prices=prices,
        tempo=tempo,
        effort=effort,
        learned=learned_settings(known, until, currency, pace) | learned_minutes(effort),
        pace=pace,
        currency=currency,
        known_until=until,
        sales_used=prices.sales_used,
        blanks=blanks_of(known),
        fingerprint=fingerprint(known),
        categories=tuple(sorted({plain_path(text) for text in set(known.category.tolist())} - {""})),
        comps=fit_comps(known, product),
    )
