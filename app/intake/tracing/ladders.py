"""Even rows of lines, as treads of a stair or boards of a deck are drawn: no faces of walls, so they are set aside.

Lengths are feet.
"""

from __future__ import annotations

from collections.abc import Sequence

from app.intake.strokes import Stroke
from app.intake.tracing.carriers import carriers_of

Rung = tuple[float, float, float]  # where it runs across, from where to where along

_APART = (0.35, 1.6)  # ft: from narrow boards to deep treads
_LEAST = 5  # lines
_EVEN = 0.04  # ft
_SAME_END = 0.12  # ft


def rungs_among(strokes: Sequence[Stroke]) -> set[Stroke]:
    """The strokes that are rungs of an even row: five or more side by side, as long and as far apart."""
    found: set[Stroke] = set()
    for direction, lines in carriers_of(strokes):
        alike: dict[tuple[int, int], list[Rung]] = {}
        for line in lines:
            for start, end in line.drawn:
                alike.setdefault((round(start / _SAME_END), round(end / _SAME_END)), []).append((line.v, start, end))
        places: dict[int, list[Rung]] = {}
        for rungs in alike.values():
            for rung in _in_even_rows(rungs):
                places.setdefault(round(rung[0] / _EVEN), []).append(rung)
        for stroke in strokes if places else ():
            (u, v), (s, t) = direction.uv(stroke.a), direction.uv(stroke.b)
            near = [one for k in (-1, 0, 1) for one in places.get(round((v + t) / 2 / _EVEN) + k, ())]
            if abs(t - v) < _EVEN and any(
                start - _SAME_END <= min(u, s) and max(u, s) <= end + _SAME_END for _, start, end in near
            ):
                found.add(stroke)
    return found


def _in_even_rows(rungs: list[Rung]) -> list[Rung]:
    """Those of some lines of one length, by ``v``, that stand in a row of even steps."""
    ordered = sorted(rungs)
    kept: list[Rung] = []
    row = ordered[:1]
    for rung in ordered[1:]:
        step = rung[0] - row[-1][0]
        usual = row[1][0] - row[0][0] if len(row) > 1 else step
        if _APART[0] <= step <= _APART[1] and abs(step - usual) < _EVEN:
            row.append(rung)
            continue
        kept += row if len(row) >= _LEAST else []
        row = [row[-1], rung] if _APART[0] <= step <= _APART[1] else [rung]
    return kept + (row if len(row) >= _LEAST else [])
