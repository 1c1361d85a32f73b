"""How a house is protected as a whole: arming states, entry paths, ways in and sound, as data for tables and drawings.

It is asked for apart from a check, which stays quick. Nothing here claims to meet a standard or a fire rule.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from app.coverage.arming import OpeningWatch, RoomWatch, Watched, opening_watches, room_watches
from app.coverage.entry_paths import EntryPath, entry_paths
from app.coverage.sound import Heard, listen, pillows, reach_of_level, room_middles, sounders
from app.coverage.sound_round import WaysRound
from app.coverage.walking_floor import NARROWEST
from app.coverage.walks import Walk
from app.coverage.ways_in import Notice, WayIn, walks_in, ways_in
from app.plan.measures import area_text
from app.review.house import House, Storey

Answer = dict[str, Any]

SOUND_WORDS = (
    "An estimate: inverse square law; each source by its straight way in plan with the losses of the partitions, or "
    "round by the doors, whichever is louder; doors as the practice takes them; between levels one floor's loss each, "
    "or up the stairs. Rooms echo, so levels are mostly higher. "
    "Yardstick only: nothing here claims to meet a fire rule."
)
_QUIETEST = 40.0  # dBA: ways round are followed to here
_RINGS = (110.0, 105.0, 100.0, 95.0, 90.0, 85.0, 80.0, 75.0)  # dBA
_AWAKE = 50.0  # dBA: 15 dB over the 35 dBA of a quiet home (NFPA 72 18.4.4, Table A.18.4 from memory)


def protection(house: House) -> Answer:
    """Everything about a house's protection that a table or a drawing asks for."""
    openings = {level: opening_watches(watched(house, storey)) for level, storey in house.storeys.items()}
    return {
        "states": states_answer(house, openings),
        **ways_answer(house, openings),
        "sound": sound_answer(house),
    }


def watched(house: House, storey: Storey) -> Watched:
    """A storey as arming looks at it."""
    contacts = {opening: [contact.id for contact in serving] for opening, serving in house.contacts.items()}
    return Watched(storey.scene, contacts, storey.verdicts, storey.ground, storey.motions)


# Arming states


def states_answer(house: House, openings: dict[str, list[OpeningWatch]]) -> Answer:
    """What watches each opening and each room in stay and in away, what stay gives up, and the entry paths."""
    rooms = {level: room_watches(watched(house, storey), openings[level]) for level, storey in house.storeys.items()}
    return {
        "openings": [
            _opening_answer(house.storeys[level], watch) for level, watches in openings.items() for watch in watches
        ],
        "rooms": [_room_answer(house.storeys[level], watch) for level, watches in rooms.items() for watch in watches],
        "stay_loses": _stay_loses(house, openings, rooms),
        "entries": [_entry_answer(house, path) for path in entries(house)],
    }


def _opening_answer(storey: Storey, watch: OpeningWatch) -> Answer:
    wall = storey.level.wall_by_id[watch.opening.wall]
    return {
        "id": watch.opening.id,
        "level": storey.level.id,
        "room": watch.room,
        "kind": watch.opening.kind,
        "segment": _rounded([wall.along(watch.opening.offset), wall.along(watch.opening.end)]),
        "opens": watch.opens,
        "glass": watch.glass,
        "contacts": list(watch.contacts),
        "listeners": list(watch.listeners),
        "deaf": list(watch.deaf),
        "motions": list(watch.motions),
        "gaps": list(watch.gaps),
        "stay": watch.state("stay"),
        "away": watch.state("away"),
    }


def _room_answer(storey: Storey, watch: RoomWatch) -> Answer:
    return {
        "id": watch.room,
        "level": storey.level.id,
        "name": storey.name(watch.room),
        "openings": list(watch.openings),
        "area_sqft": round(watch.area, 2),
        "motion_fraction": round(watch.share, 4),
        "stay": list(watch.watched_by("stay")),
        "away": list(watch.watched_by("away")),
        "lost_in_stay_sqft": round(watch.lost_in_stay, 2),
    }


