"""Is the ceiling honest for a lot that was WON?  Rising and sealed auctions of lots with known truth.

Several shops of one market, each with sales of its own, value the same lots under the same rules.
"""

from models.bench.auctions.judged import BASES, Crowd
from models.bench.auctions.trial import BIDDINGS, DRAWN, EQUAL_KINDS, OTHER_KINDS, Kind, Measures, run_auctions
from models.bench.figures import Figure, Row, Table
from models.bench.plan import Plan
from models.bench.tasks import Results, Task
from models.bench.workloads.price import LOT_SDS
from models.bench.worlds.shape import Shape

FIRST_SEED = 3001  # other worlds than those of prices and money
SALES, MORE = 300, 10  # of a shop, and how many times as much the better informed rivals have sold
SHOPS, EXPERTS = 9, 2
_NOTES = (
    f"{SALES} sales a shop; half of the worlds have a lot sd of {LOT_SDS[0]:.2f}, half of {LOT_SDS[1]:.2f}.",
    "Lost: of the lots that one shop of interest won, the share whose cash proceeds fell short of the cash out; the",
    "stated chance is .20.  Simplified: every unit sells singly in its window, at costs that are a share of its price;",
    "no return and no pay is asked for, so that confidence binds; totals by the closed form.  Stand-ins: a normal law",
    f"of ln values by world, calibrated on its shops, {DRAWN:,} auctions a row.  Lost, shops: the real shops' own",
    "auctions under the rules themselves, any winner.",
)


def crowds(plan: Plan) -> list[Crowd]:
    """Half of the worlds have calm lots, half hard ones."""
    worlds, lots = plan.auctions
    return [
        Crowd(Shape(FIRST_SEED + number, SALES, LOT_SDS[number % 2]), lots, SHOPS, EXPERTS, MORE * SALES)
        for number in range(worlds)
    ]


def tasks(plan: Plan) -> list[Task]:
    """One task a world."""
    return [Task(run_auctions, crowd, 8.0, "auctions") for crowd in crowds(plan)]


def tables(plan: Plan, results: Results) -> list[Table]:
    """Losses of won lots, money, then what was calibrated on."""
    worlds: list[Measures] = [results[crowd] for crowd in crowds(plan)]
    sds = [crowd.shape.lot_sd for crowd in crowds(plan)]
    rows = [(bidding, kind) for bidding in BIDDINGS for kind in (*EQUAL_KINDS, *OTHER_KINDS)]
    losses = [Row(_labels(*one), _losses(worlds, sds, *one)) for one in rows]
    money = [Row(_labels(*one), _money(worlds, *one)) for one in rows]
    return [
        Table("Auctions: cash losses of won lots", ("bidding", "told", "there", "rivals"), losses, _NOTES),
        Table("Auctions: what it earns, a lot offered, in shares of the lot's true median",
              ("bidding", "told", "there", "rivals"), money,
              ("In its place, against the same rivals: without the shade; the oracle, who knows the odds of the true",
               "worth, under the same rule; the share of the tags that the shop's own purchases brought four times in",
               "five; the same share of all these lots, which nobody knows before.  Nobody shades: all of them.")),
        Table("Auctions: what the stand-ins were calibrated on", (), [Row((), _calibration(worlds))],
              ("Log units; own / judgement: variance of a shop's own error in shares of its judgement_sd squared.",)),
    ]  # fmt: skip


def _labels(bidding: str, kind: Kind) -> tuple[str, ...]:
    said = (
        "equal, shade alike" if kind in EQUAL_KINDS else kind.key if kind.key.startswith("rivals") else "shade as told"
    )
    return bidding, str(kind.told), str(kind.rivals), said


def _losses(worlds: list[Measures], sds: list[float], bidding: str, kind: Kind) -> dict[str, Figure]:
    key = f"{bidding}/{kind.key}"
    found = {"lost": _mean(worlds, f"{key}/ours/lost", "auction loss" if kind in EQUAL_KINDS else "")}
    for lot_sd in LOT_SDS:
        own = [world for world, sd in zip(worlds, sds, strict=True) if sd == lot_sd]
        found[f"lot sd {lot_sd:.2f}"] = _mean(own, f"{key}/ours/lost")
    if kind in EQUAL_KINDS:
        found["lost, shops"] = _mean(worlds, f"{key}/lost, shops")
        found["lost, nobody shades"] = _mean(worlds, f"{key}/nobody shades/lost")
    found["without our shade"] = _mean(worlds, f"{key}/unshaded/lost")
    found["actual / expected"] = _mean(worlds, f"{key}/actual / expected")
    found["won"] = _mean(worlds, f"{key}/won")
    return found


def _money(worlds: list[Measures], bidding: str, kind: Kind) -> dict[str, Figure]:
    key = f"{bidding}/{kind.key}"
    found = {"ours": _mean(worlds, f"{key}/ours/profit"), "without our shade": _mean(worlds, f"{key}/unshaded/profit")}
    if kind in EQUAL_KINDS:
        found["nobody shades"] = _mean(worlds, f"{key}/nobody shades/profit")
    for name in ("oracle", "tags", "tags, hindsight"):
        found[name] = _mean(worlds, f"{key}/{name}/profit")
    found["/ oracle"] = Figure.of([found["ours"].mean / found["oracle"].mean])
    for name in ("oracle", "tags", "tags, hindsight"):
        found[f"{name}: lost"] = _mean(worlds, f"{key}/{name}/lost")
    return found


def _calibration(worlds: list[Measures]) -> dict[str, Figure]:
    names = (
        "mean error", "shared error", "own error", "stated sd", "judgement sd", "own / judgement",
        "stated sd, ten times the sales", *(f"lines by {name}" for name in BASES),
    )  # fmt: skip
    return {name: _mean(worlds, name) for name in names}


def _mean(worlds: list[Measures], key: str, bar: str = "") -> Figure:
    return Figure.of([world[key] for world in worlds], bar)
