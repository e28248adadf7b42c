"""Several sold history files read together: one table, one list of what was wrong, each thing with its file's name."""

from collections.abc import Sequence
from dataclasses import replace

from models.intake.history import ReadHistory
from models.intake.sales.history_cautions import joined_cautions
from models.intake.sales.joined import join_history
from models.intake.sales.overlaps import overlap_cautions
from models.values.problems import Caution, Problems


def histories_together(named: Sequence[tuple[str, ReadHistory]]) -> ReadHistory:
    """As one history.

    Parameters
    ----------
    named : sequence of (str, ReadHistory)
        At least one; in the order of their files, later ones correct earlier ones.

    Returns
    -------
    ReadHistory
        Of a single file just what was read.  Of several: rows are counted over all files; `mapping` is empty, since
        each file has its own.

    Examples
    --------
    >>> from models.intake.history import read_history
    >>> orders = read_history(b"order,title,sold_price,sold_on\\nO1,Mug,8,2026-05-01\\n", "o.csv", {}, "USD")
    >>> fees = read_history(b"order,fees\\nO1,1.20\\n", "f.csv", {}, "USD")
    >>> histories_together([("o.csv", orders), ("f.csv", fees)]).sales.fees.tolist()
    [120.0]
    """
    if len(named) == 1:
        return named[0][1]
    joined = join_history([read.part for _, read in named])
    own = tuple(
        Caution(f"{name}: {one.what}", one.check, one.line) for name, read in named for one in read.file_cautions
    )
    headers = tuple(dict.fromkeys(header for _, read in named for header in read.headers))
    overlaps = overlap_cautions([(name, read.part) for name, read in named])
    told = (*own, *overlaps, *joined_cautions(joined))
    return ReadHistory(joined.sales, _summed(named), told, {}, headers, named[-1][1].part, own)


def _summed(named: Sequence[tuple[str, ReadHistory]]) -> Problems:
    counts = [read.problems for _, read in named]
    items = tuple(
        replace(item, reason=f"{name}: {item.reason}") for name, read in named for item in read.problems.items
    )
    return Problems(
        sum(one.rows for one in counts), sum(one.kept for one in counts), sum(one.set_aside for one in counts), items
    )
