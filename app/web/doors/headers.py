"""What the browser may do with what it gets: no remote or inline code, no frames, no referrer, no guessing."""

from __future__ import annotations

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from app.web.doors.asking import is_call

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "connect-src 'self'",
        "font-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
_STARTS = ("http.response.start", "websocket.http.response.start")  # the second where a WebSocket is refused
_ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}


class SafeHeaders:
    """Adds the headers to every answer; what tells of a plan is kept by no cache."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one call."""
        if not is_call(scope):
            return await self._app(scope, receive, send)

        async def with_headers(message: Message) -> None:
            if message["type"] in _STARTS:
                headers = MutableHeaders(scope=message)
                for name, value in _ALWAYS.items():
                    headers.setdefault(name, value)
                headers.setdefault("Cache-Control", "no-cache" if scope["path"].startswith("/static/") else "no-store")
            await send(message)

        return await self._app(scope, receive, with_headers)
