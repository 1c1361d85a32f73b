"""What a call says of itself, read from its headers before any route sees it."""

from __future__ import annotations

from starlette.types import Scope


def header(scope: Scope, name: str) -> str:
    """A header's value, or an empty text; the first where it stands twice."""
    wanted = name.encode("latin-1")
    return next((value.decode("latin-1") for key, value in scope["headers"] if key == wanted), "")


def changes_things(scope: Scope) -> bool:
    """Whether the call's method may change something."""
    return scope["method"] not in ("GET", "HEAD", "OPTIONS")
