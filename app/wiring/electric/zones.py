"""Zones: which pulls share an input of the panel, what type each zone is, its end-of-line resistor and its loop.

Pulls are grouped at the can only. Doors and detectors that judge for themselves (motion, glass break) each have a zone
of their own; window contacts share one by floor and side of the house, at most ten (CLC/TS 50131-7).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.plan.practice import Practice
from app.wiring.electric.conductors import cool_resistance, hot_resistance, make_of
from app.wiring.electric.sides import Surroundings
from app.wiring.pulls import Pull, by_can

DOORS = ("door_contact", "overhead_door_contact")
WITHOUT_ZONE = ("keypad", "siren")  # on the keypad bus and the siren output, not on a zone input
TYPES = {
    "entry/exit": "Starts the entry delay; the way in and out.",
    "perimeter": "Alarms at once whenever the system is set, in stay and away.",
    "interior": "Alarms at once in away; off in stay.",
    "interior follower": "Off in stay; in away it waits out an entry delay that a door has started.",
    "24-hour": "Alarms whether the system is set or not.",
    "fire": "Always on; located and wired by licensed others.",
    "not yet chosen": "Decided with the device.",
}


@dataclass(frozen=True)
class Zone:
    """One input of a can's panel and the pulls on it, the end-of-line resistor at the last one's device.

    ``loop_ohms`` (20 °C) and ``hot_loop_ohms`` (75 °C) are the wire's alone, out and back over all its pulls in series;
    None where a cable's gauge or a length is not known.
    """

    number: int
    can: str
    type: str
    words: str
    pulls: tuple[Pull, ...]
    eol_ohms: float
    loop_ohms: float | None
    hot_loop_ohms: float | None

    @property
    def resistor_at(self) -> str:
        """The label of the pull at whose device the end-of-line resistor goes."""
        return self.pulls[-1].label


def zones_of(pulls: Sequence[Pull], surroundings: Surroundings, practice: Practice) -> list[Zone]:
    """The zones of every can, numbered from 1 at each: doors, windows, motions, glass breaks, then the rest."""
    zones: list[Zone] = []
    for can, ending in by_can(pulls).items():
        here = [pull for pull in ending if _needs_zone(pull)]
        groups = _groups(here, surroundings, practice)
        zones += [
            _zone(number, can, group, words, surroundings, practice)
            for number, (words, group) in enumerate(groups, start=1)
        ]
    return zones


def zones_at(zones: Sequence[Zone]) -> dict[str, list[Zone]]:
    """The zones of each can."""
    at: dict[str, list[Zone]] = {}
    for zone in zones:
        at.setdefault(zone.can, []).append(zone)
    return at


def _needs_zone(pull: Pull) -> bool:
    return pull.device.kind not in WITHOUT_ZONE and pull.carries not in ("spare", "power only")


def _groups(
    pulls: Sequence[Pull], surroundings: Surroundings, practice: Practice
) -> list[tuple[str, tuple[Pull, ...]]]:
    """The pulls of each zone of one can, with the words that name it."""
    order = (*DOORS, "window_contact", "motion", "glass_break", "flood", "smoke", "other")
    ordered = sorted(pulls, key=lambda pull: order.index(pull.device.kind))
    alone: list[tuple[str, tuple[Pull, ...]]] = [(pull.name, (pull,)) for pull in ordered]
    how = practice.text("zone.grouping")
    if how == "never" or (how == "as_needed" and len(alone) <= practice.number("zone.inputs")):
        return alone
    windows = [pull for pull in ordered if pull.device.kind == "window_contact"]
    shared = list(_by_floor_and_side(windows, surroundings, int(practice.number("zone.most_contacts"))))
    first = sum(pull.device.kind in DOORS for pull in ordered)
    return [*alone[:first], *shared, *alone[first + len(windows) :]]


def _by_floor_and_side(
    windows: Sequence[Pull], surroundings: Surroundings, most: int
) -> Iterator[tuple[str, tuple[Pull, ...]]]:
    """Window contacts in groups of one floor and side, as even as they can be within the most that may share."""
    sides: dict[tuple[str, str], list[Pull]] = {}
    for pull in windows:
        sides.setdefault((pull.level.name, surroundings.side_of(pull)), []).append(pull)
    for (level, side), group in sides.items():
        parts = -(-len(group) // most)
        for part in range(parts):
            some = group[part * len(group) // parts : (part + 1) * len(group) // parts]
            number = f" {part + 1} of {parts}" if parts > 1 else ""
            yield f"{level}, {side} windows{number}", tuple(some)


def _zone(
    number: int, can: str, pulls: tuple[Pull, ...], words: str, surroundings: Surroundings, practice: Practice
) -> Zone:
    build = practice.text("power.conductor")
    made = [make_of(pull.cable) for pull in pulls]
    known = [(pull.cut_ft, make.gauge) for pull, make in zip(pulls, made, strict=True) if make and pull.cut_ft]
    cool = sum(loop_ohms(feet, cool_resistance(gauge, build)) for feet, gauge in known)
    hot = sum(loop_ohms(feet, hot_resistance(gauge, build)) for feet, gauge in known)
    whole = len(known) == len(pulls)
    return Zone(
        number,
        can,
        surroundings.zone_type(pulls[0]),
        words,
        pulls,
        practice.number("zone.eol_ohms"),
        cool if whole else None,
        hot if whole else None,
    )


def loop_ohms(one_way_feet: float, ohms_per_1000_feet: float) -> float:
    """Resistance of a pair's wire out and back: 2 · L · R/1000; a short at its far end reads this, a closed loop this
    and the end-of-line resistor (study cards of a national training manual).
    """
    return 2 * one_way_feet * ohms_per_1000_feet / 1000
