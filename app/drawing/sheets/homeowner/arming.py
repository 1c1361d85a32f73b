"""Stay and away in a paragraph each that a homeowner understands, worked out from the plan.

Stay: the family is at home, motion detectors are off. Away: nobody is at home, all of it is on.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.coverage.listening import listed
from app.plan.model import Device
from app.review.house import House

_MOST_NAMED = 6
_MOSTLY = 0.5  # share of a room's floor from which a motion detector is said to watch the room


@dataclass(frozen=True)
class Perimeter:
    """The outer openings that open, with and without a contact, and the outer panes, how many of them are not wholly
    covered, and the openings of those.
    """

    guarded: tuple[str, ...]
    bare: tuple[str, ...]
    panes: int
    missed: int
    unheard: tuple[str, ...]


def stay_words(house: House, panes: Sequence[Mapping[str, Any]]) -> str:
    """What guards the house in stay, and what does not."""
    edge = _perimeter(house, panes)
    words = ["Stay is for when you are at home, asleep or awake: the motion detectors are off, so you may walk about."]
    if edge.guarded:
        count = len(edge.guarded)
        counted = _count(count, "door or window", "doors and windows")
        words.append(f"{counted} with a contact {_be(count)} guarded: opening one sounds the alarm.")
    else:
        words.append("No outer door or window has a contact on this plan, so opening one tells nobody.")
    if edge.bare:
        words.append(f"Without a contact: {_named(edge.bare)}.")
    heard = edge.panes - edge.missed
    if edge.panes and heard == edge.panes:
        words.append(f"All {heard} outer panes of glass are within hearing of a glass-break detector.")
    elif heard:
        words.append(
            f"Of {edge.panes} outer panes of glass {heard} {_be(heard)} within hearing of a glass-break detector; "
            f"not wholly heard: {_named(edge.unheard)}."
        )
    elif edge.panes:
        words.append(f"None of the {edge.panes} outer panes of glass is wholly within hearing of a detector.")
    return " ".join(words)


def away_words(house: House, rooms: Sequence[Mapping[str, Any]]) -> str:
    """What away adds to stay, and where one arms and disarms."""
    words = ["Away is for when nobody is at home: all that stay guards, and the motion detectors as well."]
    watched = [room for room in rooms if room["motion_fraction"] >= _MOSTLY]
    partly = [room for room in rooms if 0 < room["motion_fraction"] < _MOSTLY]
    if watched:
        said = [f"{_room(room)} ({room['motion_fraction']:.0%} of its floor)" for room in watched]
        words.append(f"Anyone walking through {_named(said)} is seen.")
    if partly:
        words.append(f"Seen in part only: {_named([_room(room) for room in partly])}.")
    if not watched and not partly:
        words.append("No motion detector watches a room on this plan, so away adds nothing to stay.")
    words.append(_keypads(house))
    sirens = _devices(house, "siren")
    sound = "sounds" if len(sirens) == 1 else "sound"
    words.append(
        f"{_count(len(sirens), 'siren', 'sirens')} {sound} the alarm inside the house."
        if sirens
        else "There is no siren on this plan: nothing sounds inside the house."
    )
    return " ".join(words)


def _perimeter(house: House, panes: Sequence[Mapping[str, Any]]) -> Perimeter:
    guarded: list[str] = []
    bare: list[str] = []
    for storey in house:
        for opening in storey.exterior:
            if opening.opens:
                (guarded if house.contacts.get(opening.id) else bare).append(storey.name(opening.id))
    outer = [pane for pane in panes if pane["exterior"]]
    missed = [pane for pane in outer if pane["status"] != "covered"]
    unheard = tuple(dict.fromkeys(house.name(pane["opening"]) for pane in missed))
    return Perimeter(tuple(guarded), tuple(bare), len(outer), len(missed), unheard)


def _keypads(house: House) -> str:
    rooms = []
    for storey in house:
        for device in storey.devices("keypad"):
            room = storey.room_of_device[device.id]
            rooms.append(room.name or room.id if room else storey.level.name)
    if not rooms:
        return "There is no keypad on this plan: how the system is armed is still to be settled."
    keypads = "keypad" if len(rooms) == 1 else "keypads"
    return f"You arm and disarm at the {keypads} in {_named(list(dict.fromkeys(rooms)))}."


def _devices(house: House, kind: str) -> list[Device]:
    return [device for storey in house for device in storey.devices(kind)]


def _room(room: Mapping[str, Any]) -> str:
    return str(room["name"] or room["id"])


def _named(names: Sequence[str]) -> str:
    """A list in words, cut short where it is long."""
    if len(names) > _MOST_NAMED + 1:
        return listed([*names[:_MOST_NAMED], f"{len(names) - _MOST_NAMED} more"])
    return listed(list(names))


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _be(number: int) -> str:
    return "is" if number == 1 else "are"
