"""TF-IDF weights and cosines against scikit-learn's TfidfVectorizer (binary, smooth_idf, l2).

Formula: G. Salton, C. Buckley (1988), Term-weighting approaches in automatic text retrieval, Information Processing &
Management 24(5), 513-523, doi:10.1016/0306-4573(88)90021-0; idf = ln((1 + n) / (1 + df)) + 1 as in its user guide.
"""

from dataclasses import replace

import numpy as np
import pytest
from sklearn.feature_extraction.text import TfidfVectorizer

from models.estimate.comp_sheets import LEAST_ALIKE
from models.estimate.fit.own_comps import fit_comps
from models.estimate.lot_comps import nearest_sales
from models.values.arrays import texts
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream


def test_weights_and_cosines_are_those_of_scikit_learn() -> None:
    rng = stream(1, "tfidf")
    titles = sorted({" ".join(f"word{one}" for one in rng.integers(0, 30, 6)) for _ in range(120)})
    sales = replace(Sales.blank(len(titles)), title=texts(titles), sold_price=np.full(len(titles), 100.0))
    product = np.arange(len(titles))
    comps = fit_comps(sales, product)

    judge = TfidfVectorizer(binary=True, token_pattern=r"\w+")
    theirs = judge.fit_transform(titles)
    assert comps.word.tolist() == judge.get_feature_names_out().tolist()
    assert comps.idf == pytest.approx(judge.idf_, rel=1e-6)

    asked = titles[:40]
    found = nearest_sales(replace(Lines.blank(40), description=texts(asked)), np.full(40, -1), comps, 0.0)
    cosine = np.sort((judge.transform(asked) @ theirs.T).toarray(), axis=1)[:, ::-1][:, :5]
    shown = found.sale >= 0
    assert found.likeness[shown] == pytest.approx(cosine[shown], abs=1e-4)
    assert np.array_equal(shown, np.round(cosine, 4) >= LEAST_ALIKE)
