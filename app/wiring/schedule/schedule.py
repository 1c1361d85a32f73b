"""The cable schedule of a plan: its pulls, the boxes they come from, and what is bought of each cable.

How it is written as text or a spreadsheet is for the modules beside it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.geometry.scene import LevelScene
from app.plan.model import Plan
from app.wiring.boxes.packing import Packing, pack_boxes
from app.wiring.pulls import Pull, compile_pulls


@dataclass(frozen=True)
class Schedule:
    """The pulls of a plan, and for each cable its pulls that are routed with the boxes they come from."""

    plan: Plan
    pulls: tuple[Pull, ...]
    routed: Mapping[str, tuple[Pull, ...]]
    packings: Mapping[str, Packing]

    @property
    def counts(self) -> dict[str, int]:
        """How many pulls there are of each cable, whether they reach a can or not."""
        return dict(Counter(pull.cable for pull in self.pulls))

    @property
    def unreached(self) -> tuple[Pull, ...]:
        """The pulls that reach no can."""
        return tuple(pull for pull in self.pulls if pull.way is None)

    @property
    def too_long(self) -> tuple[Pull, ...]:
        """The pulls that no box holds whole."""
        return tuple(
            self.routed[cable][index] for cable, packing in self.packings.items() for index in packing.too_long
        )


def compile_schedule(plan: Plan, scenes: Mapping[str, LevelScene] | None = None) -> Schedule:
    """The cable schedule of a plan; ``scenes``, level scenes by id, saves compiling them again."""
    return schedule_of(plan, compile_pulls(plan, scenes))


def schedule_of(plan: Plan, pulls: tuple[Pull, ...]) -> Schedule:
    """The schedule of pulls that are measured already."""
    routed: dict[str, list[Pull]] = {pull.cable: [] for pull in pulls}
    for pull in pulls:
        if pull.way is not None:
            routed[pull.cable].append(pull)
    sizes = plan.practice_in_force.numbers("cable.box_sizes")
    packings = {cable: pack_boxes([pull.cut_ft or 0 for pull in of], sizes) for cable, of in routed.items()}
    return Schedule(plan, pulls, {cable: tuple(of) for cable, of in routed.items()}, packings)


def schedule_value(schedule: Schedule) -> dict[str, Any]:
    """A schedule as a JSON value: contract §4's three parts, and what the page shows besides."""
    return {
        "plan": schedule.plan.name,
        "pulls": [pull_value(pull) for pull in schedule.pulls],
        "boxes": box_values(schedule),
        "totals": {cable: _total(schedule, cable, count) for cable, count in schedule.counts.items()},
        "packing": {
            cable: {
                "proven": packing.proven,
                "bound_ft": packing.bound_ft,
                "bound_boxes": packing.bound_boxes,
                "too_long": [schedule.routed[cable][index].label for index in packing.too_long],
            }
            for cable, packing in schedule.packings.items()
        },
    }


def pull_value(pull: Pull) -> dict[str, Any]:
    """One pull as a JSON value."""
    return {
        "label": pull.label,
        "device": pull.device.id,
        "level": pull.level.id,
        "room": pull.room,
        "cable": pull.cable,
        "route": None if pull.way is None else [list(corner) for corner in pull.way.corners],
        "measured_ft": pull.measured_ft,
        "cut_ft": pull.cut_ft,
        "kind": pull.device.kind,
        "name": pull.name,
        "room_name": pull.room_name,
        "level_name": pull.level.name,
        "can": pull.can,
        "carries": pull.carries,
    }


def box_values(schedule: Schedule) -> list[dict[str, Any]]:
    """Every box to buy as a JSON value, numbered within its cable; its pulls in pulling order."""
    return [
        {
            "cable": cable,
            "size_ft": box.size_ft,
            "pulls": [schedule.routed[cable][index].label for index in box.pulls],
            "used_ft": box.used_ft,
            "left_ft": box.left_ft,
            "box": f"{cable} #{number}",
        }
        for cable, packing in schedule.packings.items()
        for number, box in enumerate(packing.boxes, start=1)
    ]


def _total(schedule: Schedule, cable: str, count: int) -> dict[str, Any]:
    routed = schedule.routed[cable]
    return {
        "pulls": count,
        "measured_ft": round(sum(pull.measured_ft or 0.0 for pull in routed), 6),
        "cut_ft": sum(pull.cut_ft or 0 for pull in routed),
        "bought_ft": schedule.packings[cable].bought_ft,
    }
