"""What do state and kind of goods do to minutes, and how well is that known?  One answer a distinct kind of goods."""

import numpy as np

from models.estimate.effort_model import KINDS, EffortModel
from models.estimate.tempo_levels import Levels, category_keys
from models.values.arrays import FloatArray, IntArray, TextArray, texts
from models.values.conditions import CONDITIONS
from models.values.lines import Lines


def goods_effect(lines: Lines, model: EffortModel) -> FloatArray:
    """Ln of each line's mean minutes over those of the history's usual goods.

    Parameters
    ----------
    lines : Lines
        The manifest.
    model : EffortModel
        What was learned.

    Returns
    -------
    ndarray of shape (n_lines,)
        0 where nothing was learned.

    Notes
    -----
    The mean of a log-normal is above its median by half of its log variance, so goods that are known less take longer
    on average than their effect alone says.  Where nothing was learned the settings' minutes are means already.
    """
    top, sub = category_keys(lines.category)
    kinds, of = _distinct(lines.condition.astype(np.int64), top, sub)
    condition = np.array([kind[0] for kind in kinds], dtype=np.int64)
    tops, subs = (texts([str(kind[part]) for kind in kinds]) for part in (1, 2))
    mixed = float(model.usual_conditions @ model.condition_effect)
    effect = np.where(condition >= 0, model.condition_effect[np.maximum(condition, 0)], mixed)
    effect += model.top.effect_of(tops) + model.sub.effect_of(subs) - model.usual_effect
    if np.isfinite(model.unit_minutes):
        effect += (_variance(model, condition, tops, subs) - _usual_variance(model)) / 2.0
    return np.asarray(effect[of])


def places(levels: Levels, names: TextArray) -> IntArray:
    """Column of each name among the levels, -1 where it has none.

    Parameters
    ----------
    levels : Levels
        The learned ones.
    names : ndarray of shape (n,)
        Looked up.

    Returns
    -------
    ndarray of shape (n,)
    """
    place = {name: at for at, name in enumerate(levels.name.tolist())}
    return np.array([place.get(name, -1) for name in names.tolist()], dtype=np.int64)


def _variance(model: EffortModel, condition: IntArray, top: TextArray, sub: TextArray) -> FloatArray:
    """Of each kind's ln minutes of a first unit, levels without a column included."""
    load = np.zeros((len(condition), len(model.root)))
    load[:, 0] = 1.0
    strange = np.zeros(len(condition))
    start = len(KINDS) + len(CONDITIONS)
    named = np.flatnonzero(condition >= 0)
    load[named, len(KINDS) + condition[named]] = 1.0
    load[condition < 0, len(KINDS) : start] = model.usual_conditions
    for levels, names, sd in ((model.top, top, model.top_sd), (model.sub, sub, model.sub_sd)):
        at = places(levels, names)
        row = np.flatnonzero(at >= 0)
        load[row, start + at[row]] = 1.0
        strange += np.where((at < 0) & (names != ""), sd**2, 0.0)
        start += len(levels.name)
    return np.asarray(((load @ model.root) ** 2).sum(axis=1) + strange)


def _usual_variance(model: EffortModel) -> float:
    usual = model.usual.copy()
    usual[0] = 1.0
    return float(((usual @ model.root) ** 2).sum())


def _distinct(condition: IntArray, top: TextArray, sub: TextArray) -> tuple[list[tuple[int, str, str]], IntArray]:
    """Kinds of goods in the order of their appearance, and the kind of each line."""
    number: dict[tuple[int, str, str], int] = {}
    rows = zip(condition.tolist(), top.tolist(), sub.tolist(), strict=True)
    of = np.array([number.setdefault(row, len(number)) for row in rows], dtype=np.int64)
    return list(number), of
