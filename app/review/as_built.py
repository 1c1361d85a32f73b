"""What was really built beside what was designed, device by device, with every difference told.

Pure: the record comes from the caller, the design from the house. The as-fitted record and the page read it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from app.plan.as_built import AsBuilt, BuiltEntry
from app.plan.devices import cable_of, height_of
from app.plan.measures import FEET_PER_METRE, length_text
from app.plan.model import Device
from app.review.comparison.changes import Move
from app.review.comparison.wording import move_words
from app.review.house import House, Storey

_SAME = 1 / 24  # ft: half an inch, nearer than a tape on site is read
_SAME_CABLE = 0.5  # ft: cuts are whole feet


@dataclass(frozen=True)
class Difference:
    """One value that was not built as designed: ``field`` of the record, and both values in words."""

    field: str
    words: str
    designed: str
    built: str


@dataclass(frozen=True)
class BuiltDevice:
    """One device as designed and as built; ``built`` is None where nothing was recorded.

    ``device`` and ``storey`` are None for an entry whose device is no longer on the plan. ``cut_ft`` is the length that
    the schedule says to cut, None without a way to a can; ``zone`` is the number of its zone as designed.
    """

    id: str
    name: str
    device: Device | None
    storey: Storey | None
    cable: str | None
    cut_ft: float | None
    zone: int | None
    built: BuiltEntry | None
    differences: tuple[Difference, ...] = ()

    @property
    def height(self) -> float | None:
        """The designed height above the floor, in feet."""
        if self.device is None or self.storey is None:
            return None
        return height_of(self.device, self.storey.level, self.storey.practice)


def built_devices(house: House, wiring: Mapping[str, Any], record: AsBuilt) -> list[BuiltDevice]:
    """Every device of the plan in the order of the file, then the entries whose devices are gone.

    ``wiring`` is the house's wiring answer.
    """
    entries = record.by_device
    cuts = {pull["device"]: pull["cut_ft"] for pull in wiring["pulls"]}
    labels = {pull["label"]: pull["device"] for pull in wiring["pulls"]}
    zones = {labels[label]: zone["number"] for zone in wiring["zones"] for label in zone["pulls"] if label in labels}
    found = []
    for storey in house:
        for device in storey.level.devices:
            one = BuiltDevice(
                device.id,
                storey.name(device.id),
                device,
                storey,
                cable_of(device, storey.practice),
                cuts.get(device.id),
                zones.get(device.id),
                entries.get(device.id),
            )
            found.append(one if one.built is None else _told(one, one.built, house.plan.units))
    known = {one.id for one in found}
    gone = [entry for entry in record.entries if entry.device not in known]
    return found + [BuiltDevice(entry.device, entry.device, None, None, None, None, None, entry) for entry in gone]


def as_built_answer(house: House, wiring: Mapping[str, Any], record: AsBuilt) -> list[dict[str, Any]]:
    """The same as JSON values: what the page shows beside the design."""
    return [
        {
            "device": one.id,
            "name": one.name,
            "level": one.storey.level.id if one.storey else None,
            "kind": one.device.kind if one.device else None,
            "designed": {
                "at": list(one.device.at) if one.device else None,
                "height_ft": one.height,
                "cable": one.cable,
                "cut_ft": one.cut_ft,
                "zone": one.zone,
            },
            "recorded": one.built is not None,
            "differences": [vars(difference) for difference in one.differences],
        }
        for one in built_devices(house, wiring, record)
    ]


def _told(one: BuiltDevice, built: BuiltEntry, units: str) -> BuiltDevice:
    return BuiltDevice(
        one.id,
        one.name,
        one.device,
        one.storey,
        one.cable,
        one.cut_ft,
        one.zone,
        built,
        tuple(_differences(one, built, units)),
    )


def _differences(one: BuiltDevice, built: BuiltEntry, units: str) -> Iterator[Difference]:
    assert one.device is not None
    assert one.height is not None
    if built.at is not None and math.dist(built.at, one.device.at) > _SAME:
        moved = move_words(Move(one.device.at, built.at), units)
        yield Difference("at", "place", "as drawn", f"{moved} of it")
    if built.height is not None and abs(built.height - one.height) > _SAME:
        yield Difference("height", "height", length_text(one.height, units), length_text(built.height, units))
    if built.cable_ft is not None:
        yield from _cable(one.cut_ft, built.cable_ft, units)
    if built.zone and one.zone is not None and built.zone.strip().lower().removeprefix("zone").strip() != str(one.zone):
        yield Difference("zone", "zone", str(one.zone), built.zone)


def _cable(cut: float | None, pulled: float, units: str) -> Iterator[Difference]:
    """A run of another length than it was cut for: a longer one was not cut from the length of the schedule."""
    if cut is None:
        yield Difference("cable_ft", "cable", "no way to a can", f"{_run(pulled, units)} pulled")
    elif abs(pulled - cut) > _SAME_CABLE:
        more = f"{_run(abs(pulled - cut), units)} {'more' if pulled > cut else 'less'}"
        yield Difference("cable_ft", "cable", f"cut for {_run(cut, units)}", f"{_run(pulled, units)} pulled, {more}")


def _run(feet: float, units: str) -> str:
    return f"{feet / FEET_PER_METRE:.1f} m" if units == "metric" else f"{feet:g} ft"
