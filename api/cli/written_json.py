"""How do answers get into a JSON file?"""

import json
from pathlib import Path
from typing import Any

from api.cli.answers import Answer


def write_json(path: Path, answers: tuple[Answer, ...]) -> None:
    """One manifest gives one object, several a list in order; a lone one that could not be read gives no file."""
    documents = [answer.document for answer in answers]
    write_document(path, documents[0] if len(documents) == 1 else documents)


def write_document(path: Path, document: Any) -> None:
    """The document with its keys in order, so that two files can be compared."""
    path.write_text(json.dumps(document, ensure_ascii=False, indent=1, allow_nan=False) + "\n", encoding="utf-8")
