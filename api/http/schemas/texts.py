"""Can this text be kept?  A NUL or half a character cannot be stored everywhere, so it is refused at the door."""

import json
from typing import Annotated, Any

from pydantic import AfterValidator

from models.values.errors import Rejected


def writable(text: str) -> str:
    """The text itself; ValueError if it cannot be stored."""
    if "\x00" in text:
        raise ValueError("must not hold a NUL character")
    return text


def writable_content(name: str, content: Any) -> None:
    """Rejected if any text inside a JSON value cannot be stored."""
    spelled = json.dumps(content, ensure_ascii=False)
    if "\\u0000" in spelled or any("\ud800" <= letter <= "\udfff" for letter in spelled):
        raise Rejected(f"{name} holds characters that cannot be kept.", {name: "holds characters that cannot be kept"})


Text = Annotated[str, AfterValidator(writable)]
