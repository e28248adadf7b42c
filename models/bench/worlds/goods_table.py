"""Rows joined and changed, for workloads that ask one pointed question of a history or a lot."""

from dataclasses import fields, replace
from typing import TypeVar

import numpy as np

from models.values.arrays import FloatArray
from models.values.lines import Lines
from models.values.sales import Sales

Rows = TypeVar("Rows", Sales, Lines)


def joined(first: Rows, second: Rows) -> Rows:
    """Two tables of one kind, one after the other; rows keep their own numbers."""
    columns = {one.name: np.concatenate([getattr(first, one.name), getattr(second, one.name)]) for one in fields(first)}
    return type(first)(**columns)


def numbered(lines: Lines) -> Lines:
    """Lines numbered in their order."""
    return replace(lines, no=np.arange(len(lines)) + 1, row=np.arange(len(lines)) + 2)


def tagged(lines: Lines, tag: FloatArray) -> Lines:
    """The same lines with other tags [minor units]."""
    return replace(lines, tag_each=tag)
