"""Let nobody in without the access key: by a pass in a cookie for people, by a bearer token for programs.

The door page itself, its style and the sign of life are open.
"""

from __future__ import annotations

from http.cookies import CookieError, SimpleCookie
from urllib.parse import quote

from starlette.responses import RedirectResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from app.web.doors.asking import header, is_call
from app.web.doors.passes import Passes, Tries
from app.web.problems import problem

COOKIE = "studbay_pass"
DOOR = "/door"
_OPEN = (DOOR, "/healthz", "/static/home.css", "/static/home-mark.svg")


class KeyNeeded:
    """Lets in calls that hold a pass or the key."""

    def __init__(self, app: ASGIApp, passes: Passes, tries: Tries) -> None:
        self._app = app
        self._passes = passes
        self._tries = tries

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one call."""
        if not is_call(scope) or scope["path"] in _OPEN or self._passes.holds(_cookie(scope)):
            return await self._app(scope, receive, send)
        token = header(scope, "authorization")
        if not token.lower().startswith("bearer "):
            return await _turned_away(scope)(scope, receive, send)
        address = address_of(scope)
        if seconds := self._tries.seconds_shut(address):
            answer = problem(429, "too many wrong keys; wait a while", headers={"Retry-After": str(seconds)})
            return await answer(scope, receive, send)
        if self._passes.is_key(token[7:].strip()):
            return await self._app(scope, receive, send)
        self._tries.wrong(address)
        return await _turned_away(scope)(scope, receive, send)


def address_of(scope: Scope) -> str:
    """The address that a call comes from."""
    client = scope.get("client")
    return str(client[0]) if client else ""


def _turned_away(scope: Scope) -> ASGIApp:
    if scope["type"] == "http" and scope["method"] == "GET" and "text/html" in header(scope, "accept"):
        return RedirectResponse(f"{DOOR}?to={quote(scope['path'])}", status_code=303)
    words = "this server asks for its access key; give it as Authorization: Bearer <key>, or open its page and type it"
    return problem(401, words, headers={"WWW-Authenticate": "Bearer"})


def _cookie(scope: Scope) -> str:
    try:
        found = SimpleCookie(header(scope, "cookie")).get(COOKIE)
    except CookieError:
        return ""
    return found.value if found else ""
