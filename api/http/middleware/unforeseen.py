"""What if our own code fails?  The log gets the traceback, the client a plain sentence with every security header.

The framework's own handler for this sits outside all middleware, so its answer would lack the headers.
"""

import logging

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from api.http.errors import SENTENCES, refusal

log = logging.getLogger("lotwright.http")


class Unforeseen:
    """Answers 500 unless an answer has begun; then the connection can only be cut."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        begun = False

        async def noting(message: Message) -> None:
            nonlocal begun
            begun = begun or message["type"] == "http.response.start"
            await send(message)

        try:
            await self.app(scope, receive, noting)
        except Exception:
            if begun or scope["type"] != "http":
                raise
            log.exception("an answer failed")
            await refusal(scope, 500, SENTENCES[500], "internal_error", headers={"connection": "close"})(
                scope, receive, send
            )
