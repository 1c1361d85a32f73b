"""Answer HEAD wherever GET is answered, with the same headers and no body (RFC 9110 §9.3.2)."""

from __future__ import annotations

from starlette.types import ASGIApp, Message, Receive, Scope, Send


class HeadsAnswered:
    """Asks the routes for GET and keeps the body back."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one call."""
        if scope["type"] != "http" or scope["method"] != "HEAD":
            return await self._app(scope, receive, send)

        async def bodiless(message: Message) -> None:
            if message["type"] == "http.response.body":
                message = {**message, "body": b""}
            await send(message)

        return await self._app(dict(scope, method="GET"), receive, bodiless)
