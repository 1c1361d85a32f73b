"""Rules on glass-break detectors: away from noise and moving air, judged by the design range, each with glass to hear.

Whether each pane is covered is judged in ``glass``.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.geometry.nearest import nearest_spots
from app.plan.practice import COMMON_PRACTICE
from app.plan.room_uses import KITCHEN_OR_BATH, use_of
from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House


@rule(
    "glass_break.near_register",
    "should",
    words="A glass-break detector keeps at least 3 ft from a supply register.",
    mend="Move the detector away from the register.",
    source="dealer FAQ: moving air and machines are noise; the distance: common practice, no source",
)
def near_register(house: House) -> Iterator[Said]:
    """Detectors nearer to a supply register of their level than the practice allows."""
    least = house.practice.number("glass.register_clearance")
    for storey in house:
        registers = storey.spots("supply_register")
        detectors = storey.devices("glass_break")
        nearest = nearest_spots([device.at for device in detectors], registers)
        for device, (register, away) in zip(detectors, nearest, strict=True):
            if away < least - 1e-9:
                yield Said(
                    (device.id, register),
                    f"{storey.name(device.id)} is {house.length_text(away)} from {storey.name(register)}, least "
                    f"{house.length_text(least)}; move it away.",
                )


@rule(
    "glass_break.kitchen_or_bath",
    "should",
    words="A glass-break detector is not put in a kitchen or a bath without a note that says why.",
    mend="Cover the glass from the next room, or say in the detector's note why it must be there.",
    source="common practice, no source: crockery and running water are noise",
)
def kitchen_or_bath(house: House) -> Iterator[Said]:
    """Detectors without a note in a kitchen or a bath."""
    for storey in house:
        for device in storey.devices("glass_break"):
            room = storey.room_of_device[device.id]
            if room is not None and not remark(device) and use_of(room) in KITCHEN_OR_BATH:
                yield Said(
                    (device.id, room.id),
                    f"{storey.name(device.id)} hangs in {storey.name(room.id)}, where crockery and water are noise; "
                    "move it or say why in its note.",
                )


@rule(
    "glass_break.beyond_design_range",
    "should",
    words="A glass-break detector is designed for no more than the practice's range, whatever its rating.",
    mend="Take the detector's own range out, or lower it.",
    source="trade article “How to prewire home security” (updated June 2023): within 15 ft",
)
def beyond_design_range(house: House) -> Iterator[Said]:
    """Detectors whose own range is longer than the practice's."""
    design = house.practice.number("glass.range")
    for storey in house:
        for device in storey.devices("glass_break"):
            if device.range is not None and device.range > design + 1e-9:
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} is judged at {house.length_text(device.range)}, beyond the design "
                    f"range of {house.length_text(design)}; lower its range.",
                )


@rule(
    "glass_break.hears_nothing",
    "should",
    words="Each glass-break detector has some glass to hear.",
    mend="Move the detector to a room with glass, or take it out.",
    source=COMMON_PRACTICE,
)
def hears_nothing(house: House) -> Iterator[Said]:
    """Detectors in free air that reach no pane at all."""
    for storey in house:
        for proof in storey.glass:
            # One that lies in a pane's plane or in a body is told by its own rule.
            silent = not any(view.fraction > 0 or view.edge_on for view in proof.views.values())
            if proof.inside is None and silent:
                yield Said(
                    (proof.device,),
                    f"{storey.name(proof.device)} reaches no glass within {house.length_text(proof.reach)}; move it or "
                    "take it out.",
                )


@rule(
    "glass_break.small_pane",
    "note",
    words="Panes under 1 sq ft are heard only where the detector's listing says so.",
    mend="Check the detector's listing for the least size of glass.",
    source="alarm-dealer FAQ: glass of at least 1 sq ft and at most ¼ in thick",
)
def small_pane(house: House) -> Iterator[Said]:
    """Exterior lites smaller than the practice's least pane, an opening at a time."""
    least = house.practice.number("glass.least_pane")
    for storey in house:
        for opening in storey.exterior:
            area = opening.width / opening.panes * (opening.head - opening.sill)
            if opening.has_glass and area < least - 1e-9:
                yield Said(
                    (opening.id,),
                    f"{storey.name(opening.id)} has glass of {area:.2f} sq ft a lite, under {least:g} sq ft; check "
                    "the detector's listing.",
                )
