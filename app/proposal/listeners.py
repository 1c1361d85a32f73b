"""The fewest glass breaks on a level's ceilings for the panes that nobody hears yet: regions, cells, cover, seats.

Regions are exact for whole panes. Where the practice asks for less than the whole pane, a detector that sees all of it
is still enough, but fewer might do: the count is then no longer proven.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import TOLERANCE, GlassProof, prove_glass
from app.geometry.scene import LevelScene
from app.geometry.vantage import vantage_region
from app.plan.model import Device
from app.plan.practice import Practice
from app.proposal.ceilings import Ceilings
from app.proposal.cells import NARROWEST, Place, places_of
from app.proposal.cover import apart, fewest_cover
from app.proposal.seating import middle_of, seat_in

Stop = Callable[[], bool]


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
    """The listeners for some panes. No fewer than ``bound`` can do; ``deaf`` are panes that no ceiling place hears,
    ``untried`` those left when the pass was stopped, ``exact`` whether the bound is proven over every ceiling place.
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
        """The ceiling places from which the whole of a pane is heard."""
        if pane not in self.regions:
            within = self.ceilings.within_reach(self.scene.panes.opening[pane], self.reach)
            region = within if within.is_empty else vantage_region(self.scene, pane, self.height, self.reach, within)
            self.regions[pane] = _areas_of(region)
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
        bound, places, exact = 0, 0, self._asks_for_all
        done = 0
        for group in _overlapping([self.regions[pane] for pane in reached]):
            together = [reached[index] for index in group]
            share = seconds * len(group) / len(reached)
            found = self._hear_together(together, max(1.0, share), stop)
            listeners += found.listeners
            bound, places, exact = bound + found.bound, places + found.places, exact and found.exact
            done += len(group)
            progress(0.7 + 0.3 * done / len(reached))
        return Hearing(
            tuple(listeners),
            bound,
            tuple(pane for pane in tried if self.regions[pane].is_empty),
            tuple(panes[len(tried) :]),
            exact,
            places,
        )

    @cached_property
    def _asks_for_all(self) -> bool:
        return self.practice.number("glass.required_fraction") >= 1 - TOLERANCE

    def _hear_together(self, panes: list[int], seconds: float, stop: Stop) -> Hearing:
        """The fewest listeners for panes whose regions hang together."""
        regions = [self.regions[pane] for pane in panes]
        faces = self._faces_under(regions)
        zones = self.ceilings.zones(faces)
        found = places_of(regions, zones)
        places = list(found.places)
        least = apart([place.regions for place in places]) if found.complete else _apart_by_shape(regions)
        bound = None
        while True:
            cover = fewest_cover(
                [place.regions for place in places],
                [place.penalty for place in places],
                bound=least,
                seconds=seconds,
                stop=stop,
            )
            if bound is None:
                bound = cover.bound if found.complete else least
            chosen = [places[index] for index in cover.chosen]
            false = self._unproven(chosen, panes)
            if not false:
                break
            places = _without(places, false)
        return Hearing(tuple(self._seated(chosen, panes, zones)), bound, exact=found.complete, places=len(places))

    def _faces_under(self, regions: Sequence[BaseGeometry]) -> list[int]:
        tree = self.scene.faces.floor_tree
        return sorted({int(face) for face in tree.query(np.array(regions, dtype=object), predicate="intersects")[1]})

    def _unproven(self, chosen: Sequence[Place], panes: Sequence[int]) -> dict[Place, frozenset[int]]:
        """Places whose own proof does not bear out all that the geometry promised, with what it does not."""
        false = {}
        for place in chosen:
            heard = self.heard_from((place.x, place.y))
            if missing := frozenset(index for index in place.regions if panes[index] not in heard):
                false[place] = missing
        return false

    def heard_from(self, at: tuple[float, float]) -> frozenset[int]:
        """The panes that a detector at a spot covers, by the proof that every check uses."""
        return covered_by(self.proof_at(at), self.practice)

    def proof_at(self, at: tuple[float, float]) -> GlassProof:
        """What a detector at a spot reaches."""
        device = Device(id="trial", kind="glass_break", at=at, height=self.height)
        return prove_glass(self.scene, device, self.practice)

    def _seated(
        self, chosen: Sequence[Place], panes: Sequence[int], zones: Sequence[tuple[int, BaseGeometry]]
    ) -> list[Listener]:
        """Each chosen place moved as deep as it can be into the cell of the panes that only it hears."""
        spots = [(place.x, place.y) for place in chosen]
        heard = [{panes[index] for index in place.regions} for place in chosen]
        seated = []
        for number, place in enumerate(chosen):
            others = set().union(*(heard[other] for other in range(len(chosen)) if other != number))
            needed = sorted(heard[number] - others)
            seat, depth = self._seat(place, needed, zones)
            now = self.heard_from(seat)
            if now.issuperset(needed):
                spots[number], heard[number] = seat, set(now & set(panes))
            else:
                depth = 0.0
            seated.append((needed, depth, place.penalty))
        return [
            Listener(spot, tuple(needed), tuple(sorted(hears)), depth, penalty)
            for spot, hears, (needed, depth, penalty) in zip(spots, heard, seated, strict=True)
        ]

    def _seat(
        self, place: Place, needed: Sequence[int], zones: Sequence[tuple[int, BaseGeometry]]
    ) -> tuple[tuple[float, float], float]:
        cell = self.regions[needed[0]]
        for pane in needed[1:]:
            cell = shapely.intersection(cell, self.regions[pane])
        for _, zone in zones:
            if not shapely.contains_xy(zone, place.x, place.y):
                cell = shapely.difference(cell, zone)
        cell = _areas_of(cell)
        if cell.is_empty:
            return (place.x, place.y), 0.0
        face = self.scene.faces.face_at(place.x, place.y)
        glass = shapely.MultiLineString(list(self.scene.panes.ends[list(needed)]))
        axes = np.array([middle_of(self.scene.faces.floors[face]), middle_of(glass)])
        return seat_in(cell, axes)


