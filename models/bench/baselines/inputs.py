"""What do the other methods see?  The same columns as ours: words, brand, category, condition, tag, bulk, age."""

import itertools
from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix, hstack
from sklearn.feature_extraction.text import TfidfVectorizer
from sklearn.preprocessing import OneHotEncoder

from models.estimate.words import words_of
from models.values.arrays import FloatArray, TextArray
from models.values.categories import top_and_sub
from models.values.lines import Lines
from models.values.sales import Sales

_DAY = np.timedelta64(1, "D")


@dataclass(frozen=True)
class Inputs:
    """Arrays of shape (n_rows,)."""

    title: TextArray
    kinds: TextArray  # (n_rows, 4): brand, top, sub, condition
    tag: FloatArray  # ln of a tag that can be one [ln minor units], NaN otherwise
    bulk: FloatArray
    age: FloatArray  # years before the cut-off; negative ahead of it


def of_sales(sales: Sales, cutoff: np.datetime64) -> Inputs:
    """Rows of a history; every one must have sold."""
    age = (cutoff - sales.sold_on) / _DAY / 365.25
    bulk = np.where(sales.sourced < 0, 1 / 3, sales.sourced).astype(np.float64)
    return Inputs(sales.title, _kinds(sales), _tag(sales.tag_each), bulk, np.asarray(age, dtype=np.float64))


def of_lines(lines: Lines, days_ahead: float) -> Inputs:
    """Lines of a lot."""
    age = np.full(len(lines), -days_ahead / 365.25)
    return Inputs(lines.description, _kinds(lines), _tag(lines.tag_each), np.ones(len(lines)), age)


def _kinds(rows: Sales | Lines) -> TextArray:
    paths = [top_and_sub(text) for text in rows.category.tolist()]
    found = np.empty((len(paths), 4), dtype=object)
    found[:, 0] = rows.brand
    found[:, 1] = [top for top, _ in paths]
    found[:, 2] = [sub for _, sub in paths]
    found[:, 3] = [str(int(code)) for code in rows.condition]
    return found


def _tag(tag: FloatArray) -> FloatArray:
    """Placeholders are nobody's tag: 0, .01 and 999999 are taken out for every method alike."""
    sane = (np.nan_to_num(tag) >= 50) & (np.nan_to_num(tag) < 99_999_900)
    return np.where(sane, np.log(np.where(sane, tag, 1.0)), np.nan)


class Columns:
    """Sparse columns: TF-IDF of words and pairs, one column a level, standardised numbers."""

    def __init__(self, inputs: Inputs) -> None:
        self._words = TfidfVectorizer(analyzer=_terms, sublinear_tf=True)
        self._levels = OneHotEncoder(handle_unknown="ignore")
        self._words.fit(inputs.title.tolist())
        self._levels.fit(inputs.kinds)
        tags = inputs.tag[~np.isnan(inputs.tag)]
        self._centre = float(tags.mean()) if len(tags) else 0.0

    def of(self, inputs: Inputs) -> csr_matrix:
        """Columns of any rows; what was not seen in the fit is left out."""
        known = ~np.isnan(inputs.tag)
        tag = np.where(known, inputs.tag - self._centre, 0.0)
        numbers = np.stack([tag, (~known).astype(np.float64), inputs.bulk, inputs.age], axis=1)
        words = self._words.transform(inputs.title.tolist())
        return csr_matrix(hstack([csr_matrix(numbers), self._levels.transform(inputs.kinds), words]))


def _terms(title: str) -> list[str]:
    words = words_of(title)
    return [*words, *(f"{one} {other}" for one, other in itertools.pairwise(words))]
