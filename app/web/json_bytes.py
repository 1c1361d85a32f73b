"""Answers as JSON bytes, and JSON that stands in a page of HTML."""

from __future__ import annotations

from markupsafe import Markup
from pydantic_core import to_json


def as_json(answer: object) -> bytes:
    """An answer as JSON bytes; a number that is not finite becomes null."""
    return to_json(answer, inf_nan_mode="null")


def in_html(json: bytes) -> Markup:
    """JSON that stands as text in HTML and reads the same: nothing of it begins a tag or an entity there."""
    return Markup(json.replace(b"<", rb"\u003c").replace(b"&", rb"\u0026").decode())
