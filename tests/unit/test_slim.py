"""Dicts of one form in less memory are dicts like any others."""

import json
import sys

from models.appraisal.slim import slim

_PLAIN = {f"key {number}": number for number in range(23)}


def test_a_slim_dict_equals_its_source_in_order_and_in_writing():
    assert slim(_PLAIN) == _PLAIN
    assert json.dumps(slim(_PLAIN)) == json.dumps(_PLAIN)


def test_slim_dicts_hold_values_of_their_own():
    one, other = slim(_PLAIN), slim(_PLAIN | {"key 3": "b"})
    one["key 0"] = "a"
    one["more"] = 1
    assert other == _PLAIN | {"key 3": "b"}
    assert slim(_PLAIN) == _PLAIN


def test_a_form_in_another_order_stays_in_its_order():
    slim(_PLAIN)
    other = dict(reversed(_PLAIN.items()))
    assert list(slim(other)) == list(other)


def test_a_slim_dict_takes_less_than_half_the_memory():
    assert sys.getsizeof(slim(_PLAIN)) < sys.getsizeof(dict(_PLAIN)) / 2
