"""What a change sheet says of the two revisions that it compares; who named and approved them comes from the caller."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Side:
    """One revision: its ``mark`` for triangles, its ``name`` in a sentence, and ``words`` (who, when, what for)."""

    mark: str
    name: str
    words: str = ""
