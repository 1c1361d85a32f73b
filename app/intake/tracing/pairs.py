"""Faces paired into walls: two parallel strokes a wall's thickness apart, with nothing of either used twice.

Long stretches are paired first and the nearest pairs before others, so that neither a jamb nor a narrow closet is
taken for a wall; short ones then only where the same two lines already carry a wall. Walls drawn in layers (board,
stud, air, brick) are told by their outermost lines.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from app.intake.strokes import Stroke
from app.intake.tracing.carriers import Carrier, Direction, Interval, carriers_of, common, joined, less

THINNEST, THICKEST = 1.9 / 12, 18.1 / 12  # ft
_ONE_SIDED = 1.7  # ft: a face may be broken so far where another wall meets it, while the other face goes on
_LONG, _LONG_SHARE = 0.9, 2.2
_SHORT, _SHORT_SHARE = 0.45, 1.25
_NIB_WALL, _NIB_GAP, _LEAST_NIB = (0.25, 1.3), (1.8, 8.5), 0.04  # ft
_WITHIN, _TOLD, _TOLD_SHARE = 0.6, 1.6, 3.0
_BOARD, _SKINNED = 1.3 / 12, 0.8  # ft: a board of up to 1 1/4 in
_AIR = 2.1 / 12  # ft between the layers of one wall
_WIDEST_WALL = 2.0  # ft over all layers


@dataclass(frozen=True)
class Band:
    """A strip of wall between two lines of a direction, ``low`` to ``high`` across, solid over some intervals along."""

    direction: Direction
    low: float
    high: float
    solid: tuple[Interval, ...]

    @property
    def thickness(self) -> float:
        """How thick it is."""
        return self.high - self.low

    @property
    def middle(self) -> float:
        """Where its centreline runs."""
        return (self.low + self.high) / 2


def paired_bands(strokes: Sequence[Stroke]) -> tuple[list[Band], float]:
    """The bands of wall that some strokes are the faces of, and the length of faces that were used."""
    bands: list[Band] = []
    doubtful: list[Band] = []
    used = 0.0
    for direction, lines in carriers_of(strokes):
        pairs = _Pairs(lines)
        for first, second, solid in pairs.found():
            low, high = pairs.skin(first, -1, solid), pairs.skin(second, 1, solid)
            band = Band(direction, lines[low].v, lines[high].v, tuple(joined(solid, 0.03)))
            long = sum(end - start for start, end in band.solid) >= max(_TOLD, _TOLD_SHARE * band.thickness)
            (bands if long and (first, second) in pairs.sure else doubtful).append(band)
        used += pairs.length
    bands += _not_within(doubtful, bands)
    return [band for group in _by_direction(bands) for band in _layers_joined(group)], used


class _Pairs:
    """The pairing within one direction."""

    def __init__(self, lines: Sequence[Carrier]) -> None:
        self._lines = lines
        self._taken: list[list[Interval]] = [[] for _ in lines]
        self._found: dict[tuple[int, int], list[Interval]] = {}
        self.sure: frozenset[tuple[int, int]] = frozenset()
        self.length = 0.0

    def found(self) -> Iterator[tuple[int, int, list[Interval]]]:
        """Pairs of lines by their indices, with where they are the two faces of a wall."""
        near = sorted(self._near(), key=lambda pair: (round(pair[0], 3), pair[1]))
        self._pass(near, _LONG, _LONG_SHARE)
        self.sure = frozenset(self._found)
        self._pass([pair for pair in near if pair[1:] in self._found], 0.02, 0.0)
        self._pass(near, _SHORT, _SHORT_SHARE)
        self._nibs([pair for pair in near if pair[1:] not in self._found])
        self._pass([pair for pair in near if pair[1:] in self._found], 0.02, 0.0)
        for (first, second), solid in self._found.items():
            yield first, second, solid

    def skin(self, line: int, way: int, solid: Sequence[Interval]) -> int:
        """The line of a board over a face, where one runs along most of it unused; else the face's own line."""
        length = sum(end - start for start, end in solid)
        best = line
        beyond = line + way
        while 0 <= beyond < len(self._lines) and abs(self._lines[beyond].v - self._lines[line].v) <= _BOARD:
            free = less(self._lines[beyond].drawn, self._taken[beyond])
            if sum(end - start for start, end in common(free, joined(solid))) >= _SKINNED * length:
                best = beyond
            beyond += way
        return best

    def _near(self) -> Iterator[tuple[float, int, int]]:
        for first, line in enumerate(self._lines):
            for second in range(first + 1, len(self._lines)):
                apart = self._lines[second].v - line.v
                if apart > THICKEST:
                    break
                if apart >= THINNEST:
                    yield apart, first, second

    def _pass(self, near: Sequence[tuple[float, int, int]], least: float, share: float) -> None:
        for apart, first, second in near:
            for solid in self._free(first, second):
                if solid[1] - solid[0] >= max(least, share * apart):
                    self._take(first, second, solid)

    def _nibs(self, near: Sequence[tuple[float, int, int]]) -> None:
        """Two nibs that face each other over an opening, in a wall that is nothing else."""
        for apart, first, second in near:
            if not _NIB_WALL[0] <= apart <= _NIB_WALL[1]:
                continue
            solid = [part for part in self._free(first, second) if part[1] - part[0] >= _LEAST_NIB]
            for before, after in itertools.pairwise(solid):
                if _NIB_GAP[0] <= after[0] - before[1] <= _NIB_GAP[1]:
                    for nib in (before, after):
                        if nib not in self._found.get((first, second), ()):
                            self._take(first, second, nib)

    def _take(self, first: int, second: int, solid: Interval) -> None:
        self._found.setdefault((first, second), []).append(solid)
        self._taken[first].append(solid)
        self._taken[second].append(solid)
        self.length += 2 * (solid[1] - solid[0])

    def _free(self, first: int, second: int) -> list[Interval]:
        """Where both lines are drawn and not yet used; a break of one alone, where a wall meets it, is bridged."""
        one = less(self._lines[first].drawn, self._taken[first])
        two = less(self._lines[second].drawn, self._taken[second])
        both = common(one, two)
        bridged: list[Interval] = []
        for start, end in both:
            if bridged and start - bridged[-1][1] <= _ONE_SIDED:
                gap = (bridged[-1][1], start)
                if _covers(one, gap) or _covers(two, gap):
                    bridged[-1] = (bridged[-1][0], end)
                    continue
            bridged.append((start, end))
        return bridged


