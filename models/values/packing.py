"""How do tables and fitted models become bytes?  As plain arrays: no pickle, so reading them runs no code.

A dataclass of arrays, texts and numbers becomes one .npz; a text array becomes its UTF-8 bytes and their offsets.
"""

import io
from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from models.values.arrays import Arrays, TextArray, texts

_BYTES, _ENDS = "|utf8", "|ends"


def pack(arrays: Mapping[str, NDArray[Any]]) -> bytes:
    """Bytes of named arrays; object arrays must hold strings only.

    Examples
    --------
    >>> unpack(pack({"a": np.arange(2), "b": texts(["x", "é"])}))["b"].tolist()
    ['x', 'é']
    """
    plain: Arrays = {}
    for name, array in arrays.items():
        if array.dtype == object:
            encoded = [text.encode() for text in array]
            plain[name + _BYTES] = np.frombuffer(b"".join(encoded), dtype=np.uint8)
            plain[name + _ENDS] = np.cumsum([len(text) for text in encoded], dtype=np.int64)
        else:
            plain[name] = array
    buffer = io.BytesIO()
    np.savez_compressed(buffer, **plain)  # type: ignore[arg-type]
    return buffer.getvalue()


def unpack(data: bytes) -> Arrays:
    """The arrays that `pack` was given.

    Raises
    ------
    ValueError
        If the bytes hold anything but plain arrays.
    """
    with np.load(io.BytesIO(data), allow_pickle=False) as archive:
        plain = {name: archive[name] for name in archive.files}
    arrays: Arrays = {name: array for name, array in plain.items() if not name.endswith((_BYTES, _ENDS))}
    for name in [name.removesuffix(_ENDS) for name in plain if name.endswith(_ENDS)]:
        arrays[name] = _texts(plain[name + _BYTES].tobytes(), plain[name + _ENDS].tolist())
    return arrays


def _texts(data: bytes, ends: list[int]) -> TextArray:
    starts = [0, *ends[:-1]]
    return texts([data[start:end].decode() for start, end in zip(starts, ends, strict=True)]) if ends else texts([])
