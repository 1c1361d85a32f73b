"""Marks in walls: the strokes of windows and of doors without a swing, told by where along which run they lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from app.intake.strokes import Stroke
from app.intake.tracing.carriers import Interval, common, joined
from app.intake.tracing.runs import Run

_ALONG = 0.035  # sine of the angle up to which a stroke runs along the wall
_ACROSS = 0.9
_SILL = 0.3  # ft: a sill or a frame may stand so far out of the wall's faces
_SAME = 0.3


@dataclass
class Marks:
    """What lies along one run: stretches of strokes along it, and places of strokes across it."""

    along: list[Interval] = field(default_factory=list)
    across: list[float] = field(default_factory=list)

    def stretches(self) -> list[Interval]:
        """The strokes along the wall, those of one opening together."""
        return joined(self.along, _SAME)

    def share(self, gap: Interval) -> float:
        """How much of a stretch is marked, 0 to 1."""
        marked = sum(end - start for start, end in common([gap], joined(self.along, 0.02)))
        return marked / (gap[1] - gap[0])

    def lines(self, gap: Interval) -> int:
        """How many strokes run along inside a stretch."""
        return sum(min(end, gap[1]) - max(start, gap[0]) > 0.3 * (gap[1] - gap[0]) for start, end in self.along)

    def lites(self, gap: Interval) -> int:
        """Panes side by side: one more than the mullions that cross the stretch inside."""
        inside = [(u, u) for u in self.across if gap[0] + 0.4 < u < gap[1] - 0.4]
        return min(len(joined(inside, 0.4)) + 1, 12)


def marks_on(strokes: Sequence[Stroke], runs: Sequence[Run], beyond: float = _SILL) -> tuple[list[Marks], list[Stroke]]:
    """The marks of each run, and the strokes that lie in no run; ``beyond``: how far out of a wall a mark may be."""
    found = [Marks() for _ in runs]
    left: list[Stroke] = []
    for stroke in strokes:
        best = min(
            (place for index, run in enumerate(runs) if (place := _in_run(stroke, run, index, beyond)) is not None),
            default=None,
        )
        if best is None:
            left.append(stroke)
            continue
        _, index, start, end, runs_along = best
        if runs_along:
            found[index].along.append((start, end))
        else:
            found[index].across.append((start + end) / 2)
    return found, left


def _in_run(stroke: Stroke, run: Run, index: int, beyond: float) -> tuple[float, int, float, float, bool] | None:
    """How far a stroke is from a run's middle, with its stretch along it; None where it is no mark of it."""
    (u, v), (s, t) = run.direction.uv(stroke.a), run.direction.uv(stroke.b)
    length = stroke.length
    aside = abs(t - v) / length
    off = abs((v + t) / 2 - run.v)
    if not (aside <= _ALONG or aside >= _ACROSS) or off > run.thickness / 2 + beyond:
        return None
    if aside >= _ACROSS and length > run.thickness + 2 * max(beyond, 0.0) + 0.05:
        return None
    low, high = min(u, s), max(u, s)
    if high < run.start - 0.1 or low > run.end + 0.1:
        return None
    return off, index, low, high, aside <= _ALONG
