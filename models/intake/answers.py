"""How does a reading cross from the child to us?  Columns as plain arrays, the rest as JSON beside them."""

import json
from collections.abc import Mapping
from dataclasses import asdict, fields, replace
from typing import Any

import numpy as np

from models.intake.history import ReadHistory, alone
from models.intake.manifest import ReadManifest
from models.values.arrays import Arrays, texts
from models.values.errors import NeedsColumns, Rejected, TooLarge, Unreadable
from models.values.lines import Lines
from models.values.packing import pack
from models.values.problems import Caution, Problems, RowProblem, stated_totals
from models.values.questions import question_of
from models.values.sale_parts import SalePart
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
    table = read.lines if isinstance(read, ReadManifest) else read.part.sales
    rest: dict[str, Any] = {
        "problems": asdict(read.problems),
        "cautions": [asdict(one) for one in read.cautions],
        "mapping": read.mapping,
        "headers": read.headers,
        "confidence": dict(read.confidence),
        "unfound": read.unfound,
    }
    columns = {field.name: getattr(table, field.name) for field in fields(table)}
    if isinstance(read, ReadHistory):
        columns |= {"role": read.part.role, "piece": read.part.piece}
        columns["made_on"] = np.array([read.part.made_on])
        rest |= {"cautions": [asdict(one) for one in read.file_cautions], "buyers": read.buyers}
    return _packed(columns, rest)


def packed_bytes(content: bytes | None) -> bytes:
    """A file, or that there is none."""
    return _packed({} if content is None else {"content": np.frombuffer(content, dtype=np.uint8)}, {})


def bytes_of(arrays: Arrays) -> bytes | None:
    """The file that was packed.

    Examples
    --------
    >>> from models.values.packing import unpack
    >>> bytes_of(unpack(packed_bytes(b"a,b"))), bytes_of(unpack(packed_bytes(None)))
    (b'a,b', None)
    """
    return arrays["content"].tobytes() if "content" in arrays else None


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
        told |= {"questions": [asdict(one) for one in error.questions], "found": error.found}
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
        questions = [question_of(one) for one in rest["questions"]]
        raise NeedsColumns(rest["message"], rest["missing"], rest["headers"], questions, rest["found"])
    if kind == Unreadable.__name__ and "problems" in rest:
        raise Unreadable(rest["message"], rest["faults"], _problems(rest))
    raise _REFUSALS.get(kind, Unreadable)(rest["message"], rest["faults"])


def manifest_of(arrays: Arrays) -> ReadManifest:
    """The manifest that was packed."""
    rest = _rest(arrays)
    told = _problems(rest), _cautions(rest), rest["mapping"], tuple(rest["headers"])
    return ReadManifest(Lines(**_columns(arrays)), *told, rest["confidence"], tuple(rest["unfound"]))


def history_of(arrays: Arrays) -> ReadHistory:
    """The history that was packed: the part it plays, joined again with nothing but itself."""
    rest, columns = _rest(arrays), _columns(arrays)
    role, piece, made_on = (columns.pop(name) for name in ("role", "piece", "made_on"))
    part = SalePart(Sales(**columns), role, piece, made_on[0])
    read = alone(part, _problems(rest), _cautions(rest), rest["mapping"], tuple(rest["headers"]))
    found = tuple(rest["unfound"])
    return replace(read, confidence=rest["confidence"], buyers=rest["buyers"], unfound=found)


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
    stated = tuple(stated_totals(one) for one in told["stated"])
    return Problems(told["rows"], told["kept"], told["set_aside"], items, stated)


def _cautions(rest: Mapping[str, Any]) -> tuple[Caution, ...]:
    return tuple(Caution(**one) for one in rest["cautions"])