def _stay_loses(house: House, openings: dict[str, list[OpeningWatch]], rooms: dict[str, list[RoomWatch]]) -> Answer:
    """What a person at home gives up when motion is off."""
    motions = [proof.device for proofs in house.motions.values() for proof in proofs]
    floor = sum(watch.lost_in_stay for watches in rooms.values() for watch in watches)
    inside_only = [
        watch.opening.id
        for watches in openings.values()
        for watch in watches
        if watch.state("away") == "inside" and watch.state("stay") == "nothing"
    ]
    blind = [
        watch.room
        for watches in rooms.values()
        for watch in watches
        if watch.watched_by("away") and not watch.watched_by("stay")
    ]
    if motions:
        words = f"With motion off, {area_text(floor, house.plan.units)} of floor are no longer watched"
        if inside_only:
            count = "1 opening is" if len(inside_only) == 1 else f"{len(inside_only)} openings are"
            words += f", and {count} told by nothing"
        words += "."
    else:
        words = "No motion detector is planned: stay and away watch the same."
    return {
        "devices": motions,
        "floor_sqft": round(floor, 2),
        "openings": inside_only,
        "rooms": blind,
        "words": words,
    }


def entries(house: House) -> list[EntryPath]:
    """The entry paths of the exterior doors that have a contact and the swing or slide of a door for people."""
    doors = [
        opening.id
        for storey in house
        for opening in storey.exterior
        if opening.kind == "door" and opening.id in house.contacts
    ]
    return entry_paths(house.walks, doors, [goal.name for goal in house.keypads], house.motions, house.practice)


def _entry_answer(house: House, path: EntryPath) -> Answer:
    keypad, door = house.name(path.walk.goal), house.name(path.walk.opening)
    late = "" if path.in_time else f": too far for the entry delay of {path.delay:g} s"
    return {
        "door": path.walk.opening,
        "keypad": path.walk.goal,
        "feet": round(path.walk.feet, 3),
        "seconds": round(path.seconds, 1),
        "delay": path.delay,
        "in_time": path.in_time,
        "followers": list(path.followers),
        "legs": _legs(path.walk),
        "words": f"From {door} to {keypad} {house.length_text(path.walk.feet)}, {path.seconds:.0f} s{late}.",
    }


# Ways in


def ways_answer(house: House, openings: dict[str, list[OpeningWatch]]) -> Answer:
    """The walks from every opening that somebody can come in by, and those that go on unseen for too long."""
    watches = {watch.opening.id: watch for level in openings.values() for watch in level if watch.is_way}
    contacts = {opening: [contact.id for contact in serving] for opening, serving in house.contacts.items()}
    bedrooms, hearts = house.goals
    walks = walks_in(house.walks, list(watches), bedrooms, hearts)
    ways = ways_in(walks, watches, contacts, house.motions)
    reached = {walk.opening for walk in walks}
    return {
        "ways_in": [_way_answer(walk, ways[2 * number : 2 * number + 2]) for number, walk in enumerate(walks)],
        "unseen": unseen_answer(house, ways),
        "no_way": [
            {"opening": opening, "words": _no_way_words(house, watch)}
            for opening, watch in watches.items()
            if opening not in reached and (bedrooms or hearts)
        ],
    }


def _no_way_words(house: House, watch: OpeningWatch) -> str:
    name = house.name(watch.opening.id)
    if watch.opening.width < NARROWEST:
        wide = house.length_text(watch.opening.width)
        return f"Nobody climbs through {name}, {wide} wide; an arm may still reach the lock beside it."
    return f"From {name} no bedroom and no room of the heart of the home is reached on foot."


def _way_answer(walk: Walk, states: Sequence[WayIn]) -> Answer:
    return {
        "opening": walk.opening,
        "goal": walk.goal,
        "feet": round(walk.feet, 3),
        "legs": _legs(walk),
        "gaps": list(states[0].gaps),
        **{
            way.state: {
                "first": _notice(way.first),
                "second": _notice(way.second),
                "unseen_ft": round(way.unseen, 3),
                "notices": [_notice(notice) for notice in way.notices],
            }
            for way in states
        },
    }


