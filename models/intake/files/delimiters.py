"""Which sign separates the cells of a text?  The one that cuts most rows into the same number."""

import csv
import io
from collections import Counter

DELIMITERS = ("\t", ";", "|", ",")  # rarer in prose first: ties go to it
EVEN_SHARE = 0.9  # of rows as wide as each other, where every delimiter is followed by a space as in prose
_SAMPLE_CHARACTERS = 1 << 16


def delimiter_of(text: str) -> str:
    """The sign that cuts most rows into the same number of cells.

    Examples
    --------
    >>> delimiter_of("a;b;c\\nx;1,5;2\\n"), delimiter_of("alone\\n")
    (';', '\\t')
    """
    sample = sample_of(text)
    return max(DELIMITERS, key=lambda delimiter: strength(sample, delimiter))


def sample_of(text: str) -> str:
    """The first whole lines of a text.

    Examples
    --------
    >>> sample_of("a,b\\nx,1\\n") == "a,b\\nx,1\\n"
    True
    """
    sample = text[:_SAMPLE_CHARACTERS]
    if len(text) > _SAMPLE_CHARACTERS:
        sample = sample[: max(sample.rfind("\n"), sample.rfind("\r")) + 1] or sample
    return sample


def widths(sample: str, delimiter: str) -> Counter[int]:
    """How many rows of each number of cells.

    Examples
    --------
    >>> sorted(widths("a,b\\nx,1\\n\\ny\\n", ",").items())
    [(1, 1), (2, 2)]
    """
    reader = csv.reader(io.StringIO(sample, newline=""), delimiter=delimiter, skipinitialspace=delimiter != "\t")
    return Counter(len(row) for row in reader if row)


def strength(sample: str, delimiter: str) -> int:
    """How many cuts a delimiter makes in rows of the same width; none where it stands as in prose.

    Examples
    --------
    >>> strength("a,b,c\\nx,1,2\\n", ","), strength("Mug, blue\\nJug\\nPot\\n", ",")
    (4, 0)
    """
    counted = widths(sample, delimiter)
    width, count = max(counted.items(), key=lambda item: (item[0] - 1) * item[1], default=(1, 0))
    in_prose = sample.count(delimiter) == sample.count(delimiter + " ")
    return 0 if in_prose and count < EVEN_SHARE * counted.total() else (width - 1) * count
