"""Texts that people and files bring: PostgreSQL holds no NUL, UTF-8 no half of a surrogate pair."""

from models.values.errors import Rejected


def plain_text(text: str, longest: int) -> str:
    """The text on one line, without what cannot be stored or seen, cut to `longest` characters."""
    seen = "".join(letter if letter.isprintable() else " " for letter in text)
    return " ".join(seen.split())[:longest].strip()


def storable(text: str, what: str) -> str:
    """The text as it is; Rejected if it cannot be stored."""
    if any(letter == "\0" or "\ud800" <= letter <= "\udfff" for letter in text):
        raise Rejected(f"{what} holds characters that cannot be stored.")
    return text
