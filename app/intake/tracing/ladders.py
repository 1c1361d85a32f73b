"""Even rows of lines, as treads of a stair or boards of a deck are drawn: no faces of walls, so they are set aside.

Lengths are feet.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.intake.strokes import Stroke
from app.intake.tracing.carriers import carriers_of

_APART = (0.35, 1.6)  # ft: from narrow boards to deep treads
_LEAST = 5  # lines
_EVEN = 0.04  # ft
_SAME_END = 0.12  # ft


def rungs_among(strokes: Sequence[Stroke]) -> set[Stroke]:
    """The strokes that are rungs of an even row: five or more side by side, as long and as far apart."""
    found: set[Stroke] = set()
    for direction, lines in carriers_of(strokes):
        places = [(line.v, *part) for line in lines for part in line.drawn]
        rows: set[tuple[float, float, float]] = set()
        for place in places:
            row = _longest_row(place, places) if place not in rows else []
            if len(row) >= _LEAST:
                rows.update(row)
        if not rows:
            continue
        for stroke in strokes:
            (u, v), (s, t) = direction.uv(stroke.a), direction.uv(stroke.b)
            if abs(t - v) < _EVEN and any(
                abs((v + t) / 2 - across) < _EVEN and start - _SAME_END <= min(u, s) and max(u, s) <= end + _SAME_END
                for across, start, end in rows
            ):
                found.add(stroke)
    return found


def _longest_row(
    first: tuple[float, float, float], places: Sequence[tuple[float, float, float]]
) -> list[tuple[float, float, float]]:
    """The longest even row that begins at a line and goes on to its left."""
    alike = [
        one
        for one in places
        if one[0] > first[0] and abs(one[1] - first[1]) < _SAME_END and abs(one[2] - first[2]) < _SAME_END
    ]
    best = [first]
    for second in alike:
        step = second[0] - first[0]
        if not _APART[0] <= step <= _APART[1]:
            continue
        row = [first, second]
        for one in alike:
            if abs(one[0] - row[-1][0] - step) < _EVEN:
                row.append(one)
        best = max(best, row, key=len)
    return best
