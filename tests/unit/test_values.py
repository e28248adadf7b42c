"""Streams, packing and categories: the small things every room leans on."""

import io

import numpy as np
import pytest

from models.values.arrays import texts
from models.values.categories import top_and_sub
from models.values.packing import pack, unpack
from models.values.settings import Settings
from models.values.streams import standard_normals, stream


def test_a_stream_depends_on_seed_kind_and_key_and_on_nothing_else() -> None:
    first = standard_normals(7, "brand", "acorn", draws=4)
    assert np.array_equal(first, standard_normals(7, "brand", "acorn", draws=4))
    for other in ((8, "brand", "acorn"), (7, "item", "acorn"), (7, "brand", "acorns"), (7, "bran", "dacorn")):
        assert not np.array_equal(first, standard_normals(*other, draws=4))


def test_two_streams_are_not_correlated() -> None:
    one, two = standard_normals(1, "lot"), standard_normals(1, "drift")
    assert abs(np.corrcoef(one, two)[0, 1]) < 4 / np.sqrt(len(one))
    assert abs(stream(1, "a").random(100_000).mean() - 0.5) < 0.005


def test_packed_arrays_come_back_as_they_were() -> None:
    arrays = {
        "words": texts(["", "naïve", "日本", "a\x00b"]),
        "none": texts([]),
        "days": np.array(["2026-07-01", "NaT"], dtype="datetime64[D]"),
        "money": np.array([[1.5, np.nan]]),
    }
    back = unpack(pack(arrays))
    assert back.keys() == arrays.keys()
    for name, array in arrays.items():
        assert back[name].tolist() == array.tolist() or np.array_equal(back[name], array, equal_nan=True)


def test_bytes_that_would_run_code_are_refused() -> None:
    buffer = io.BytesIO()
    np.savez(buffer, evil=np.array([{"a": 1}], dtype=object))
    with pytest.raises(ValueError, match="allow_pickle"):
        unpack(buffer.getvalue())


@pytest.mark.parametrize(
    ("path", "parts"), [("A>B>C", ("a", "c")), (" > ", ("", "")), ("Home  Goods", ("home goods", "home goods"))]
)
def test_a_category_has_a_top_and_a_sub(path: str, parts: tuple[str, str]) -> None:
    assert top_and_sub(path) == parts


def test_rivals_are_words_or_a_number() -> None:
    assert Settings().rivals_count == 3.0
