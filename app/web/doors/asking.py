"""What a call says of itself, read from its headers before any route sees it."""

from __future__ import annotations

from starlette.types import Scope


def header(scope: Scope, name: str) -> str:
    """A header's value, or an empty text; the first where it stands twice."""
    wanted = name.encode("latin-1")
    return next((value.decode("latin-1") for key, value in scope["headers"] if key == wanted), "")


def is_call(scope: Scope) -> bool:
    """Whether this is a call from outside, by HTTP or to open a WebSocket, and no beginning or end."""
    return scope["type"] in ("http", "websocket")


def is_guarded(scope: Scope) -> bool:
    """Whether the call may change something, or uses the API; a WebSocket is no less, since no browser asks first."""
    if scope["type"] == "websocket":
        return True
    return scope["method"] not in ("GET", "HEAD", "OPTIONS") or scope["path"].startswith("/api")
