"""What may a browser do with our answers?  Nothing from elsewhere, no inline script, no frame."""

from typing import Final

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

CONTENT_SECURITY_POLICY: Final = "; ".join([
    "default-src 'none'", "script-src 'self'", "style-src 'self'", "img-src 'self'", "connect-src 'self'",
    "form-action 'self'", "base-uri 'none'", "frame-ancestors 'none'",
])  # fmt: skip
FIXED: Final = {
    "content-security-policy": CONTENT_SECURITY_POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    # not no-referrer: browsers then send "Origin: null" with our own forms, which the door must refuse
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=()",
}


class SecurityHeaders:
    """Adds the fixed headers to every answer, refusals included."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in FIXED.items():
                    headers[name] = value
                # static files change with the program only, and are asked for again by their ETag
                kept = "no-cache" if scope.get("path", "").startswith("/static/") else "private, no-store"
                headers.setdefault("cache-control", kept)
            await send(message)

        await self.app(scope, receive, with_headers)
