"""Gradient-boosted trees on the same columns, one thread each.  Both libraries come with the extra `bench` only."""

from typing import Any

import numpy as np
import pandas

from models.bench.baselines.forecast import Baseline, smearing_factor
from models.bench.baselines.inputs import Columns, Inputs
from models.values.arrays import FloatArray

ROUNDS = 300
KINDS = ["brand", "top", "sub", "condition"]


def lightgbm_trees(inputs: Inputs, outcome: FloatArray) -> Baseline:
    """LightGBM on the sparse columns; small histories get small leaves."""
    import lightgbm

    columns = Columns(inputs)
    settings = {
        "objective": "regression", "learning_rate": 0.05, "num_leaves": 31, "num_threads": 1, "verbosity": -1,
        "min_data_in_leaf": int(np.clip(len(outcome) // 20, 3, 20)), "lambda_l2": 1.0, "seed": 1, "deterministic": True,
        "feature_pre_filter": False,
    }  # fmt: skip
    data = lightgbm.Dataset(columns.of(inputs), outcome, free_raw_data=False, params={"verbosity": -1})
    model = lightgbm.train(settings, data, ROUNDS)

    def predict(asked: Inputs) -> FloatArray:
        return np.asarray(model.predict(columns.of(asked), num_threads=1), dtype=np.float64)

    return Baseline(predict, smearing_factor(outcome - predict(inputs)))


def catboost_trees(inputs: Inputs, outcome: FloatArray) -> Baseline:
    """CatBoost with its own handling of kinds and of words."""
    import catboost

    model = catboost.CatBoostRegressor(
        iterations=ROUNDS, learning_rate=0.06, depth=6, thread_count=1, random_seed=1, verbose=False,
        allow_writing_files=False, boosting_type="Plain", max_ctr_complexity=1, cat_features=KINDS,
        text_features=["title"], text_processing=_words(len(outcome)),
    )  # fmt: skip
    model.fit(_frame(inputs), outcome)

    def predict(asked: Inputs) -> FloatArray:
        return np.asarray(model.predict(_frame(asked), thread_count=1), dtype=np.float64)

    return Baseline(predict, smearing_factor(outcome - predict(inputs)))


def _words(rows: int) -> dict[str, Any]:
    """Single words, the most frequent 200; pairs or more words cost minutes and gained nothing."""
    seen = str(max(1, min(5, rows // 100)))
    calcer = {"tokenizers_names": ["space"], "dictionaries_names": ["words"]}
    return {
        "tokenizers": [{"tokenizer_id": "space", "delimiter": " "}],
        "dictionaries": [{"dictionary_id": "words", "occurrence_lower_bound": seen, "max_dictionary_size": "2000"}],
        "feature_processing": {"default": [calcer | {"feature_calcers": ["BoW:top_tokens_count=200"]}]},
    }


def _frame(inputs: Inputs) -> pandas.DataFrame:
    table = pandas.DataFrame(inputs.kinds, columns=KINDS, dtype=object)
    return table.assign(title=inputs.title, tag=inputs.tag, bulk=inputs.bulk, age=inputs.age)
