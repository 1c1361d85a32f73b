"""What became of a foreign file: what was read, what was not and why, and what the designer should look at.

Every entity of the file is either read or stands in the list of what was not: nothing is dropped in silence.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Any


class Unread:
    """Counts what is not read, by layer, kind and reason."""

    def __init__(self) -> None:
        self._counts: Counter[tuple[str, str, str]] = Counter()

    def add(self, layer: str, kind: str, reason: str, count: int = 1) -> None:
        """Count some entities of one layer and kind."""
        self._counts[layer, kind, reason] += count

    def merged(self, other: Unread) -> Unread:
        """Both counts together, as a new one."""
        both = Unread()
        both._counts = self._counts + other._counts
        return both

    def lines(self) -> list[dict[str, Any]]:
        """The list, by layer, the largest counts first within each."""
        ordered = sorted(self._counts.items(), key=lambda entry: (entry[0][0].lower(), -entry[1], entry[0]))
        return [
            {"layer": layer, "kind": kind, "count": count, "reason": reason}
            for (layer, kind, reason), count in ordered
            if count
        ]


@dataclass
class Report:
    """The whole account: ``read`` counts what the plan got, ``notes`` are sentences to look at, ``unread`` the rest.

    ``drawings`` are those found on the sheet, ``levels`` how each level lies on the lowest.
    """

    units: str
    size_ft: tuple[float, float]
    read: dict[str, int]
    notes: list[str] = field(default_factory=list)
    unread: Unread = field(default_factory=Unread)
    drawings: list[dict[str, Any]] = field(default_factory=list)
    levels: list[dict[str, Any]] = field(default_factory=list)

    def value(self) -> dict[str, Any]:
        """As a JSON value."""
        return {
            "units": self.units,
            "size_ft": [round(side, 3) for side in self.size_ft],
            "read": self.read,
            "notes": self.notes,
            "unread": self.unread.lines(),
            "drawings": self.drawings,
            "levels": self.levels,
        }
