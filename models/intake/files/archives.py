"""What is inside a gzip or zip file?  One table, unpacked under a limit; an archive of several is refused."""

import gzip
import io
import zipfile
import zlib
from typing import IO

from models.intake.limits import limits_in_force
from models.values.errors import TooLarge, Unreadable

GZIP, ZIP = b"\x1f\x8b", (b"PK\x03\x04", b"PK\x05\x06")
_WORKBOOK_PARTS = frozenset({"xl/workbook.xml", "xl/workbook.bin", "content.xml"})
_PIECE = 1 << 20  # bytes unpacked at a time
_DEEPEST = 2  # archives inside each other: a zip of a gzip still is one table
_TABLE_ENDINGS = (".csv", ".tsv", ".txt", ".tab", ".xlsx", ".xlsm", ".xlsb", ".xls", ".ods", ".gz")
_BROKEN = (zipfile.BadZipFile, zlib.error, ValueError, OSError, EOFError, NotImplementedError)


def unpacked(data: bytes, name: str) -> tuple[bytes, str]:
    """The table's own bytes, and its name with the archive's; what is no archive comes back as it is.

    Parameters
    ----------
    data : bytes
        The whole file.
    name : str
        Its name.

    Raises
    ------
    Unreadable
        If an archive is broken, locked, empty or holds several files.
    TooLarge
        If it, or a workbook, unpacks to more than `max_uncompressed_mib`.

    Examples
    --------
    >>> unpacked(gzip.compress(b"a,b"), "load.csv.gz"), unpacked(b"a,b", "x.csv")
    ((b'a,b', 'load.csv.gz'), (b'a,b', 'x.csv'))
    """
    for _ in range(_DEEPEST):
        if data.startswith(GZIP):
            data = _from_gzip(data, name)
        elif data.startswith(ZIP):
            inside = _from_zip(data, name)
            if inside is None:
                return data, name
            data, name = inside
        else:
            return data, name
    if data.startswith(GZIP) or (data.startswith(ZIP) and _from_zip(data, name) is not None):
        raise Unreadable(f"{name} is an archive inside an archive. Unpack it and upload the table itself.")
    return data, name


def _from_gzip(data: bytes, name: str) -> bytes:
    try:
        with gzip.open(io.BytesIO(data)) as stream:
            return _read(stream, name)
    except _BROKEN as error:
        raise Unreadable(f"{name} is a broken gzip archive. Upload the table itself.") from error


def _from_zip(data: bytes, name: str) -> tuple[bytes, str] | None:
    """None for a workbook, which is a zip archive of its parts."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            entries = [entry for entry in archive.infolist() if not entry.is_dir()]
            if any(entry.filename in _WORKBOOK_PARTS for entry in entries):
                _require_small(sum(entry.file_size for entry in entries), name)
                return None
            entry = _the_table(entries, name)
            _require_small(entry.file_size, name)
            with archive.open(entry) as stream:
                return _read(stream, name), f"{entry.filename.rsplit('/', 1)[-1]} in {name}"
    except RuntimeError as error:  # how zipfile says that a password is needed
        raise Unreadable(f"{name} is locked with a password. Unpack it and upload the table itself.") from error
    except _BROKEN as error:
        raise Unreadable(f"{name} is a broken workbook or archive. Open it, save it again and upload that.") from error


def _the_table(entries: list[zipfile.ZipInfo], name: str) -> zipfile.ZipInfo:
    """The one file that is a table by its name; plain texts beside it are not."""
    seen = [entry for entry in entries if not _is_leftover(entry.filename)]
    tables = [entry for entry in seen if entry.filename.lower().endswith(_TABLE_ENDINGS)]
    if _one_of_texts(tables):
        tables = [entry for entry in tables if not entry.filename.lower().endswith(".txt")]
    if len(tables) == 1:
        return tables[0]
    if not tables:
        raise Unreadable(f"{name} is an archive without a workbook or table in it. Upload the table itself.")
    listed = ", ".join(entry.filename for entry in tables[:5])
    raise Unreadable(f"{name} is an archive of {len(tables)} tables ({listed}). Upload the one you mean by itself.")


def _one_of_texts(tables: list[zipfile.ZipInfo]) -> bool:
    """All but one of them are plain texts."""
    return sum(1 for entry in tables if not entry.filename.lower().endswith(".txt")) == 1


def passed_over(data: bytes) -> tuple[str, ...]:
    """Names of the plain texts that stand beside the table of an archive, and are not read.

    Examples
    --------
    >>> file = io.BytesIO()
    >>> with zipfile.ZipFile(file, "w") as archive:
    ...     archive.writestr("m.csv", "a,b")
    ...     archive.writestr("READ ME.txt", "Hello")
    >>> passed_over(file.getvalue())
    ('READ ME.txt',)
    """
    if not data.startswith(ZIP):
        return ()
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            names = [entry.filename for entry in archive.infolist() if not entry.is_dir()]
    except _BROKEN:
        return ()
    tables = [name for name in names if name.lower().endswith(_TABLE_ENDINGS) and not _is_leftover(name)]
    return tuple(name.rsplit("/", 1)[-1] for name in tables if name.lower().endswith(".txt")) if len(tables) > 1 else ()


def _is_leftover(filename: str) -> bool:
    """What some systems pack beside the files: resource forks and folder views."""
    return filename.startswith("__MACOSX/") or filename.rsplit("/", 1)[-1].startswith(".")


def _read(stream: IO[bytes] | gzip.GzipFile, name: str) -> bytes:
    """All of it, a piece at a time: what an archive says of its size may be a lie."""
    pieces, size = [], 0
    while piece := stream.read(_PIECE):
        size += len(piece)
        _require_small(size, name)
        pieces.append(piece)
    return b"".join(pieces)


def _require_small(size: int, name: str) -> None:
    limits = limits_in_force()
    if size > limits.uncompressed_bytes:
        raise TooLarge(f"{name} unpacks to more than {limits.max_uncompressed_mib} MiB. Split it into smaller files.")
