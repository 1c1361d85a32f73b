"""Counts in sentences: one thing, or many."""

from __future__ import annotations


def told(count: int, one: str, many: str) -> str:
    """``1 gap is``, ``2 gaps are``: the count with the words that fit it."""
    return f"{count} {one if count == 1 else many}"
