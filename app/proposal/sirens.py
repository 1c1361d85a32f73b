"""Sirens: beside the chime, else in a hall; one on every floor of a large home.

Where a bed still hears too little, one more is put where that mends it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from app.plan.measures import area_text
from app.plan.model import Device, Fixture
from app.plan.room_uses import KITCHEN_OR_BATH, SLEEPING, UNCONDITIONED, use_of
from app.proposal.bedsides import Bedsides
from app.proposal.proposals import Numbering, Proposal, below_ceiling, sentence
from app.proposal.wall_sides import Stretch, WallSides
from app.review.house import House, Storey

_BESIDE_CHIME = 1.0  # ft along the wall from the chime
_ON_WALL = 0.75  # ft
_ROOM_FOR_IT = 0.4  # ft to either side of a siren's middle
_MOST_FOR_SLEEPERS = 3  # further sirens on a level
_MOST_SPOTS = 100  # that are tried on a level, the longest walls first
_PASSAGES = ("hall", "hallway", "corridor", "landing", "stair_hall", "gallery", "entry", "foyer", "entry_hall")


@dataclass(frozen=True)
class _Spot:
    """A place for a siren: on which face of wall, facing where, and in words."""

    at: tuple[float, float]
    facing: float | None
    words: str


def propose_sirens(house: House, numbering: Numbering) -> list[Proposal]:
    """Sirens for a house (with its keypads proposed already, whose sounders count)."""
    closed = [storey for storey in house if len(storey.scene.faces)]
    places = [_Places(house, storey) for storey in closed if storey.level.rooms or not _any_rooms(house)]
    has = {storey.level.id for storey in house if storey.devices("siren")}
    chosen: dict[str, list[tuple[_Spot, str]]] = {place.storey.level.id: [] for place in places}
    if not has and places:
        first = max(places, key=lambda place: place.suits)
        chosen[first.storey.level.id] += first.first("the house has no siren")
    area = sum(face.area for storey in house for face in storey.scene.faces.outline)
    large = area > house.practice.number("siren.large_home")
    for place in places:
        level = place.storey.level
        mine = chosen[level.id]
        if large and not mine and level.id not in has:
            mine += place.first(f"{level.name} has none, in a home of {area_text(area, house.plan.units)}")
        if mine or has:
            mine += place.for_sleepers([spot for spot, _ in mine])
    return [
        _proposal(place.storey, spot, why, numbering) for place in places for spot, why in chosen[place.storey.level.id]
    ]


def _any_rooms(house: House) -> bool:
    return any(storey.level.rooms for storey in house)


def _proposal(storey: Storey, spot: _Spot, why: str, numbering: Numbering) -> Proposal:
    height = below_ceiling(storey, storey.practice.number("siren.height"))
    note = f"Stands {spot.words} for the bedrooms." if _chimes(storey) and not _is_beside(spot) else None
    device = Device(id=numbering.next("siren"), kind="siren", at=spot.at, facing=spot.facing, height=height, note=note)
    return Proposal(storey.level.id, device, f"{sentence(why)}: {spot.words}.")


def _is_beside(spot: _Spot) -> bool:
    return spot.words.startswith("beside")


def _chimes(storey: Storey) -> list[Fixture]:
    return [one for one in storey.level.fixtures if one.kind == "chime" and one.at is not None]


@dataclass(frozen=True)
class _Places:
    """Where sirens may be on one level."""

    house: House
    storey: Storey

    @property
    def suits(self) -> tuple[bool, int, int]:
        """How well the level suits the house's first siren: by its chime, its beds, its bedrooms."""
        level = self.storey.level
        beds = sum(fixture.kind == "bed" for fixture in level.fixtures)
        return bool(_chimes(self.storey)), beds, sum(use_of(room) in SLEEPING for room in level.rooms)

    def first(self, why: str) -> list[tuple[_Spot, str]]:
        """The spot beside the chime, else the one that the beds hear best, else the one nearest to the middle."""
        beside = [spot for chime in _chimes(self.storey) if (spot := self._beside(chime)) is not None]
        if beside:
            return [(beside[0], why)]
        if not self._passages:
            return []
        middle = self.storey.scene.faces.building.centroid
        ranks = [
            (*self._bedsides.shortfall([index]), math.dist(spot.at, (middle.x, middle.y)), index)
            for index, spot in enumerate(self._passages)
        ]
        return [(self._passages[min(ranks)[-1]], why)]

    def for_sleepers(self, placed: list[_Spot]) -> list[tuple[_Spot, str]]:
        """Further spots in halls where beds hear too little, as long as one more siren mends a bed."""
        asked = self.house.practice.number("sound.bedside")
        if not any(fixture.kind == "bed" for fixture in self.storey.level.fixtures):
            return []
        spots = [*placed, *self._passages]
        bedsides = Bedsides(self.house, self.storey, [spot.at for spot in spots])
        chosen = list(range(len(placed)))
        lacking, _ = bedsides.shortfall(chosen)
        found: list[tuple[_Spot, str]] = []
        while lacking and len(found) < _MOST_FOR_SLEEPERS and len(spots) > len(placed):
            tried = [(*bedsides.shortfall([*chosen, index]), index) for index in range(len(placed), len(spots))]
            fewer, _, best = min(tried)
            if fewer >= lacking:
                break
            beds = "a bed" if lacking == 1 else f"{lacking} beds"
            why = f"{beds} of {self.storey.level.name} would hear under {asked:g} dBA (an estimate)"
            found.append((spots[best], why))
            chosen.append(best)
            lacking = fewer
        return found

    @cached_property
    def _bedsides(self) -> Bedsides:
        return Bedsides(self.house, self.storey, [spot.at for spot in self._passages])

    @cached_property
    def _passages(self) -> list[_Spot]:
        """The middles of the clear walls of halls; of all living space where a level has none."""
        walls = sorted(self._walls_of_passages(), key=lambda entry: -round(entry[0].length, 6))
        return [
            _Spot(wall.spot((wall.start + wall.end) / 2), wall.facing, f"in {room}")
            for wall, room in walls[:_MOST_SPOTS]
        ]

    def _walls_of_passages(self) -> Iterator[tuple[Stretch, str]]:
        """The clear walls with what people call their room."""
        rooms = [room for room in self.storey.level.rooms if self.storey.scene.face_of_room[room.id] >= 0]
        halls = [room for room in rooms if use_of(room) in _PASSAGES]
        others = [room for room in rooms if use_of(room) not in KITCHEN_OR_BATH | UNCONDITIONED]
        for room in halls or others or rooms:
            for wall in self._walls(self.storey.scene.face_of_room[room.id]):
                yield wall, self.storey.name(room.id)
        for face in () if rooms else range(len(self.storey.scene.faces)):
            for wall in self._walls(face):
                yield wall, f"a room of {self.storey.level.name}"

    @cached_property
    def _sides(self) -> WallSides:
        return WallSides(self.storey.scene)

    def _walls(self, face: int) -> list[Stretch]:
        height = min(self.storey.practice.number("siren.height"), self.storey.level.ceiling)
        return self._sides.stretches(face, height, _ROOM_FOR_IT)

    def _beside(self, chime: Fixture) -> _Spot | None:
        """The spot beside a chime on its wall, on the side with more wall."""
        assert chime.at is not None
        face = self.storey.scene.faces.face_at(*chime.at)
        words = f"beside {self.storey.name(chime.id)}"
        walls = [] if face < 0 else self._walls(face)
        away = [math.dist(chime.at, wall.spot(wall.nearest(*chime.at))) for wall in walls]
        if not walls or min(away) > _ON_WALL:
            return _Spot(chime.at, None, words)
        wall = walls[int(np.argmin(away))]
        here = wall.nearest(*chime.at)
        onward = 1 if wall.end - here >= here - wall.start else -1
        along = min(max(here + onward * _BESIDE_CHIME, wall.start), wall.end)
        return _Spot(wall.spot(along), wall.facing, words)
