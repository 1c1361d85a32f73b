"""Rules on keypads: one at every critical entry, stacked above the light switch, within reach, with its own cable."""

from __future__ import annotations

import math
from collections.abc import Iterator

from app.geometry.nearest import nearest_spots
from app.plan.devices import cable_of, height_of
from app.plan.model import Room
from app.plan.practice import COMMON_PRACTICE
from app.plan.room_uses import ENTRY, is_main_bedroom, use_of
from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House, Storey

_PREWIRE = "trade article “How to prewire home security” (updated June 2023)"


@rule(
    "keypad.none",
    "should",
    words="The house has a keypad, also where the sensors are wireless.",
    mend="Put a keypad above the light switch nearest the door that the family uses.",
    source=f"{_PREWIRE}; survey page: at least one at the entry",
)
def none(house: House) -> Iterator[Said]:
    """Houses with an exterior door and no keypad at all."""
    doors = [opening.id for storey in house for opening in storey.exterior if opening.kind == "door" and opening.opens]
    if doors and not any(storey.devices("keypad") for storey in house):
        yield Said(
            (), "no keypad is planned; put one at the door that the family uses, above the light switch, at 5 ft."
        )


def is_critical(storey: Storey, room: Room) -> bool:
    """Whether a keypad belongs in a room: an entry or mudroom with a door outdoors or to the garage, the main bedroom.

    An entry on whose sides no door leads out (a hall that is only named so) is none.
    """
    if is_main_bedroom(room):
        return True
    if use_of(room) not in ENTRY:
        return False
    face = storey.scene.face_of_room[room.id]
    return any(
        opening.kind == "door" and face in storey.scene.sides[opening.id] and leads_out(storey, opening.id)
        for opening in storey.level.openings
    )


def leads_out(storey: Storey, opening_id: str) -> bool:
    """Whether an opening leads outdoors or to the garage, where the family comes in."""
    if storey.scene.is_exterior(storey.opening_by_id[opening_id]):
        return True
    beside = [storey.scene.room_of_face.get(face) for face in storey.scene.sides[opening_id]]
    return any(room is not None and use_of(storey.room_by_id[room]) == "garage" for room in beside)


@rule(
    "keypad.critical_entry",
    "should",
    words="A keypad stands at every critical entry: mudroom, entry and main bedroom.",
    mend="Put a keypad in the room, above the light switch nearest its door.",
    source=f"{_PREWIRE}; survey page: at the entry and near the bedrooms",
)
def critical_entry(house: House) -> Iterator[Said]:
    """Critical rooms without a keypad, once the house has one somewhere."""
    if not any(storey.devices("keypad") for storey in house):
        return
    for storey in house:
        served = {room.id for one in storey.devices("keypad") if (room := storey.room_of_device[one.id]) is not None}
        for room in storey.level.rooms:
            if room.id not in served and is_critical(storey, room):
                yield Said(
                    (room.id,),
                    f"{storey.name(room.id)} is a critical entry and has no keypad; put one above its light switch.",
                )


@rule(
    "keypad.not_above_switch",
    "should",
    words="A keypad is stacked above a light switch.",
    mend="Drag the keypad to the light switch, or say in its note why it stands elsewhere.",
    source=f"{_PREWIRE}: 5 ft, stacked above a light switch",
)
def not_above_switch(house: House) -> Iterator[Said]:
    """Keypads without a note that stand above no light switch, on levels where switches are drawn."""
    within = house.practice.number("keypad.switch_within")
    for storey in house:
        keypads = storey.devices("keypad")
        nearest = nearest_spots([device.at for device in keypads], storey.spots("light_switch"))
        for device, (switch, away) in zip(keypads, nearest, strict=True):
            # Where no switch is drawn nothing can be said.
            if within + 1e-9 < away < math.inf and not remark(device):
                yield Said(
                    (device.id, switch),
                    f"{storey.name(device.id)} is {house.length_text(away)} from the nearest light switch "
                    f"({storey.name(switch)}), most {house.length_text(within)}; stack it above one.",
                )


@rule(
    "keypad.height",
    "note",
    words="A keypad's height is the usual one, above its light switch.",
    mend="Change its height, or say in its note why it hangs higher or lower.",
    source=f"{_PREWIRE}: 5 ft",
)
def height(house: House) -> Iterator[Said]:
    """Keypads without a note that hang above the usual height, or below the height of a chair's reach."""
    usual, reach = house.practice.number("keypad.height"), house.practice.number("keypad.reach")
    for storey in house:
        for device in storey.devices("keypad"):
            here = height_of(device, storey.level, house.practice)
            if not remark(device) and (here > usual + 1 / 24 or here < min(usual, reach) - 1 / 24):
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} hangs at {house.length_text(here)}, usual is "
                    f"{house.length_text(usual)}; change it or say why in its note.",
                )


@rule(
    "keypad.reach",
    "note",
    words="Where reach from a chair is required the highest operable part of a keypad is at 48 in or lower.",
    mend="Lower the keypad to 4 ft beside the switch, where somebody of the house needs it.",
    source="ADA 308: 15 to 48 in; CBC 1136A.2; a caution, as a private house is seldom bound by it",
)
def reach(house: House) -> Iterator[Said]:
    """Keypads above the reach, all in one finding: a ``should`` where the practice says that reach is required."""
    highest = house.practice.number("keypad.reach")
    required = house.practice.text("keypad.reach_required") == "required"
    above = [
        device.id
        for storey in house
        for device in storey.devices("keypad")
        if height_of(device, storey.level, house.practice) > highest + 1e-9
    ]
    if above:
        count = "1 keypad is" if len(above) == 1 else f"{len(above)} keypads are"
        ask = "lower it" if required else "ask whether somebody of the house needs it lower"
        yield Said(
            tuple(above),
            f"{count} above {house.length_text(highest)}, out of reach from a chair; {ask}.",
            "should" if required else "note",
        )


@rule(
    "keypad.without_cable",
    "should",
    words="A keypad has a cable of its own also where the sensors are wireless: it needs power.",
    mend="Take out the keypad's empty cable, so that it gets the practice's cable.",
    source=COMMON_PRACTICE,
)
def without_cable(house: House) -> Iterator[Said]:
    """Keypads that are told to have no cable."""
    for storey in house:
        for device in storey.devices("keypad"):
            if cable_of(device, house.practice) is None:
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} has no cable, but needs power also with wireless sensors; give it "
                    f"{house.practice.text('cable.powered')}.",
                )
