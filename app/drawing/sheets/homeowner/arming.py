"""Stay and away in words that a homeowner understands, worked out from the plan: in two paragraphs, then room by room.

Stay: the family is at home, motion detectors are off. Away: nobody is at home, all of it is on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.coverage.arming import RoomWatch
from app.coverage.listening import listed
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.measures import area_text
from app.review.house import House, Storey
from app.review.protection import entries

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


def arming_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """What the plan guards in stay and in away, room by room, and the ways in to a keypad."""
    house, check = order.house, order.check
    yield from setter.heading("What this plan guards")
    yield from setter.paragraph(_proof_words(check["summary"]))
    yield from setter.paragraph(stay_words(house, check["panes"]), tag="STAY")
    yield from setter.paragraph(away_words(house, check["rooms"]), tag="AWAY")
    yield from _given_up(order, setter)
    yield from _ways_in(house, setter)
    yield from _room_by_room(order, setter)


def _room_by_room(order: Order, setter: Setter) -> Iterator[Block]:
    """A table of each level's rooms that something watches or should, and the names of the others."""
    for level, rooms in order.rooms.items():
        storey = order.house.storeys[level]
        told = [room for room in rooms if room.openings or room.motions]
        if told:
            yield from setter.heading(order.titled("Room by room", storey))
            rows = [_room_row(order, storey, room) for room in told]
            yield from setter.table(("Room", "In stay", "In away, besides"), (26, 44, 30), rows)
        inner = [storey.name(room.room) for room in rooms if room not in told]
        if told and inner:
            yield from setter.paragraph(
                f"Without an opening to the outside or a detector: {listed(inner)}.", quiet=True
            )


def _proof_words(summary: Mapping[str, Any]) -> str:
    if not summary["panes"]:
        return "This plan has no glass to prove."
    if summary["covered"] == summary["panes"]:
        return f"Every pane of glass, {summary['panes']} in all, is covered by one glass-break detector."
    parts = [f"{summary['covered']} of {summary['panes']} panes of glass are covered by one glass-break detector each"]
    if summary["partial"]:
        parts.append(f"{summary['partial']} only in part")
    if summary["uncovered"]:
        parts.append(f"{summary['uncovered']} not at all")
    return ", ".join(parts) + "."


def stay_words(house: House, panes: Sequence[Mapping[str, Any]]) -> str:
    """What guards the house in stay, and what does not."""
    edge = perimeter_of(house, panes)
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
    count = sum(len(storey.devices("siren")) for storey in house)
    sound = "sounds" if count == 1 else "sound"
    words.append(
        f"{_count(count, 'siren', 'sirens')} {sound} the alarm inside the house."
        if count
        else "There is no siren on this plan: nothing sounds inside the house."
    )
    return " ".join(words)


def perimeter_of(house: House, panes: Sequence[Mapping[str, Any]]) -> Perimeter:
    """The outer openings and panes of a house as stay guards them."""
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


def _given_up(order: Order, setter: Setter) -> Iterator[Block]:
    """What somebody at home gives up when motion is off."""
    floor = sum(room.lost_in_stay for rooms in order.rooms.values() for room in rooms)
    if floor <= 0:
        return
    words = f"In stay {area_text(floor, order.house.plan.units)} of floor that away watches are not watched."
    inside = [
        order.house.name(watch.opening.id)
        for watches in order.openings.values()
        for watch in watches
        if watch.state("away") == "inside" and watch.state("stay") == "nothing"
    ]
    if inside:
        words += f" Told by motion only, and so not told in stay: {_named(inside)}."
    yield from setter.paragraph(words, tag="GIVEN UP")


def _ways_in(house: House, setter: Setter) -> Iterator[Block]:
    """How long one walks from each door with a contact to its keypad, against the entry delay."""
    paths = entries(house)
    if not paths:
        return
    walks = [
        f"by {house.name(path.walk.opening)} to {house.name(path.walk.goal)} {path.seconds:.0f} s"
        + ("" if path.in_time else ", which is too long")
        for path in paths
    ]
    yield from setter.paragraph(
        f"At a slow walk {listed(walks)}; the entry delay is {paths[0].delay:g} s.", tag="COMING IN"
    )


def _room_row(order: Order, storey: Storey, room: RoomWatch) -> Row:
    stay = []
    if room.contacts:
        stay.append(_count(len(room.contacts), "contact", "contacts"))
    stay += [f"{storey.name(device)} hears glass" for device in room.listeners]
    gaps = [watch.opening.id for watch in order.openings[storey.level.id] if watch.room == room.room and watch.gaps]
    if gaps:
        stay.append(f"gap at {_named([storey.name(gap) for gap in gaps])}")
    away = "—"
    if room.motions:
        away = f"{listed([storey.name(motion) for motion in room.motions])}, {room.share:.0%} of the floor"
    return Row(
        (
            Cell(storey.name(room.room), bold=True),
            Cell(", ".join(stay) or "—"),
            Cell(away),
        )
    )


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
