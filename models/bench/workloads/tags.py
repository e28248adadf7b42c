"""Tags are claims: what does a wrong one do, on one line and on a whole manifest?"""

from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.tag_trial import FACTORS, KNOWN, Measures, run_tag_trial
from models.bench.tasks import Results, Task
from models.bench.worlds.shape import Shape

_BARS = {
    "known/mean": "tag known mean", "known/p10": "tag known p10", "unknown/mean": "tag unknown mean",
    "unknown/p10": "tag unknown p10", "unknown/spread": "tag unknown spread",
    "unknown/dearest": "tag unknown dearest", "unknown/dearest, worst": "", "unknown/first": "tag unknown first",
    "no tag": "no tag is one value",
}  # fmt: skip


def shapes(plan: Plan, sales: int) -> list[Shape]:
    """The worlds of one size."""
    return [Shape(seed=seed, n_sales=sales) for seed in range(1, plan.tag_worlds[sales] + 1)]


def tasks(plan: Plan) -> list[Task]:
    """One task a world."""
    return [
        Task(run_tag_trial, shape, 4.0 if sales < 3000 else 10.0, f"tags, {sales:,} sales")
        for sales in plan.tag_worlds
        for shape in shapes(plan, sales)
    ]


def tables(plan: Plan, results: Results) -> list[Table]:
    """Single tags, then whole manifests."""
    single, whole = [], []
    for sales in plan.tag_worlds:
        worlds: list[Measures] = [results[shape] for shape in shapes(plan, sales)]
        figures = {key: Figure.of([world[key] for world in worlds], bar) for key, bar in _BARS.items()}
        single.append(Row((f"{sales:,}",), figures))
        whole += [Row((f"{sales:,}", f"x{factor:g}"), _manifest(worlds, factor)) for factor in FACTORS]
    return [
        Table("Tags: one line x10, against the same line honestly tagged", ("sales",), single,
              ("known: an item with 60 own sales; unknown: a brand never sold; six lots' known items a world.",)),
        Table("Tags: a whole manifest marked up, 20% quantile of the total against honest tags", ("sales", "tags"),
              whole, ("Columns: products of the lot that the shop has sold, beside its lines of brands never sold.",)),
    ]  # fmt: skip


def _manifest(worlds: list[Measures], factor: float) -> dict[str, Figure]:
    found = {}
    for count in KNOWN:
        bar = "manifest unknown" if count == 0 else "manifest known" if count > 1 else ""
        found[f"{count} known"] = Figure.of([world[f"manifest/{factor:g}/{count}"] for world in worlds], bar)
    return found
