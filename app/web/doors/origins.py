"""Refuse what pages of other origins ask of this server: their browser says where the call comes from."""

from __future__ import annotations

from urllib.parse import urlsplit

from starlette.types import ASGIApp, Receive, Scope, Send

from app.web.doors.asking import header, is_call, is_guarded
from app.web.problems import problem


class OwnOrigin:
    """Lets changes and the API be used by this server's own pages, and by programs, which name no origin.

    A link on another page may still open a page here.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one call."""
        if is_call(scope) and is_guarded(scope) and _is_foreign(scope):
            return await problem(403, "another site's page may not use Studbay; open its own")(scope, receive, send)
        return await self._app(scope, receive, send)


def _is_foreign(scope: Scope) -> bool:
    origin = header(scope, "origin")
    if origin:
        return urlsplit(origin).netloc.lower() != header(scope, "host").lower()
    return header(scope, "sec-fetch-site") in ("cross-site", "same-site")
