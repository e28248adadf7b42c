"""Go back over the shop's own past with fewer days than the command line takes; keep what came with the version."""

from models.services.running import Running

MOST_CUT_OFFS = 20  # each is a fit of its own, and other trainings wait in the same queue


def run_backtest(running: Running) -> None:
    """Job body: load, walk, save in one transaction."""
    from models.appraisal.backtest.walk import Asked, backtest  # loads scikit-learn: only workers do

    job = running.job
    with running.read() as work:
        version = work.models.require_id(job.shop, job.subject_id)
        sales = work.sales.load(job.shop, tuple(job.payload["imports"]))
        currency = work.shops.require(job.shop).currency
    asked = Asked(version.as_of, currency, job.payload["given"], MOST_CUT_OFFS)
    found = backtest(sales, asked, lambda share, step: running.progress(share, f"testing on your own past: {step}"))
    with running.finish() as work:
        work.models.save_backtest(job.shop, job.subject_id, found)
