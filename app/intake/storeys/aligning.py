"""How a storey lies on the one below it: the shift that lays most of its walls, and its stairs, on the other's.

Walls along the house's two main directions propose shifts, each scored by the length that then lies wall on wall. A
point that both drawings show settles it without a guess. Lengths are feet.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from app.intake.strokes import Spot, Stroke
from app.intake.tracing.floor import Floor

By = Literal["walls", "point", "corner", "place"]

_SAME_LINE = 0.12  # ft: centrelines so near lie on each other, as drawings of two storeys differ by a finish
_SQUARE = math.sin(math.radians(1.0))
_LEAST = 0.25  # of the smaller storey's walls: less in common is no match
_RIVAL, _ELSEWHERE = 0.92, 0.5
_PROPOSALS = 40
_STAIR_WEIGHT = 1.5


@dataclass(frozen=True)
class Lie:
    """The shift that lays a storey on the one below, and how much speaks for it.

    ``matched`` feet of walls of ``whole`` lie wall on wall; ``rival`` is another shift that fits nearly as well.
    """

    shift: Spot
    by: By
    matched: float = 0.0
    whole: float = 0.0
    rival: Spot | None = None


@dataclass(frozen=True)
class Lines:
    """Lines of a storey along both main directions: rows of across, from, to, weight."""

    along: NDArray[np.float64]
    across: NDArray[np.float64]

    @property
    def length(self) -> float:
        """Their length, weighted."""
        return sum(float(((rows[:, 2] - rows[:, 1]) * rows[:, 3]).sum()) for rows in (self.along, self.across))


def main_turn(floor: Floor) -> float:
    """The angle of the direction that carries most wall, 0 to 90 degrees, in radians."""
    lengths: dict[float, float] = {}
    for piece in floor.pieces:
        direction = piece.run.direction
        turn = round(math.degrees(math.atan2(direction.sine, direction.cosine)) % 90, 1) % 90
        lengths[turn] = lengths.get(turn, 0.0) + piece.end - piece.start
    return math.radians(max(lengths, key=lambda turn: lengths[turn])) if lengths else 0.0


def lines_of(floor: Floor, stairs: Iterable[Stroke], turn: float) -> Lines:
    """A storey's walls and stair strokes along the two main directions."""
    rows: tuple[list[list[float]], list[list[float]]] = ([], [])
    ends = [(*piece.ends, 1.0 + 2 * (piece.run.thickness > 0.45)) for piece in floor.pieces]
    ends += [(stroke.a, stroke.b, _STAIR_WEIGHT) for stroke in stairs]
    cosine, sine = math.cos(turn), math.sin(turn)
    for a, b, weight in ends:
        (u, v), (s, t) = ((x * cosine + y * sine, y * cosine - x * sine) for x, y in (a, b))
        length = math.hypot(s - u, t - v)
        if length < 0.3:
            continue
        if abs(t - v) <= _SQUARE * length:
            rows[0].append([(v + t) / 2, min(u, s), max(u, s), weight])
        elif abs(s - u) <= _SQUARE * length:
            rows[1].append([(u + s) / 2, min(v, t), max(v, t), weight])
    along, across = (np.array(part, dtype=np.float64).reshape(-1, 4) for part in rows)
    return Lines(along, across)


def lie_by_walls(lower: Lines, upper: Lines, turn: float) -> Lie | None:
    """The shift of the upper storey under which most lies wall on wall; None where too little does."""
    whole = min(lower.length, upper.length)
    if whole <= 0:
        return None
    scored: list[tuple[float, float, float]] = []
    ups, rights = _proposals(lower.along, upper.along), _proposals(lower.across, upper.across)
    for up in ups:
        for right in rights:
            score = _common(lower.along, upper.along, up, right) + _common(lower.across, upper.across, right, up)
            scored.append((score, right, up))
    if not scored:
        return None
    scored.sort(key=lambda one: (-round(one[0], 3), abs(one[1]) + abs(one[2])))
    best, right, up = scored[0]
    if best < _LEAST * whole:
        return None
    rival = next(
        (one for one in scored[1:] if one[0] >= _RIVAL * best and math.dist(one[1:], (right, up)) > _ELSEWHERE), None
    )
    back = _turned((right, up), turn)
    return Lie(back, "walls", best, whole, _turned(rival[1:], turn) if rival else None)


def _turned(spot: Sequence[float], turn: float) -> Spot:
    u, v = spot
    return u * math.cos(turn) - v * math.sin(turn), u * math.sin(turn) + v * math.cos(turn)


def _proposals(lower: NDArray[np.float64], upper: NDArray[np.float64]) -> list[float]:
    """The shifts across that lay most pairs of lines on each other, the best first."""
    if not len(lower) or not len(upper):
        return []
    shifts = (lower[:, 0][:, None] - upper[:, 0][None, :]).ravel()
    long = [(rows[:, 2] - rows[:, 1]) * rows[:, 3] for rows in (lower, upper)]
    weights = np.minimum(long[0][:, None], long[1][None, :]).ravel()
    order = np.argsort(shifts)
    shifts, weights = shifts[order], weights[order]
    sums = np.concatenate([[0.0], np.cumsum(weights)])
    first = np.searchsorted(shifts, shifts - _SAME_LINE, side="left")
    last = np.searchsorted(shifts, shifts + _SAME_LINE, side="right")
    votes = sums[last] - sums[first]
    kept: list[float] = []
    for index in np.argsort(-votes, kind="stable").tolist():
        if all(abs(shifts[index] - one) > _SAME_LINE for one in kept):
            near = slice(first[index], last[index])
            kept.append(float(np.average(shifts[near], weights=weights[near] + 1e-9)))
            if len(kept) == _PROPOSALS:
                break
    return kept


def _common(lower: NDArray[np.float64], upper: NDArray[np.float64], aside: float, along: float) -> float:
    """The weighted length of the upper lines that lies on lower ones when moved aside and along."""
    near = np.abs(lower[:, 0][:, None] - upper[:, 0][None, :] - aside) <= _SAME_LINE
    shared = np.minimum(lower[:, 2][:, None], upper[:, 2][None, :] + along)
    shared = shared - np.maximum(lower[:, 1][:, None], upper[:, 1][None, :] + along)
    weight = np.minimum(lower[:, 3][:, None], upper[:, 3][None, :])
    return float((np.maximum(shared, 0.0) * weight * near).sum())
