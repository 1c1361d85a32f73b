"""Walls joined: every end that stops at another wall's face is led to that wall's centreline, so that rooms close.

Two walls at a corner meet where their centrelines cross; a wall that goes on thicker or thinner is linked by a
short piece across, which hides within both.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.intake.strokes import Spot
from app.intake.tracing.carriers import Direction
from app.intake.tracing.runs import Opened, Run

_SLACK = 0.2  # ft: what a drawing may be short or long by, beyond the walls' thickness
_LEAST_SINE = 0.03
_SNUG = 0.02
_STRAIGHT_ON = math.cos(math.radians(45)) + 0.01


@dataclass
class Piece:
    """A wall to be: a run from ``start`` to ``end`` with its openings."""

    run: Run
    start: float
    end: float
    openings: list[Opened]

    @property
    def ends(self) -> tuple[Spot, Spot]:
        """Both ends of its centreline."""
        return self.run.at(self.start), self.run.at(self.end)


@dataclass(frozen=True)
class Link:
    """A short piece across, between walls that go on in one line but not on one centreline."""

    a: Spot
    b: Spot
    thickness: float


def joined_walls(pieces: Sequence[Piece]) -> tuple[list[Link], int]:
    """Lead the ends of all pieces to the walls that they stop at; the links made, and how many ends stay free."""
    found = [(_met(piece, -1, pieces), _met(piece, 1, pieces)) for piece in pieces]
    free: list[tuple[Piece, int]] = []
    for piece, (first, last) in zip(pieces, found, strict=True):
        least = piece.openings[0].start if piece.openings else piece.end
        most = piece.openings[-1].end if piece.openings else piece.start
        if first is not None and first < (piece.end if last is None else last) - _SNUG:
            piece.start = min(first, least)
        else:
            free.append((piece, -1))
        if last is not None and last > piece.start + _SNUG:
            piece.end = max(last, most)
        else:
            free.append((piece, 1))
    return _linked(free)


def _met(piece: Piece, way: int, pieces: Sequence[Piece]) -> float | None:
    """Where along its own line an end meets another wall's centreline, the farthest within reach; None: nowhere."""
    own, end = piece.run, piece.end if way > 0 else piece.start
    spot, best = own.at(end), None
    for other in pieces:
        sine = abs(own.direction.sine_to(other.run.direction))
        if other is piece or sine < _LEAST_SINE:
            continue
        reach, across = _reach(own, other.run, sine), _reach(other.run, own, sine)
        u, v = other.run.direction.uv(spot)
        if (
            abs(v - other.run.v) > 2 * reach
            or not other.start - 2 * reach - across <= u <= other.end + 2 * reach + across
        ):
            continue
        crossing = _crossing(own, other.run)
        here, there = own.direction.uv(crossing)[0], other.run.direction.uv(crossing)[0]
        out = way * (here - end)
        if _goes_straight_on(own, way, other, there):
            reach = across = _bend(own, other.run, sine)
        inward = min(reach + own.thickness / 2, (piece.end - piece.start) / 2 + reach)
        if -inward <= out <= reach and other.start - across <= there <= other.end + across:
            best = here if best is None else (max(best, here) if way > 0 else min(best, here))
    return best


def _reach(run: Run, other: Run, sine: float) -> float:
    """How far before another's centreline a wall may stop: where the faces of both part."""
    cosine = math.sqrt(max(0.0, 1 - sine * sine))
    return min((other.thickness + run.thickness * cosine) / (2 * sine), 3 * other.thickness) + _SLACK


def _goes_straight_on(own: Run, way: int, other: Piece, there: float) -> bool:
    """Whether another wall goes on beyond the crossing with a bend under 45 degrees, as the chords of a bay do."""
    ahead = 1 if (other.start + other.end) / 2 > there else -1
    two = other.run.direction
    return way * ahead * (own.direction.cosine * two.cosine + own.direction.sine * two.sine) > _STRAIGHT_ON


def _bend(run: Run, other: Run, sine: float) -> float:
    """How far from the crossing two walls stop whose faces bend by a small angle."""
    return max(run.thickness, other.thickness) * math.tan(math.asin(min(sine, 1.0)) / 2) + _SNUG * 4


def _crossing(first: Run, second: Run) -> Spot:
    one, two = first.direction, second.direction
    sine = one.sine_to(two)
    # On the first line at u: its point's v in the second's axes must be the second's v.
    cosine = one.cosine * two.cosine + one.sine * two.sine
    u = (first.v * cosine - second.v) / sine
    return first.at(u)


def _linked(free: list[tuple[Piece, int]]) -> tuple[list[Link], int]:
    """Link free ends that go on in one line; how many stay free."""
    links: list[Link] = []
    left: list[tuple[Piece, int]] = []
    while free:
        piece, way = free.pop()
        partner = next((one for one in free if _goes_on(piece, way, *one)), None)
        if partner is None:
            left.append((piece, way))
            continue
        free.remove(partner)
        other, its_way = partner
        u = other.end if its_way > 0 else other.start
        mine = piece.run.direction.uv(other.run.at(u))[0]
        if way > 0:
            piece.end = max(mine, piece.end if not piece.openings else max(piece.openings[-1].end, mine))
        else:
            piece.start = min(mine, piece.start)
        a, b = piece.run.at(piece.end if way > 0 else piece.start), other.run.at(u)
        if abs(piece.run.direction.uv(b)[1] - piece.run.v) > 0.011:
            links.append(Link(a, b, min(piece.run.thickness, other.run.thickness)))
    return links, len(left)


def _goes_on(piece: Piece, way: int, other: Piece, its_way: int) -> bool:
    one, two = piece.run, other.run
    if abs(one.direction.sine_to(two.direction)) >= _LEAST_SINE:
        return False
    here = one.at(piece.end if way > 0 else piece.start)
    there = two.at(other.end if its_way > 0 else other.start)
    (u, v), (s, t) = one.direction.uv(here), one.direction.uv(there)
    opposite = way * its_way * _alike(one.direction, two.direction) < 0
    return (
        opposite and -_SNUG <= way * (s - u) + 0.1 <= 0.3 and abs(t - v) <= (one.thickness + two.thickness) / 2 + 0.02
    )


def _alike(one: Direction, two: Direction) -> int:
    return 1 if one.cosine * two.cosine + one.sine * two.sine > 0 else -1
