"""The kinds of place that a crew meets, and the device that each gets; heights and cables come from the practice."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.drawing.lengths import drawn_length
from app.plan.devices import DEVICE_KIND, DEVICE_KINDS, DeviceKind
from app.plan.practice import Practice

PLACES: Mapping[str, str] = {
    "door_contact": "Every outer door, and the door to a garage",
    "overhead_door_contact": "Overhead door",
    "window_contact": "Window that opens and can be reached",
    "glass_break": "Glass: windows, glazed doors, side lights",
    "motion": "Where people gather or must pass",
    "keypad": "Beside each critical entry; near the main bedroom",
    "siren": "Beside the doorbell chime",
    "flood": "Water heater, washer, sump",
    "can": "Closet or utility room, where all runs end",
    "other": "Not sure yet",
    "smoke": "Smoke and carbon monoxide",
}


@dataclass(frozen=True)
class Place:
    """A kind of place with what it gets; ``own`` marks a value that the plan sets otherwise than the usual practice."""

    where: str
    kind: DeviceKind
    cable: str
    height: str
    how: str
    own: bool


def places_of(practice: Practice, units: str) -> Iterator[Place]:
    """Every kind of place under a practice, in the order of the guide."""
    assert set(PLACES) == {kind.kind for kind in DEVICE_KINDS}, "a kind of device has no place in the guide"
    for name, where in PLACES.items():
        kind = DEVICE_KIND[name]
        keys = [key for key in (kind.cable_key, kind.height_key) if key]
        yield Place(
            where,
            kind,
            practice.text(kind.cable_key) if kind.cable_key else "by others" if kind.located_by_others else "—",
            drawn_length(practice.number(kind.height_key), units) if kind.height_key else "ceiling",
            _how(name, practice, units),
            any(not practice.is_default(key) for key in keys),
        )


def _how(kind: str, practice: Practice, units: str) -> str:
    """What is minded at a kind of place, with the practice's values."""

    def length(key: str) -> str:
        return drawn_length(practice.number(key), units)

    match kind:
        case "door_contact":
            return "In the head or the hinge side of the frame; a zone of its own, never in a loop."
        case "overhead_door_contact":
            return "Clear of track, springs and cables."
        case "window_contact":
            return (
                "Only with the window manufacturer's word; a hole in the track "
                f"{length('contact.track_clearance')} or more from top and base."
            )
        case "glass_break":
            share = practice.number("glass.required_fraction")
            part = "every part of each pane" if share >= 1 else f"{share:.0%} of each pane"
            return (
                f"One detector sees {part} in a straight line within {length('glass.range')}; "
                f"{length('glass.register_clearance')} or more from a supply register."
            )
        case "motion":
            return (
                f"In an inside corner, looking in, not at glass; sees {length('motion.range')} × "
                f"{practice.number('motion.view_angle'):g}°; {length('motion.register_clearance')} or more from a "
                "register."
            )
        case "keypad":
            reach = length("keypad.reach")
            if practice.text("keypad.reach_required") == "required":
                return f"Above the light switch; highest operable part at {reach} or lower, as reach is required."
            return f"Stacked above the light switch; ask whether anybody needs it at {reach} or lower."
        case "siren":
            area = practice.number("siren.large_home")
            said = f"{area * 0.09290304:.0f} m²" if units == "metric" else f"{area:g} sq ft"
            return f"One on every floor of a home over {said}; never where somebody's head is beside it."
        case "flood":
            return "Where water stands first; probes down."
        case "can":
            return "Dry and heated, never in an outside wall; a licensed electrician brings the mains."
        case "smoke":
            return "Number and place by local code and licensed others; never by this guide."
        case _:
            return "Run it, label it, write down what it may become."
