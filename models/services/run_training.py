"""Fit a model version on the shop's sales; the first one becomes active, and each is tested on the past by itself."""

import json
from collections.abc import Mapping
from typing import Any

import numpy as np

from models.appraisal.pace_words import pace_document
from models.services.activate_model import activate_model
from models.services.running import Running
from models.services.submit_backtest import submit_backtest
from models.services.work_log import as_columns
from models.store.queries.model_versions import Fitted
from models.store.records import ShopId
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Rejected
from models.values.given import Given

LOOKED_BACK = 20  # versions


def run_training(running: Running) -> None:
    """Job body: load, fit, save in one transaction."""
    from models.appraisal.training import fit  # loads scikit-learn: only workers and the command line do

    job = running.job
    with running.read() as work:
        version = work.models.require_id(job.shop, job.subject_id)
        sales = work.sales.load(job.shop, tuple(job.payload["imports"]))
        change = work.sales.last_change(job.shop, job.payload["imports"])
        log = as_columns(work.work_log.load(job.shop, job.payload.get("work_log", ())))
        currency = work.shops.require(job.shop).currency
    running.progress(0.05, "fitting")
    model = fit(sales, version.as_of, currency, lambda share, step: running.progress(0.05 + 0.85 * share, step), log)
    if model.sales_used == 0 and np.any(sales.sold_price > 0):
        raise Rejected(f"None of your sales is known to have sold by {version.as_of}: take a later day.")
    facts = {
        "products": model.book.n_products,
        "known_until": str(model.known_until),
        "rows": len(sales),
        "change": change,
        "pace": None if model.pace is None else pace_document(model.pace),
        "timings": model.effort.timings,
        "work_log": {"entries": model.effort.entries, "items": model.effort.items},
    }
    fitted = Fitted(model.to_bytes(), model.fingerprint, model.sales_used, model.learned, facts)
    with running.finish() as work:
        work.shops.lock(job.shop)
        if (same := _unchanged_since(work, job.shop, fitted)) is not None:
            fitted.facts["same_as"] = same
        saved = work.models.save_fitted(job.shop, job.subject_id, fitted)
        if work.models.get_active_number(job.shop) is None:
            activate_model(work, job.shop, saved.number)
        submit_backtest(work, job.shop, saved.id, job.payload["imports"])


def _unchanged_since(work: UnitOfWork, shop: ShopId, fitted: Fitted) -> int | None:
    """The latest fitted version that learned the same from the same sales; None where there is none."""
    for before in work.models.page(shop, LOOKED_BACK, None).items:
        if before.fitted and before.fingerprint == fitted.fingerprint:
            is_same = _written(before.learned, before.facts) == _written(fitted.learned, fitted.facts)
            return before.number if is_same else None
    return None


def _written(learned: Given, facts: Mapping[str, Any]) -> str:
    """Of what was learned all but when: rows that changed and changed back teach the same."""
    told = {name: fact for name, fact in facts.items() if name not in ("same_as", "change")}
    return json.dumps([learned, told], sort_keys=True, default=str)