def covered_by(proof: GlassProof, practice: Practice) -> frozenset[int]:
    """The panes of which a detector reaches the share that the practice asks for."""
    least = practice.number("glass.required_fraction") - TOLERANCE
    return frozenset(pane for pane, view in proof.views.items() if view.fraction >= least)


def _areas_of(region: BaseGeometry) -> BaseGeometry:
    """The polygons of a region that are wide enough for a detector to be in."""
    parts = [
        part
        for part in shapely.get_parts(region)
        if part.geom_type == "Polygon" and part.area > NARROWEST * part.length / 2
    ]
    return shapely.multipolygons(parts) if parts else shapely.Polygon()


def _overlapping(regions: Sequence[BaseGeometry]) -> list[list[int]]:
    """The numbers of the regions in groups that hang together by overlaps, each in order."""
    if not regions:
        return []
    shapes = np.array(regions, dtype=object)
    first, second = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    leader = list(range(len(regions)))

    def root(index: int) -> int:
        while leader[index] != index:
            leader[index] = leader[leader[index]]
            index = leader[index]
        return index

    for one, two in zip(first.tolist(), second.tolist(), strict=True):
        leader[max(root(one), root(two))] = min(root(one), root(two))
    groups: dict[int, list[int]] = {}
    for index in range(len(regions)):
        groups.setdefault(root(index), []).append(index)
    return list(groups.values())


def _apart_by_shape(regions: Sequence[BaseGeometry]) -> int:
    """A lower bound that needs no places: regions of which no two overlap, found greedily."""
    shapes = np.array(regions, dtype=object)
    first, second = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    return apart([frozenset((one, two)) for one, two in zip(first.tolist(), second.tolist(), strict=True)])


def _without(places: Sequence[Place], false: dict[Place, frozenset[int]]) -> list[Place]:
    """The places with what their proofs did not bear out taken off."""
    kept = []
    for place in places:
        regions = place.regions - false.get(place, frozenset())
        if regions:
            kept.append(Place(place.x, place.y, regions, place.penalty))
    return kept
