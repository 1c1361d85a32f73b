"""The fewest glass breaks on a level's ceilings for the panes that nobody hears yet: regions, cells, cover, seats.

Every proposal is borne out by the proof that a check makes before it is handed on.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import TOLERANCE, GlassProof, prove_glass
from app.geometry.bodies import FloatArray
from app.geometry.scene import LevelScene
from app.plan.model import Device
from app.plan.practice import Practice
from app.proposal.ceilings import Ceilings
from app.proposal.cells import Place, places_of
from app.proposal.cover import apart, fewest_cover
from app.proposal.hearing_regions import areas_of, enough_of_pane, hanging_together, is_whole
from app.proposal.seating import deepest_spot, middle_of, seat_in

TAPE = 1 / 24  # ft: half an inch that the crew's tape may err; a place that does not forgive it is none
MARGINS = (1.0, 0.5, 0.25, 1 / 12)  # ft of slack that a seat should have, as much as the number allows
_MOST_FOR_MARGINS = 80  # panes that hang together; beyond it seats are as deep as the first cover lets them be
_SHALLOW = 0.25  # ft: with less slack than this a less loved place is better
Stop = Callable[[], bool]
Zone = tuple[int, BaseGeometry]


@dataclass(frozen=True)
class Listener:
    """A glass break to be hung at ``at``; ``needed`` are the panes that no other one hears, ``heard`` all of them."""

    at: tuple[float, float]
    needed: tuple[int, ...]
    heard: tuple[int, ...]
    depth: float
    penalty: int


@dataclass(frozen=True)
class Hearing:
    """The listeners for some panes.

    No fewer than ``bound`` can do at places that forgive half an inch, where ``exact``: where the practice asks for
    less than whole panes more places would do than are looked at. ``deaf`` are panes that no ceiling place hears,
    ``untried`` those left when the pass was stopped; ``places`` counts the places that were weighed.
    """

    listeners: tuple[Listener, ...] = ()
    bound: int = 0
    deaf: tuple[int, ...] = ()
    untried: tuple[int, ...] = ()
    exact: bool = True
    places: int = 0


@dataclass(frozen=True)
class Ears:
    """The search on one level: ``height`` and ``reach`` of the detectors in feet."""

    scene: LevelScene
    ceilings: Ceilings
    practice: Practice
    height: float
    reach: float
    regions: dict[int, BaseGeometry] = field(default_factory=dict)

    def region(self, pane: int) -> BaseGeometry:
        """The ceiling places from which enough of a pane is heard."""
        if pane not in self.regions:
            within = self.ceilings.within_reach(self.scene.panes.opening[pane], self.reach)
            least = self.practice.number("glass.required_fraction")
            region = within
            if not within.is_empty:
                region = enough_of_pane(self.scene, pane, self.height, self.reach, within, least)
            self.regions[pane] = areas_of(region)
        return self.regions[pane]

    def hear(self, panes: Sequence[int], *, seconds: float, progress: Callable[[float], None], stop: Stop) -> Hearing:
        """The fewest listeners for some panes; ``progress`` hears the share done, ``seconds`` bound the search."""
        tried: list[int] = []
        for pane in panes:
            if stop():
                break
            self.region(pane)
            tried.append(pane)
            progress(0.7 * len(tried) / len(panes))
        reached = [pane for pane in tried if not self.regions[pane].is_empty]
        listeners: list[Listener] = []
        bound = places = done = 0
        for group in hanging_together([self.regions[pane] for pane in reached]):
            together = [reached[index] for index in group]
            found = self._hear_together(together, max(1.0, seconds * len(group) / len(reached)), stop)
            listeners += found.listeners
            bound, places, done = bound + found.bound, places + found.places, done + len(group)
            progress(0.7 + 0.3 * done / len(reached))
        heard = {pane for listener in listeners for pane in listener.heard}
        return Hearing(
            tuple(listeners),
            bound,
            tuple(pane for pane in tried if pane not in heard),
            tuple(panes[len(tried) :]),
            is_whole(self.practice.number("glass.required_fraction")),
            places,
        )

    def _hear_together(self, panes: list[int], seconds: float, stop: Stop) -> Hearing:
        """The fewest listeners for panes whose regions hang together, none seated more shallowly than it must be."""
        regions = [_shrunk(self.regions[pane], TAPE) for pane in panes]
        zones = self.ceilings.zones(self._faces_under(regions))
        found = places_of(regions, zones)
        least = apart([place.regions for place in found.places]) if found.complete else apart(_overlaps(regions))
        chosen, bound = self._cover(found.places, panes, least, seconds, stop)
        if not found.complete:
            bound = least
        listeners = list(self._seated(chosen, panes, zones))
        for margin in MARGINS if len(panes) <= _MOST_FOR_MARGINS else ():
            if stop() or min(listener.depth for listener in listeners) >= margin:
                break
            deeper = places_of([_shrunk(self.regions[pane], margin) for pane in panes], zones)
            others, _ = self._cover(deeper.places, panes, bound, seconds / len(MARGINS), stop)
            shallow = min(listener.depth for listener in listeners) < _SHALLOW
            if _serves_as_well(others, chosen, panes, allow_unloved=shallow):
                seated = list(self._seated(others, panes, zones))
                if min(one.depth for one in seated) > min(one.depth for one in listeners):
                    listeners = seated
                    break
        return Hearing(tuple(listeners), bound, places=len(found.places))

    def _cover(
        self, places: Sequence[Place], panes: Sequence[int], least: int, seconds: float, stop: Stop
    ) -> tuple[list[Place], int]:
        """Places that hear all panes, each borne out by its own proof, and the lower bound on their number."""
        bound = None
        while True:
            cover = fewest_cover(
                [place.regions for place in places],
                [place.penalty for place in places],
                bound=least,
                seconds=seconds,
                stop=stop,
            )
            if bound is None:  # later rounds know of fewer places, and so prove less
                bound = cover.bound
            chosen = [places[index] for index in cover.chosen]
            false = self._unproven(chosen, panes)
            if not false:
                return chosen, bound
            places = _without(places, false)

    def _faces_under(self, regions: Sequence[BaseGeometry]) -> list[int]:
        tree = self.scene.faces.floor_tree
        return sorted({int(face) for face in tree.query(np.array(regions, dtype=object), predicate="intersects")[1]})

    def _unproven(self, chosen: Sequence[Place], panes: Sequence[int]) -> dict[Place, frozenset[int]]:
        """Places whose own proof does not bear out all that the geometry promised, with what it does not."""
        false = {}
        for place in chosen:
            heard = self._heard_from((place.x, place.y))
            if missing := frozenset(index for index in place.regions if panes[index] not in heard):
                false[place] = missing
        return false

    def _heard_from(self, at: tuple[float, float]) -> frozenset[int]:
        """The panes that a detector at a spot covers, by the proof that every check uses."""
        device = Device(id="trial", kind="glass_break", at=at, height=self.height)
        return covered_by(prove_glass(self.scene, device, self.practice), self.practice)

    def _seated(self, chosen: Sequence[Place], panes: Sequence[int], zones: Sequence[Zone]) -> Iterator[Listener]:
        """Each chosen place moved deep into the cell of the panes that are left to it."""
        for place, (cell, own) in zip(chosen, self._cells(chosen, panes), strict=True):
            if not own:  # the others hear all that it does
                continue
            at = (place.x, place.y) if cell.is_empty else self._seat(place, cell, own, zones)
            heard = self._heard_from(at)
            if not heard.issuperset(own):  # a hair off in rounding: the place itself was proven
                at = (place.x, place.y)
                heard = self._heard_from(at)
            depth = float(shapely.distance(shapely.Point(at), shapely.boundary(cell)))
            yield Listener(at, own, tuple(sorted(heard & set(panes))), depth, place.penalty)

    def _seat(self, place: Place, cell: BaseGeometry, own: Sequence[int], zones: Sequence[Zone]) -> tuple[float, float]:
        """The best spot in a cell: out of the unloved zones that the place is out of, unless that leaves no slack."""
        unloved = np.array([zone for _, zone in zones], dtype=object)
        unloved = unloved[shapely.intersects(unloved, cell)]
        unloved = unloved[~shapely.contains_xy(unloved, place.x, place.y)]
        loved = areas_of(shapely.difference(cell, shapely.union_all(unloved)))
        enough = min(_SHALLOW, deepest_spot(cell)[1] / 2)
        narrow = loved.is_empty or deepest_spot(loved)[1] < enough
        return seat_in(cell if narrow else loved, self._axes(place, own))[0]

    def _cells(self, chosen: Sequence[Place], panes: Sequence[int]) -> list[tuple[BaseGeometry, tuple[int, ...]]]:
        """For each chosen place the cell it may move in and the panes left to it.

        A pane that several places hear is left to the one whose cell stays deepest with it.
        """
        holders: dict[int, list[int]] = {}
        for number, place in enumerate(chosen):
            for index in sorted(place.regions):
                holders.setdefault(index, []).append(number)
        own: list[list[int]] = [[] for _ in chosen]
        for index, able in holders.items():
            if len(able) == 1:
                own[able[0]].append(panes[index])
        cells = [self._cell(place, mine) for place, mine in zip(chosen, own, strict=True)]
        for index, able in holders.items():
            if len(able) > 1:
                cut = [areas_of(shapely.intersection(cells[number], self.regions[panes[index]])) for number in able]
                depths = [0.0 if cell.is_empty else deepest_spot(cell)[1] for cell in cut]
                best = int(np.argmax(depths))
                cells[able[best]] = cut[best]
                own[able[best]].append(panes[index])
        return [(cell, tuple(sorted(mine))) for cell, mine in zip(cells, own, strict=True)]

    def _cell(self, place: Place, own: Sequence[int]) -> BaseGeometry:
        """The places under the same ceiling that hear some panes."""
        cell = self.ceilings.hanging(self.scene.faces.face_at(place.x, place.y))
        for pane in own:
            cell = shapely.intersection(cell, self.regions[pane])
        return areas_of(cell)

    def _axes(self, place: Place, own: Sequence[int]) -> FloatArray:
        """The middles of the room and of the glass, whose lines a detector hangs on where it can."""
        floor = self.scene.faces.floors[self.scene.faces.face_at(place.x, place.y)]
        glass = shapely.MultiLineString(list(self.scene.panes.ends[list(own)]))
        return np.array([middle_of(floor), middle_of(glass)])


def covered_by(proof: GlassProof, practice: Practice) -> frozenset[int]:
    """The panes of which a detector reaches the share that the practice asks for."""
    least = practice.number("glass.required_fraction") - TOLERANCE
    return frozenset(pane for pane, view in proof.views.items() if view.fraction >= least)


def _shrunk(region: BaseGeometry, margin: float) -> BaseGeometry:
    """The spots of a region at least so far from its edge, or half as far and so on where there are none."""
    for part in (1.0, 0.5, 0.25):
        core = shapely.buffer(region, -margin * part, quad_segs=4)
        if not core.is_empty:
            return core
    return region


def _serves_as_well(
    others: Sequence[Place], chosen: Sequence[Place], panes: Sequence[int], *, allow_unloved: bool
) -> bool:
    """Whether other places hear all panes, are no more, and are no less loved unless that is allowed."""
    heard = frozenset().union(*(place.regions for place in others))
    no_worse = sum(place.penalty for place in others) <= sum(place.penalty for place in chosen)
    return len(heard) == len(panes) and len(others) <= len(chosen) and (no_worse or allow_unloved)


def _overlaps(regions: Sequence[BaseGeometry]) -> list[frozenset[int]]:
    """The pairs of regions that overlap, and each region by itself."""
    shapes = np.array(regions, dtype=object)
    first, second = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    return [frozenset((one, two)) for one, two in zip(first.tolist(), second.tolist(), strict=True)]


def _without(places: Sequence[Place], false: dict[Place, frozenset[int]]) -> list[Place]:
    """The places with what their proofs did not bear out taken off."""
    kept = []
    for place in places:
        regions = place.regions - false.get(place, frozenset())
        if regions:
            kept.append(Place(place.x, place.y, regions, place.penalty))
    return kept
