"""How does a reading cross from the child to us?  Columns as plain arrays, the rest as JSON beside them."""

import json
from collections.abc import Mapping
from dataclasses import asdict, fields
from typing import Any

from models.intake.history import ReadHistory
from models.intake.manifest import ReadManifest
from models.values.arrays import Arrays, texts
from models.values.errors import NeedsColumns, Rejected, TooLarge, Unreadable
from models.values.lines import Lines
from models.values.packing import pack
from models.values.problems import Caution, Problems, RowProblem
from models.values.sales import Sales

_REST = "_rest"
_REFUSALS: Mapping[str, type[Rejected]] = {kind.__name__: kind for kind in (Unreadable, TooLarge, Rejected)}


def packed_reading(read: ReadManifest | ReadHistory) -> bytes:
    """A reading as bytes.

    Examples
    --------
    >>> from models.intake.history import read_history
    >>> from models.values.packing import unpack
    >>> read = read_history(b"title,sold_price\\nMug,5\\n", "s.csv", {}, "USD")
    >>> history_of(unpack(packed_reading(read))).sales.title.tolist()
    ['Mug']
    """
    table = read.lines if isinstance(read, ReadManifest) else read.sales
    rest = {
        "problems": asdict(read.problems),
        "cautions": [asdict(one) for one in read.cautions],
        "mapping": read.mapping,
        "headers": read.headers,
    }
    columns = {field.name: getattr(table, field.name) for field in fields(table)}
    return _packed(columns, rest)


def packed_refusal(error: Rejected) -> bytes:
    """An error as bytes; `raise_if_refused` raises it again.

    Examples
    --------
    >>> from models.values.packing import unpack
    >>> raise_if_refused(unpack(packed_refusal(TooLarge("too many rows"))))
    Traceback (most recent call last):
    models.values.errors.TooLarge: too many rows
    """
    told: dict[str, Any] = {"refused": type(error).__name__, "message": error.message, "faults": error.faults}
    if isinstance(error, NeedsColumns):
        told |= {"missing": error.missing, "headers": error.headers}
    if isinstance(error, Unreadable) and error.problems:
        told |= {"problems": asdict(error.problems)}
    return _packed({}, told)


def raise_if_refused(arrays: Arrays) -> None:
    """Raise the error that was packed, if one was.

    Raises
    ------
    Rejected
        Of the class it had in the child.
    """
    rest = _rest(arrays)
    kind = rest.get("refused")
    if kind is None:
        return
    if kind == NeedsColumns.__name__:
        raise NeedsColumns(rest["message"], rest["missing"], rest["headers"])
    if kind == Unreadable.__name__ and "problems" in rest:
        raise Unreadable(rest["message"], rest["faults"], _problems(rest))
    raise _REFUSALS.get(kind, Unreadable)(rest["message"], rest["faults"])


def manifest_of(arrays: Arrays) -> ReadManifest:
    """The manifest that was packed."""
    rest = _rest(arrays)
    return ReadManifest(
        Lines(**_columns(arrays)), _problems(rest), _cautions(rest), rest["mapping"], tuple(rest["headers"])
    )


def history_of(arrays: Arrays) -> ReadHistory:
    """The history that was packed."""
    rest = _rest(arrays)
    return ReadHistory(
        Sales(**_columns(arrays)), _problems(rest), _cautions(rest), rest["mapping"], tuple(rest["headers"])
    )


def _packed(columns: Arrays, rest: dict[str, Any]) -> bytes:
    return pack(columns | {_REST: texts([json.dumps(rest)])})


def _rest(arrays: Arrays) -> dict[str, Any]:
    rest: dict[str, Any] = json.loads(arrays[_REST][0])
    return rest


def _columns(arrays: Arrays) -> Arrays:
    return {name: array for name, array in arrays.items() if name != _REST}


def _problems(rest: Mapping[str, Any]) -> Problems:
    told = rest["problems"]
    items = tuple(RowProblem(**item) for item in told["items"])
    return Problems(told["rows"], told["kept"], told["set_aside"], items)


def _cautions(rest: Mapping[str, Any]) -> tuple[Caution, ...]:
    return tuple(Caution(**one) for one in rest["cautions"])