def _not_within(doubtful: Sequence[Band], sure: Sequence[Band]) -> list[Band]:
    """Short bands less those that are the jambs of a mullion or nib of a wall that is told by its long faces."""
    if not doubtful or not sure:
        return list(doubtful)
    bodies = np.array([_body(band, part) for band in sure for part in band.solid], dtype=object)
    tree = shapely.STRtree(bodies)
    kept: list[Band] = []
    for band in doubtful:
        solid = []
        for part in band.solid:
            body = _body(band, part)
            over = shapely.union_all(bodies[tree.query(body, predicate="intersects")])
            if shapely.area(shapely.intersection(body, over)) < _WITHIN * body.area:
                solid.append(part)
        if solid:
            kept.append(Band(band.direction, band.low, band.high, tuple(solid)))
    return kept


def _body(band: Band, part: Interval) -> shapely.Polygon:
    corners = ((part[0], band.low), (part[1], band.low), (part[1], band.high), (part[0], band.high))
    return shapely.Polygon([band.direction.xy(u, v) for u, v in corners])


def _covers(drawn: Sequence[Interval], gap: Interval) -> bool:
    return any(start <= gap[0] + 1e-6 and end >= gap[1] - 1e-6 for start, end in drawn)


def _by_direction(bands: Sequence[Band]) -> Iterator[list[Band]]:
    groups: dict[Direction, list[Band]] = {}
    for band in bands:
        groups.setdefault(band.direction, []).append(band)
    yield from groups.values()


def _layers_joined(bands: list[Band]) -> list[Band]:
    """The bands of one direction, those that are layers of one wall made one."""
    left = sorted(bands, key=lambda band: (band.low, band.high))
    made: list[Band] = []
    while left:
        band = left.pop(0)
        partner = next((other for other in left if _are_layers(band, other)), None)
        if partner is None:
            made.append(band)
            continue
        left.remove(partner)
        solid = tuple(joined([*band.solid, *partner.solid], 0.03))
        left.insert(0, Band(band.direction, min(band.low, partner.low), max(band.high, partner.high), solid))
    return made


def _are_layers(band: Band, other: Band) -> bool:
    apart = max(band.low, other.low) - min(band.high, other.high)
    if apart > _AIR or max(band.high, other.high) - min(band.low, other.low) > _WIDEST_WALL:
        return False
    shared = sum(end - start for start, end in common(band.solid, other.solid))
    shorter = min(sum(end - start for start, end in one.solid) for one in (band, other))
    return shared >= 0.6 * shorter