def _notice(notice: Notice | None) -> Answer | None:
    return None if notice is None else {"device": notice.device, "how": notice.how, "feet": round(notice.feet, 3)}


def unseen_answer(house: House, ways: Sequence[WayIn]) -> list[Answer]:
    """For each opening and state the walk that goes on unseen longest, where that is longer than the walk test."""
    most = house.practice.number("walk.unseen")
    worst: dict[tuple[str, str], WayIn] = {}
    for way in ways:
        key = (way.walk.opening, way.state)
        if way.unseen > most + 1e-9 and (key not in worst or way.unseen > worst[key].unseen):
            worst[key] = way
    return [
        {
            "opening": opening,
            "state": state,
            "goal": way.walk.goal,
            "unseen_ft": round(way.unseen, 3),
            "words": _unseen_words(house, way),
            "source": "UL 1641-2015 15.3.1: a response within four steps of 24 in",
        }
        for (opening, state), way in worst.items()
    ]


def _unseen_words(house: House, way: WayIn) -> str:
    opening, goal = house.name(way.walk.opening), house.name(way.walk.goal)
    how = {"opened": "opens", "broken": "breaks the glass of", "open": "walks in by"}[way.gaps[0]]
    if way.first is None:
        end = f"walks {house.length_text(way.walk.feet)} to {goal} and nobody notices"
    else:
        end = f"walks {house.length_text(way.unseen)} towards {goal} before {house.name(way.first.device)} notices"
    return f"In {way.state}, somebody who {how} {opening} {end}."


# Sound


def sound_answer(house: House) -> Answer:
    """Levels at every bed and in every closed room, the rings of each sounder in a free field, and the assumptions."""
    asked, sources = house.practice.number("sound.bedside"), sounders(house.plan)
    ears = [*pillows(house.plan), *room_middles(house.plan, house.scenes)]
    straight = listen(house.scenes, house.practice, sources, ears)
    ways = WaysRound(house.scenes, house.practice, sources, ears)
    heard = ways.heard(straight, _QUIETEST)
    beds = {one.thing for one in pillows(house.plan)}
    return {
        "beds": [_heard_answer(one, asked) for one in heard if one.listener.thing in beds],
        "rooms": [_heard_answer(one, asked) for one in heard if one.listener.thing not in beds],
        "bands": [
            {"name": "wakes", "from_dba": asked},
            {"name": "heard awake", "from_dba": min(_AWAKE, asked)},
            {"name": "faint", "from_dba": None},
        ],
        "rings": [
            {
                "device": source.device,
                "level": source.level,
                "at": list(source.at),
                "rated_dba": source.rated,
                "rings": [
                    {"dba": dba, "radius_ft": round(reach_of_level(source.rated, dba), 3)}
                    for dba in _RINGS
                    if dba <= source.rated
                ],
            }
            for source in sources
        ],
        "words": SOUND_WORDS,
    }


def _heard_answer(heard: Heard, asked: float) -> Answer:
    level = heard.level if heard.rays else None
    band = "silent" if level is None else "wakes" if level >= asked else "heard awake" if level >= _AWAKE else "faint"
    return {
        "thing": heard.listener.thing,
        "level": heard.listener.level,
        "at": _rounded(heard.listener.at),
        "dba": None if level is None else round(level, 2),
        "band": band,
        "from": [
            {
                "device": ray.device,
                "feet": round(ray.feet, 3),
                "loss_db": round(ray.loss, 2),
                "through": list(ray.crossed),
                "dba": round(ray.level, 2),
            }
            for ray in heard.rays[:3]
        ],
    }


def _legs(walk: Walk) -> list[Answer]:
    return [
        {"level": leg.level, "before_ft": round(leg.before, 3), "points": _rounded(leg.corners)} for leg in walk.legs
    ]


def _rounded(points: Any) -> Any:
    return np.round(np.asarray(points, dtype=float), 4).tolist()
