"""Rough-in: what the crew drills, ticks off by room, and keeps away from, before the drywall.

Hole sizes are left blank until someone takes them from the sensor's spec sheet; every caution defers to the adopted
local code and to licensed practice.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.plan.devices import height_of
from app.plan.model import Plan
from app.plan.practice import DESIGN_VALUE, Practice
from app.wiring.pulls import Pull, by_can
from app.wiring.routes.run_heights import run_height

DRILLED = {
    "door_contact": "Frame: size and depth from the sensor's spec sheet before drilling.",
    "window_contact": (
        "Only with the window manufacturer's written word; 6 in or more from top or base of the track; "
        "size and depth from the sensor's spec sheet; seal the hole."
    ),
    "overhead_door_contact": "Surface or floor mount: holes from the sensor's spec sheet.",
}
STUD_DEPTHS = (("2×4", 3.5), ("2×6", 5.5))
NEAR = 1e-4  # ft
EDGE_DISTANCE = 1.25  # in, NEC 300.4(A)(1): nearer to the stud's face than this a steel plate is needed


@dataclass(frozen=True)
class Caution:
    """One line that the crew reads before drilling, and who says so."""

    words: str
    source: str


CAUTIONS = (
    Caution(
        "The adopted local code, the structural engineer and the equipment's listing decide; ask before cutting.",
        "common practice, no source",
    ),
    Caution(
        "Bore so that the hole's edge is 1 1/4 in or more from the stud's face, or fit a 1/16 in steel nail plate.",
        "NEC 300.4(A)(1)",
    ),
    Caution(
        "Studs: bored hole up to 40 % of the depth in bearing and exterior walls, 60 % in others, "
        "5/8 in or more from the edge, not in line with a notch.",
        "IRC R602.6",
    ),
    Caution(
        "Sawn joists and rafters: hole up to 1/3 of the depth and 2 in or more from the edges; "
        "notch up to 1/6 of the depth, never in the middle third.",
        "IRC R502.8, R802.7.1",
    ),
    Caution("Engineered joists and trusses: cut or bore only as their maker allows.", "IRC R802.7.2"),
    Caution(
        "Keep 12 in or more from power cable that runs alongside; cross it at right angles.",
        "ANSI/TIA/EIA-570-A-1 (2002), good practice and not the electrical code",
    ),
    Caution("Never in one box, raceway or cable with power.", "NEC 725.136(A)"),
    Caution(
        "Seal every hole through plates, floors, the garage wall and rated assemblies with approved material.",
        "NEC 300.21, IRC R302.11",
    ),
    Caution("No splice in the wall; each pull is one piece from device to can.", "common practice, no source"),
    Caution(
        "Bend no tighter than four times the cable's diameter.",
        "ANSI/TIA-568 practice for unshielded cable, from memory",
    ),
    Caution(
        "Support cable by the structure without crushing it; photograph every wall before the drywall.",
        "NEC 722.24 (725.24 before 2023); alarm association code of practice",
    ),
)


@dataclass(frozen=True)
class Stop:
    """One place of the crew's round: a device's pull, its height above the finished floor, what is drilled there."""

    pull: Pull
    height_ft: float
    drilling: str


@dataclass(frozen=True)
class Hole:
    """All cables that pass one place, were they to share one bored hole: their area and the smallest hole to fill.

    ``thing`` is the riser or can that ``where`` names in words. ``plates`` name the studs in whose middle such a hole
    comes nearer to the face than 1 1/4 in, ``unknown`` the cables whose diameter the practice does not give.
    """

    where: str
    thing: str
    cables: tuple[tuple[str, int], ...]
    area_sqin: float
    hole_in: float
    plates: tuple[str, ...]
    unknown: tuple[str, ...]


def stops_by_room(pulls: Sequence[Pull], practice: Practice) -> list[tuple[str, str, list[Stop]]]:
    """(level name, room name, stops) in the order of the house; rooms without a name come last on their level."""
    rooms: dict[tuple[str, str], list[Stop]] = {}
    for pull in sorted(pulls, key=lambda pull: not pull.room_name):
        height = height_of(pull.device, pull.level, practice)
        stop = Stop(pull, height, DRILLED.get(pull.device.kind, ""))
        rooms.setdefault((pull.level.id, pull.room_name), []).append(stop)
    order = {pull.level.id: number for number, pull in reversed(list(enumerate(pulls)))}
    names = {pull.level.id: pull.level.name for pull in pulls}
    return [(names[level], room, stops) for (level, room), stops in sorted(rooms.items(), key=lambda e: order[e[0][0]])]


def cable_area(cable: str, practice: Practice) -> float | None:
    """Square inches of a cable's round, from its outer diameter in the practice; None where the practice has none."""
    key = f"cable.diameter_{cable.strip().replace('/', '_')}"
    return math.pi / 4 * practice.number(key) ** 2 if key in DESIGN_VALUE else None


def holes_of(plan: Plan, pulls: Sequence[Pull]) -> list[Hole]:
    """The bundles through each riser that is used and down to each can, risers first."""
    practice = plan.practice_in_force
    runs = {level.id: run_height(level, practice) for level in plan.levels}
    holes = []
    climbs = _climbs(pulls)
    for riser in plan.risers:
        low, high = sorted((runs[riser.from_level], runs[riser.to_level]))
        cables = Counter(
            cable
            for cable, bottom, top in climbs.get(_spot(riser.at), ())
            if bottom <= low + NEAR and top >= high - NEAR
        )
        if cables:
            holes.append(hole_for(cables.items(), practice, f"Riser {riser.id}", riser.id))
    for can, ending in by_can(pulls).items():
        cables = Counter(pull.cable for pull in ending)
        holes.append(hole_for(cables.items(), practice, f"Down to can {can}", can))
    return holes


def _climbs(pulls: Sequence[Pull]) -> dict[tuple[int, int], list[tuple[str, float, float]]]:
    """The cable, bottom and top of every vertical stretch, by its spot on the plan."""
    climbs: dict[tuple[int, int], list[tuple[str, float, float]]] = {}
    for pull in pulls:
        for here, there in pairwise(pull.way.corners if pull.way else ()):
            if math.dist(here[:2], there[:2]) <= NEAR:
                bottom, top = sorted((here[2], there[2]))
                climbs.setdefault(_spot(here), []).append((pull.cable, bottom, top))
    return climbs


def _spot(at: Sequence[float]) -> tuple[int, int]:
    return round(at[0] / NEAR), round(at[1] / NEAR)


def hole_for(cables: Iterable[tuple[str, int]], practice: Practice, where: str = "", thing: str = "") -> Hole:
    """The hole for a bundle: cable area over the share that a hole may be filled (a yardstick, not a rule)."""
    held = tuple(sorted(cables))
    known = [(area, count) for cable, count in held if (area := cable_area(cable, practice)) is not None]
    area = sum(one * count for one, count in known)
    hole = 2 * math.sqrt(area / practice.number("cable.hole_fill") / math.pi)
    plates = tuple(name for name, depth in STUD_DEPTHS if hole > depth - 2 * EDGE_DISTANCE)
    unknown = tuple(cable for cable, _ in held if cable_area(cable, practice) is None)
    return Hole(where, thing, held, area, hole, plates, unknown)
