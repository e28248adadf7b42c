"""How much may a client send?  Counted while it comes in, since Content-Length may be missing or wrong."""

from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.types import Message, Receive

MEBIBYTE = 1024 * 1024
TOO_MUCH = "This is more than the {} MiB that this address accepts."


def allowed_bytes(headers: Headers, upload_limit: int) -> int:
    """Files come as multipart and may fill the upload limit; everything else is held in memory and stays small."""
    is_upload = headers.get("content-type", "").lower().startswith("multipart/form-data")
    return upload_limit if is_upload else min(upload_limit, MEBIBYTE)


def stated_bytes(headers: Headers) -> int | None:
    """Content-Length, None where there is none or it is no number."""
    stated = headers.get("content-length", "")
    return int(stated) if stated.isascii() and stated.isdigit() else None


def too_much(limit: int) -> str:
    """One sentence naming the limit."""
    return TOO_MUCH.format(f"{limit / MEBIBYTE:g}")


def counted(receive: Receive, limit: int) -> Receive:
    """The same messages until `limit` bytes have come, then 413."""
    seen = 0

    async def counting() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > limit:
            raise HTTPException(413, too_much(limit), {"connection": "close"})
        return message

    return counting
