"""Are a text's cells hidden in its lines?  Whole lines in quotation marks, or columns that only spaces keep apart.

Common practice, no source.
"""

import csv
import io
from collections import Counter
from collections.abc import Sequence
from itertools import groupby

from models.intake.files.delimiters import DELIMITERS, EVEN_SHARE, delimiter_of, sample_of, strength, widths

_NO_DELIMITER = "\x1f"
_FEWEST_LINES = 3  # that show columns kept apart by spaces
_LOOKED_AT = 200  # lines
_MOST_TITLES = 10  # lines above the header
_GAP = 2  # spaces that stand in nearly every line at the same place
_CROSSED = 0.1  # share of the lines, titles for example, that may run on through a gap

Span = tuple[int, int]


def laid_bare(text: str) -> str:
    """The text as delimited cells; any other text as it is.

    Parameters
    ----------
    text : str
        A decoded file that declares no delimiter.

    Examples
    --------
    >>> laid_bare('"Item,Qty"\\n"Mug,2"\\n')
    'Item,Qty\\nMug,2\\n'
    >>> laid_bare("Item   Qty\\nMug      2\\nJug     10\\n")
    'Item\\tQty\\nMug\\t2\\nJug\\t10\\n'
    >>> laid_bare("Item,Qty\\nMug,2\\n")
    'Item,Qty\\nMug,2\\n'
    """
    sample = sample_of(text)
    if sample.startswith('"'):
        return _unquoted(text, sample)
    if any(_is_even(sample, delimiter) for delimiter in DELIMITERS):
        return text
    gaps = _gaps(_lines(sample)[:_LOOKED_AT])
    return _cut_at(text, gaps) if gaps else text


def _lines(text: str) -> list[str]:
    return text.replace("\r\n", "\n").removesuffix("\n").split("\n")


def _unquoted(text: str, sample: str) -> str:
    """Every line is one quoted cell that holds cells itself: most as many as the first."""
    inner = _single_cells(sample)
    if not inner:
        return text
    delimiter = delimiter_of(inner)
    counted, first = widths(inner, delimiter), inner.index("\n")
    alike = counted[next(iter(widths(inner[:first], delimiter)), 1)]
    even = delimiter in inner[:first] and alike > counted.total() / 2
    return (_single_cells(text) or text) if even and strength(inner, delimiter) else text


def _single_cells(text: str) -> str:
    """What stands in the quotation marks, "" unless they stand around every whole line."""
    rows = [row for row in csv.reader(io.StringIO(text, newline=""), delimiter=_NO_DELIMITER) if row]
    written = "\n".join('"' + row[0].replace('"', '""') + '"' for row in rows)
    lines = [line for line in _lines(text) if line]
    return "".join(f"{row[0]}\n" for row in rows) if written == "\n".join(lines) else ""


def _is_even(sample: str, delimiter: str) -> bool:
    """Nearly all rows are equally wide, and in more than one cell."""
    counted = widths(sample, delimiter)
    width, rows = counted.most_common(1)[0] if counted else (1, 0)
    return width > 1 and rows >= EVEN_SHARE * counted.total()


def _gaps(lines: Sequence[str]) -> list[Span]:
    """Of the first lines, the one below which most columns stand apart is the header; none may cross its gaps."""
    lines = [line.rstrip() for line in lines if line.strip()]
    starts = range(min(_MOST_TITLES, len(lines) - _FEWEST_LINES) + 1)
    return max((_gaps_below(lines[start:]) for start in starts), key=len, default=[])


def _gaps_below(lines: Sequence[str]) -> list[Span]:
    """Runs of positions where the header and nearly every line below it have spaces."""
    inked = Counter(place for line in lines for place, sign in enumerate(line) if not sign.isspace())
    named = {place for place, sign in enumerate(lines[0]) if not sign.isspace()}
    places = range(min(inked), max(inked) + 1)
    empty = [place for place in places if place not in named and inked[place] <= _CROSSED * len(lines)]
    runs = [[place for _, place in run] for _, run in groupby(enumerate(empty), key=lambda pair: pair[1] - pair[0])]
    gaps = [(run[0], run[-1] + 1) for run in runs if len(run) >= _GAP]
    return [gap for gap in gaps if _parts(lines, gap)]


def _parts(lines: Sequence[str], gap: Span) -> bool:
    """Most lines have something on both sides."""
    both = sum(bool(line[: gap[0]].strip()) and bool(line[gap[1] :].strip()) for line in lines)
    return both > len(lines) / 2


def _cut_at(text: str, gaps: Sequence[Span]) -> str:
    """Lines that run on through a gap stay whole: they are titles or notes."""
    written = io.StringIO()
    writer = csv.writer(written, delimiter="\t", lineterminator="\n")
    ends = [
        (start, stop)
        for start, stop in zip([0, *(stop for _, stop in gaps)], [*(at for at, _ in gaps), None], strict=True)
    ]
    for line in _lines(text):
        whole = any(line[start:stop].strip() for start, stop in gaps)
        writer.writerow([line.strip()] if whole else [line[start:stop].strip() for start, stop in ends])
    return written.getvalue()
