"""Was this changed since it was read?  Versions as strong entity tags (RFC 9110, 8.8.3 and 13.1.1)."""

from models.values.errors import StaleVersion


def etag(version: int) -> str:
    """The entity tag of a version."""
    return f'"{version}"'


def version_matched(if_match: str, version: int) -> int:
    """`version`, if the header names it or any; StaleVersion otherwise, also where there is no header at all."""
    named = {tag.strip() for tag in if_match.split(",")}
    if "*" in named or etag(version) in named:
        return version
    if not if_match:
        raise StaleVersion("Send the ETag that you read as If-Match, so that nobody's change is lost.")
    raise StaleVersion("This was changed since you read it: read it again, then change it.")
