"""Sirens: beside the chime, else in a hall; one on every floor of a large home.

Where a bed still hears too little, one more is put where that mends it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from app.coverage.sound import Source, listen, pillows, sounders
from app.plan.measures import area_text
from app.plan.model import Device, Fixture
from app.plan.room_uses import KITCHEN_OR_BATH, UNCONDITIONED, use_of
from app.proposal.proposals import Numbering, Proposal, below_ceiling
from app.proposal.wall_sides import Stretch, WallSides
from app.review.house import House, Storey

_BESIDE_CHIME = 1.0  # ft along the wall from the chime
_ON_WALL = 0.75  # ft
_ROOM_FOR_IT = 0.4  # ft to either side of a siren's middle
_MOST_FOR_SLEEPERS = 3  # further sirens on a level
_PASSAGES = ("hall", "hallway", "corridor", "landing", "stair_hall", "gallery", "entry", "foyer", "entry_hall")

Spot = tuple[tuple[float, float], float | None, str]


def propose_sirens(house: House, numbering: Numbering) -> list[Proposal]:
    """Sirens for a house (with its keypads proposed already, whose sounders count)."""
    found: list[Proposal] = []
    has = {storey.level.id for storey in house if storey.devices("siren")}
    indoors = [storey for storey in house if storey.level.rooms and len(storey.scene.faces)]
    first = _first_storey(indoors)
    if not has and first is not None:
        found += _on(house, first, "the house has no siren", numbering)
    area = sum(face.area for storey in house for face in storey.scene.faces.outline)
    if (has or found) and area > house.practice.number("siren.large_home"):
        for storey in indoors:
            if storey.level.id not in has | {one.level for one in found}:
                why = f"{storey.level.name} has none, in a home of {area_text(area, house.plan.units)}"
                found += _on(house, storey, why, numbering)
    if has or found:
        found += _for_sleepers(house, indoors, found, numbering)
    return found


def _first_storey(indoors: list[Storey]) -> Storey | None:
    """The level with the chime, else the one with most beds and bedrooms, else the first with rooms."""
    return max(
        indoors,
        key=lambda one: (
            bool(_chimes(one)),
            sum(fixture.kind == "bed" for fixture in one.level.fixtures),
            sum("bedroom" in use_of(room) for room in one.level.rooms),
        ),
        default=None,
    )


def _chimes(storey: Storey) -> list[Fixture]:
    return [one for one in storey.level.fixtures if one.kind == "chime" and one.at is not None]


def _on(house: House, storey: Storey, why: str, numbering: Numbering) -> list[Proposal]:
    """A siren beside a level's chime, else where the level's beds hear it best."""
    spots = [spot for chime in _chimes(storey) if (spot := _beside(storey, chime)) is not None]
    if not spots:
        spots = sorted(_passages(storey), key=lambda spot: _shortfall(house, storey, [spot]))[:1]
    return [_proposal(storey, spot, why, numbering) for spot in spots[:1]]


def _proposal(storey: Storey, spot: Spot, why: str, numbering: Numbering) -> Proposal:
    at, facing, place = spot
    height = below_ceiling(storey, storey.practice.number("siren.height"))
    note = None if place.startswith("beside") or not _chimes(storey) else f"Stands {place} for the bedrooms."
    device = Device(id=numbering.next("siren"), kind="siren", at=at, facing=facing, height=height, note=note)
    return Proposal(storey.level.id, device, f"{why[:1].upper()}{why[1:]}: {place}.")


def _beside(storey: Storey, chime: Fixture) -> Spot | None:
    """The spot beside a chime on its wall, on the side with more wall."""
    assert chime.at is not None
    face = storey.scene.faces.face_at(*chime.at)
    place = f"beside {storey.name(chime.id)}"
    walls = [] if face < 0 else _walls(storey, face)
    spots = [(math.dist(chime.at, wall.spot(wall.nearest(*chime.at))), number) for number, wall in enumerate(walls)]
    away, number = min(spots, default=(math.inf, -1))
    if away > _ON_WALL:
        return chime.at, None, place
    wall = walls[number]
    here = wall.nearest(*chime.at)
    along = min(here + _BESIDE_CHIME, wall.end) if wall.end - here >= here - wall.start else here - _BESIDE_CHIME
    return wall.spot(max(along, wall.start)), wall.facing, place


def _walls(storey: Storey, face: int) -> list[Stretch]:
    height = storey.practice.number("siren.height")
    return WallSides(storey.scene).stretches(face, min(height, storey.level.ceiling), _ROOM_FOR_IT)


def _passages(storey: Storey) -> Iterator[Spot]:
    """The middles of the clear walls of halls; of all living space where a level has none."""
    rooms = [room for room in storey.level.rooms if storey.scene.face_of_room[room.id] >= 0]
    halls = [room for room in rooms if use_of(room) in _PASSAGES]
    others = [room for room in rooms if use_of(room) not in KITCHEN_OR_BATH | UNCONDITIONED]
    for room in halls or others or rooms:
        for wall in _walls(storey, storey.scene.face_of_room[room.id]):
            yield wall.spot((wall.start + wall.end) / 2), wall.facing, f"in {storey.name(room.id)}"


def _shortfall(house: House, storey: Storey, spots: list[Spot]) -> tuple[int, float]:
    """How many beds of a level hear too little with sirens at some spots too, and how many dB the worst lacks."""
    beds = [bed for bed in pillows(house.plan) if bed.level == storey.level.id]
    z = storey.level.elevation + house.practice.number("siren.height")
    rated, asked = house.practice.number("siren.rated"), house.practice.number("sound.bedside")
    sources = sounders(house.plan) + [Source("trial", storey.level.id, spot[0], z, rated) for spot in spots]
    levels = [heard.level for heard in listen(house.scenes, house.practice, sources, beds)]
    return sum(level < asked for level in levels), max((asked - level for level in levels), default=0.0)


def _for_sleepers(house: House, indoors: list[Storey], so_far: list[Proposal], numbering: Numbering) -> list[Proposal]:
    """Further sirens in the halls of each level where beds hear too little, as long as one more mends a bed."""
    asked = house.practice.number("sound.bedside")
    found = []
    for storey in indoors:
        placed: list[Spot] = [(one.device.at, None, "") for one in so_far if one.level == storey.level.id]
        lacking, _ = _shortfall(house, storey, placed)
        spots = list(_passages(storey)) if lacking else []
        for _ in range(_MOST_FOR_SLEEPERS):
            if not lacking or not spots:
                break
            tried = [(*_shortfall(house, storey, [*placed, spot]), number) for number, spot in enumerate(spots)]
            fewer, _, number = min(tried)
            if fewer >= lacking:
                break
            count = "a bed" if lacking == 1 else f"{lacking} beds"
            why = f"{count} of {storey.level.name} would hear under {asked:g} dBA (an estimate)"
            found.append(_proposal(storey, spots[number], why, numbering))
            placed.append(spots[number])
            lacking = fewer
    return found
