"""An order for a printed set: whose house, on which paper, at what scale; and what is worked out for it once.

Sheets of a set share the wiring's answer and the watch on openings, which each would work out again otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from app.coverage.arming import OpeningWatch, RoomWatch, Watched, opening_watches, room_watches
from app.drawing.floor_plan import LevelDrawing
from app.drawing.lengths import drawn_length
from app.drawing.sheets.paper.frame import Job, Sheet
from app.drawing.sheets.paper.papers import Paper
from app.drawing.sheets.paper.scales import Scale
from app.drawing.sheets.plan_sheets import common_scale, plan_sheets
from app.drawing.sheets.underlay.laid import Laid
from app.plan.as_built import NOTHING_BUILT, AsBuilt
from app.plan.model import Device
from app.review.as_built import BuiltDevice, built_devices
from app.review.house import House, Storey
from app.review.protection import watched
from app.wiring.answer import wiring_answer

Answer = Mapping[str, Any]


@dataclass(frozen=True)
class Order:
    """``check`` is the house's ``check_plan``; ``scale`` None takes the largest that fits; ``job`` is what every title
    block says, ``as_built`` what was recorded of the house as built, ``laid`` the pictures to print beneath plans.
    """

    house: House
    check: Answer
    paper: Paper
    scale: Scale | None
    job: Job
    as_built: AsBuilt = NOTHING_BUILT
    laid: Mapping[str, Laid] = field(default_factory=dict)

    @cached_property
    def wiring(self) -> Answer:
        """The wiring's answer."""
        return wiring_answer(self.house.wiring)

    @cached_property
    def built(self) -> Mapping[str, BuiltDevice]:
        """Each device as designed and as built, by its id; also those recorded that are no longer on the plan."""
        return {one.id: one for one in built_devices(self.house, self.wiring, self.as_built)}

    @cached_property
    def _watched(self) -> dict[str, Watched]:
        return {level: watched(self.house, storey) for level, storey in self.house.storeys.items()}

    @cached_property
    def openings(self) -> dict[str, list[OpeningWatch]]:
        """How each exterior opening of each level is watched."""
        return {level: opening_watches(here) for level, here in self._watched.items()}

    @cached_property
    def rooms(self) -> dict[str, list[RoomWatch]]:
        """How each closed room of each level is watched."""
        return {level: room_watches(here, self.openings[level]) for level, here in self._watched.items()}

    @property
    def several(self) -> bool:
        """Whether the house has more than one level, which tables then name."""
        return len(self.house.storeys) > 1

    def devices(self, *kinds: str) -> list[tuple[Storey, Device]]:
        """Every device of some kinds, or of all where none is named, level by level."""
        return [
            (storey, device)
            for storey in self.house
            for device in storey.level.devices
            if not kinds or device.kind in kinds
        ]

    @cached_property
    def by_pull(self) -> dict[str, tuple[Storey, Device]]:
        """The device of each pull, by the pull's label: its own and any spares beside it."""
        found = {device.id: (storey, device) for storey, device in self.devices()}
        return {pull["label"]: found[pull["device"]] for pull in self.wiring["pulls"]}

    def of_level(self, family: str, storey: Storey) -> list[Answer]:
        """The check's ``panes``, ``motions`` or ``rooms`` of one level."""
        return [answer for answer in self.check[family] if answer["level"] == storey.level.id]

    @cached_property
    def panes_of(self) -> dict[str, list[Answer]]:
        """The check's panes of each opening that has any."""
        panes: dict[str, list[Answer]] = {}
        for pane in self.check["panes"]:
            panes.setdefault(pane["opening"], []).append(pane)
        return panes

    def titled(self, title: str, storey: Storey) -> str:
        """A title with the level's name where there are several."""
        return f"{title}, {storey.level.name}" if self.several else title

    def length(self, feet: float) -> str:
        """A length as the plan's drawings write it."""
        return drawn_length(feet, self.house.plan.units)

    def run(self, feet: float) -> str:
        """A length of cable as it is cut and sold: in feet, or to a tenth of a metre in a metric plan."""
        return f"{feet * 0.3048:.1f} m" if self.house.plan.units == "metric" else f"{feet:g} ft"

    def place(self, storey: Storey, device: Device) -> str:
        """The room that a device is in, with its level where there are several; the level where it is in none."""
        room = storey.room_of_device[device.id]
        if room is None:
            return storey.level.name
        return self.titled(room.name or room.id, storey)

    def plans(self, drawings: list[LevelDrawing], first: int, title: str) -> Iterator[Sheet]:
        """The plan sheets of all levels at one scale; ``first`` is the number of the first of them."""
        in_common = self.scale or common_scale(drawings, self.paper)
        for drawing in drawings:
            laid = self.laid.get(drawing.scene.level.id)
            for sheet in plan_sheets(drawing, self.paper, in_common, first, self.several, title, laid):
                yield sheet
                first += 1


def rooms_of_devices(storey: Storey) -> dict[str, str]:
    """The id of the room that each device of a level is in."""
    return {device: room.id for device, room in storey.room_of_device.items() if room is not None}
