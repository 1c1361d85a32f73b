"""The drawings on one sheet: clusters of strokes with their titles, told apart into floor plans and what is none.

It also proposes which drawing is which level. Lengths are feet on the sheet.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from statistics import median

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.intake.storeys.clusters import clusters_of
from app.intake.storeys.titles import Title, ranks, title_told
from app.intake.strokes import Stroke, Words

_SPECK = 8.0  # ft: a column or a nib that stands free is smaller, a house is larger
_NEAR_SPECK = 15.0
_BESIDE = 40.0  # ft: a garage without a title so near a house stands with it
_RIFT = 6.0  # ft: an opening without a symbol may part a house so far
_TITLE_REACH, _TITLE_SHARE = 12.0, 0.4  # ft, and of the drawing's longer side
_ABOVE = 1.7  # a title stands under its drawing: one above is as good as one that much farther below
_ALIKE = 0.15  # of their sides: drawings without titles that are storeys of one house
_MOST_ALIKE, _LEAST_STOREY = 6, 12.0  # more, or narrower ones in ft, are details and no storeys
_SHIFTED = 2.2  # a title given to a drawing that is not its nearest
_LARGER = 1.25  # a title's letters beside the usual ones
_LEAST_OF_PLAN = 12  # strokes
TOO_SMALL = "is too small for a floor plan"


@dataclass(frozen=True)
class Found:
    """A drawing on the sheet: its number in reading order, which strokes are its own, its title if it has one.

    ``why`` says why it is no level, where it is proposed to be left out.
    """

    number: int
    strokes: tuple[int, ...]
    hull: BaseGeometry
    title: Title | None = None
    rank: float | None = None
    why: str = ""

    @property
    def box(self) -> tuple[float, float, float, float]:
        """West, south, east and north."""
        west, south, east, north = self.hull.bounds
        return west, south, east, north

    @property
    def size(self) -> tuple[float, float]:
        """How wide and how deep the box is."""
        west, south, east, north = self.box
        return east - west, north - south

    @property
    def name(self) -> str:
        """What its title calls it, or its number."""
        return self.title.name if self.title is not None else f"drawing {self.number}"


@dataclass(frozen=True)
class Proposal:
    """Which drawings make which level, the lowest first; ``is_guessed`` where no title tells the order."""

    levels: tuple[tuple[int, ...], ...] = ()
    is_guessed: bool = False
    why: dict[int, str] = field(default_factory=dict)


def drawings_on(strokes: Sequence[Stroke], words: Sequence[Words]) -> list[Found]:
    """The drawings that some strokes make, in reading order, with titles and what speaks against each."""
    clusters = [Found(0, tuple(members), _hull(strokes, members)) for members in clusters_of(strokes)]
    titles = _titles(words)
    clusters = _without_specks(clusters, strokes, titles)
    clusters = _without_rifts(clusters, strokes, titles)
    clusters = _without_islands(_titled(clusters, titles), strokes)
    clusters = _titled(clusters, titles)
    high = ranks({index: one.title for index, one in enumerate(clusters) if one.title is not None})
    ordered = [replace(one, rank=high.get(index)) for index, one in enumerate(clusters)]
    ordered.sort(key=lambda one: (-round((one.box[1] + one.box[3]) / 2 / 20), one.box[0]))
    return [replace(one, number=number, why=_why_no_plan(one)) for number, one in enumerate(ordered, 1)]


def proposed(drawings: Sequence[Found]) -> Proposal:
    """Which drawing is which level: by their titles, else by their likeness, else all that are plans as one level."""
    plans = [one for one in drawings if not one.why]
    if not plans:
        return Proposal((tuple(one.number for one in drawings),) if drawings else ())
    why = {one.number: one.why for one in drawings if one.why}
    by_rank: dict[float, Found] = {}
    for one in sorted(plans, key=lambda one: -one.hull.area):
        if one.rank is not None:
            if one.rank in by_rank:
                why[one.number] = f"drawing {by_rank[one.rank].number} has the same title"
            by_rank.setdefault(one.rank, one)
    if len(by_rank) >= 2:
        return _by_titles(plans, by_rank, why)
    alike = _alike([one for one in plans if one.number not in why])
    if len(alike) >= 2:
        why |= {one.number: "has no title" for one in plans if one not in alike and one.number not in why}
        return Proposal(tuple((one.number,) for one in alike), True, why)
    small = [one.number for one in drawings if one.why == TOO_SMALL]
    why = {number: reason for number, reason in why.items() if number not in small}
    return Proposal((tuple(one.number for one in drawings if one.number not in why),), False, why)


def _by_titles(plans: Sequence[Found], by_rank: dict[float, Found], why: dict[int, str]) -> Proposal:
    levels = {one.number: [one.number] for _, one in sorted(by_rank.items())}
    for one in plans:
        if one.number in why or one.number in levels:
            continue
        nearest = min(by_rank.values(), key=lambda other: one.hull.distance(other.hull))
        if one.hull.distance(nearest.hull) <= _BESIDE and one.hull.area < 0.6 * nearest.hull.area:
            levels[nearest.number].append(one.number)
        else:
            why[one.number] = "has no title that tells its storey"
    return Proposal(tuple(tuple(members) for members in levels.values()), False, why)


def _alike(plans: Sequence[Found]) -> list[Found]:
    """The plans of like size to the largest, from the left, or from the bottom where they stand over each other."""
    large = max(plans, key=lambda one: one.hull.area, default=None)
    if large is None:
        return []
    alike = [
        one
        for one in plans
        if all(abs(mine - its) <= _ALIKE * its for mine, its in zip(one.size, large.size, strict=True))
    ]
    if not 2 <= len(alike) <= _MOST_ALIKE or min(large.size) < _LEAST_STOREY:
        return []
    return sorted(alike, key=lambda one: (round(one.box[1] / max(large.size[1], 1.0)), one.box[0]))


# --- clusters made drawings ---


def _hull(strokes: Sequence[Stroke], members: Iterable[int]) -> BaseGeometry:
    spots = [spot for index in members for spot in (strokes[index].a, strokes[index].b)]
    return shapely.convex_hull(shapely.multipoints(spots)).buffer(0.01)


def _merged(strokes: Sequence[Stroke], first: Found, second: Found) -> Found:
    members = (*first.strokes, *second.strokes)
    return Found(0, members, _hull(strokes, members), first.title or second.title)


def _without_specks(clusters: list[Found], strokes: Sequence[Stroke], titles: Sequence[Words]) -> list[Found]:
    """Columns and nibs that stand free taken to the drawing beside them, unless a title of their own is nearer."""
    large = [one for one in clusters if max(one.size) >= _SPECK]
    if not large:
        return clusters
    others = [title for title in titles if (told := title_told(title.text)) is not None and told.kind == "other"]
    for speck in (one for one in clusters if max(one.size) < _SPECK):
        beside = min(range(len(large)), key=lambda index: speck.hull.distance(large[index].hull))
        far = speck.hull.distance(large[beside].hull)
        own = min((speck.hull.distance(shapely.Point(title.at)) for title in others), default=math.inf)
        if far <= _NEAR_SPECK and not (own < max(far, 1.0) and far > 0):
            large[beside] = _merged(strokes, large[beside], speck)
        else:
            large.append(speck)
    return large


def _without_rifts(clusters: list[Found], strokes: Sequence[Stroke], titles: Sequence[Words]) -> list[Found]:
    """What stands no farther apart than an opening is wide made one drawing, unless both have titles of their own."""
    left = _titled(clusters, titles)
    pairs = ((one, two) for one in range(len(left)) for two in range(one))
    for one, two in pairs:
        first, second = left[one], left[two]
        if (first.title is None or second.title is None) and first.hull.distance(second.hull) <= _RIFT:
            left = [other for index, other in enumerate(left) if index not in (one, two)]
            return _without_rifts([*left, _merged(strokes, first, second)], strokes, titles)
    return left


def _without_islands(clusters: list[Found], strokes: Sequence[Stroke]) -> list[Found]:
    """What stands within another drawing's outline made part of it; a frame about titled drawings stands alone."""
    left = sorted(clusters, key=lambda one: -one.hull.area)
    made: list[Found] = []
    while left:
        outer = left.pop(0)
        within = [one for one in left if one.hull.intersection(outer.hull).area > 0.5 * one.hull.area]
        if any(one.title is not None for one in within):
            made.append(replace(outer, title=None, why="is a frame about other drawings"))
            continue
        for one in within:
            left.remove(one)
            outer = _merged(strokes, outer, one)
        made.append(outer)
    return made


