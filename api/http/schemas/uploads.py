"""Multipart forms as JSON clients send them: a file, and JSON texts beside it."""

import datetime as dt
import hashlib
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, BinaryIO

from fastapi import Depends, Form, UploadFile

from api.http.schemas.texts import Text, writable_content
from models.services.submit_lot import LotAsked
from models.store.records import Upload
from models.values.errors import Rejected

CHUNK = 1024 * 1024  # bytes
LONGEST_FILENAME = 200


@dataclass(frozen=True)
class Received:
    """A file that has come in whole and lies on disk; hashed here, before any transaction is open."""

    filename: str
    file: BinaryIO
    sha256: bytes

    def upload(self) -> Upload:
        """As a service takes it: read once, from the start."""
        self.file.seek(0)
        return Upload(self.filename, chunks(self.file))


@dataclass(frozen=True)
class ImportForm:
    """A sold history on its way in."""

    file: Received
    mapping: Mapping[str, str]

    def content(self) -> Sequence[bytes]:
        """What makes two of them the same."""
        return self.file.filename.encode(), self.file.sha256, plain(self.mapping)


@dataclass(frozen=True)
class LotForm:
    """A manifest on its way in."""

    manifest: Received
    asked: LotAsked

    def content(self) -> Sequence[bytes]:
        """What makes two of them the same."""
        asked = [self.asked.name, self.asked.settings, self.asked.mapping, self.asked.seed, str(self.asked.as_of)]
        return self.manifest.filename.encode(), self.manifest.sha256, plain(asked)


def chunks(file: BinaryIO) -> Iterator[bytes]:
    """The rest of a file in pieces."""
    while piece := file.read(CHUNK):
        yield piece


def received(upload: UploadFile) -> Received:
    """A file with its SHA-256."""
    upload.file.seek(0)
    digest = hashlib.sha256()
    for piece in chunks(upload.file):
        digest.update(piece)
    name = "".join(letter for letter in upload.filename or "" if letter.isprintable())[-LONGEST_FILENAME:]
    return Received(name or "unnamed", upload.file, digest.digest())


def plain(content: Any) -> bytes:
    """Content in one spelling."""
    return json.dumps(content, sort_keys=True).encode()


def json_object(name: str, text: str) -> dict[str, Any]:
    """A form field that holds a JSON object; blank is an empty one."""
    try:
        content = json.loads(text or "{}")
    except (ValueError, RecursionError):
        content = None
    if not isinstance(content, dict):
        raise Rejected(f"The field {name} must be a JSON object.", {name: "must be a JSON object"})
    writable_content(name, content)
    return content


def json_texts(name: str, text: str) -> dict[str, str]:
    """A form field that holds a JSON object of texts."""
    content = json_object(name, text)
    faults = {f"{name}.{key}": "must be a text" for key, value in content.items() if not isinstance(value, str)}
    if faults:
        raise Rejected(f"The field {name} must hold texts only.", faults)
    return content


JsonText = Annotated[Text, Form(description="A JSON object.")]


def import_form(file: UploadFile, mapping: JsonText = "") -> ImportForm:
    """The fields of a sold history."""
    return ImportForm(received(file), json_texts("mapping", mapping))


def lot_form(
    manifest: UploadFile,
    name: Annotated[Text, Form()] = "",
    settings: JsonText = "",
    mapping: JsonText = "",
    seed: Annotated[int | None, Form()] = None,
    as_of: Annotated[dt.date | None, Form()] = None,
) -> LotForm:
    """The fields of a manifest."""
    asked = LotAsked(name, json_object("settings", settings), json_texts("mapping", mapping), seed, as_of)
    return LotForm(received(manifest), asked)


ImportFields = Annotated[ImportForm, Depends(import_form)]
LotFields = Annotated[LotForm, Depends(lot_form)]
