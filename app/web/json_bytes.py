"""Answers as JSON bytes."""

from __future__ import annotations

from pydantic_core import to_json


def as_json(answer: object) -> bytes:
    """An answer as JSON bytes; a number that is not finite becomes null."""
    return to_json(answer, inf_nan_mode="null")