def _why_no_plan(one: Found) -> str:
    if one.why:
        return one.why
    if one.title is not None and one.title.kind == "other":
        return f"its title is {one.title.text[:60]!r}"
    if max(one.size) < _SPECK or (one.title is None and len(one.strokes) < _LEAST_OF_PLAN):
        return TOO_SMALL
    return ""


# --- titles ---


def _titles(words: Sequence[Words]) -> list[Words]:
    return [one for one in words if title_told(one.text) is not None]


def _titled(clusters: list[Found], titles: Sequence[Words]) -> list[Found]:
    """Each drawing with its title: that of the largest letters near it, then the nearest; none is given twice."""
    bare = [replace(one, title=None) for one in clusters]
    usual = median([one.height for one in titles]) if titles else 0.0
    offers: list[tuple[float, float, int, int]] = []
    for which, words in enumerate(titles):
        told = title_told(words.text)
        costs = {index: cost for index, one in enumerate(bare) if (cost := _cost(words, told, one)) is not None}
        nearest = min(costs.values(), default=0.0)
        offers += [
            (-_tier(words.height, usual), cost, index, which)
            for index, cost in costs.items()
            if cost <= max(_SHIFTED * nearest, 1.0)
        ]
    given: set[int] = set()
    for _, _, index, which in sorted(offers):
        if bare[index].title is None and which not in given and not bare[index].why:
            bare[index] = replace(bare[index], title=title_told(titles[which].text))
            given.add(which)
    return bare


def _tier(height: float, usual: float) -> int:
    """Letters' heights in steps of a quarter, so that nearly the same is the same."""
    return round(math.log(height / usual) / math.log(_LARGER)) if height > 0 and usual > 0 else 0


def _cost(words: Words, told: Title | None, one: Found) -> float | None:
    """How far a title is from a drawing, more where it stands above it; None where it is out of reach, or within it."""
    spot = shapely.Point(words.at)
    far = float(one.hull.distance(spot))
    within = far == 0.0
    if told is None or (within and (not told.is_plain or told.kind == "other")):
        return None
    if far > max(_TITLE_REACH, _TITLE_SHARE * max(one.size)):
        return None
    turn = math.radians(words.turn)
    middle = np.array(one.hull.centroid.coords[0]) - np.array(words.at)
    above = float(middle @ np.array([-math.sin(turn), math.cos(turn)])) < 0
    return far * (_ABOVE if above else 1.0) + (_TITLE_REACH if within else 0.0)
