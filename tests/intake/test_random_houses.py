"""Houses by the seed, cut into rooms again and again, drawn with two faces a wall and read back: the same house."""

from __future__ import annotations

import itertools
import random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from app.intake.choices import Choices
from app.intake.drawing import DxfDrawing
from tests.intake.comparing import SIXTEENTH, drawn_walls, footprint, is_near, openings_by_kind, room_areas, thicknesses
from tests.intake.writing.from_plan import drawn

OUTER = (0.4167, 0.5417, 0.6667, 0.9843)
INNER = (0.3333, 0.375, 0.4583)
CLEAR = 0.75  # ft from an opening to a wall across


def house(seed: int) -> dict[str, Any]:
    """A rectangular house of two to seven rooms, a door into each and windows where there is room for them."""
    chance = random.Random(seed)
    wide, deep = chance.randint(24, 60), chance.randint(20, 44)
    outer, inner = chance.choice(OUTER), chance.choice(INNER)
    corners = [(0, 0), (wide, 0), (wide, deep), (0, deep)]
    walls = [_wall(f"x{k}", corners[k], corners[(k + 1) % 4], outer) for k in range(4)]
    openings: list[dict[str, Any]] = []
    rooms = [(0, 0, wide, deep)]
    for k in range(chance.randint(1, 6)):
        room = max(rooms, key=lambda box: (box[2] - box[0]) * (box[3] - box[1]))
        rooms.remove(room)
        rooms += _cut(room, f"n{k}", inner, chance, walls, openings)
    for wall in walls[:4]:
        _windows(wall, walls, chance, openings)
    named = [
        {"id": f"r{k}", "name": f"Room {chr(65 + k)}", "use": "other", "at": [(a + c) / 2, (b + d) / 2]}
        for k, (a, b, c, d) in enumerate(rooms)
    ]
    return {"id": "L1", "name": "Main floor", "walls": walls, "openings": openings, "rooms": named}


def _wall(name: str, a: tuple[float, float], b: tuple[float, float], thickness: float) -> dict[str, Any]:
    return {"id": name, "a": list(a), "b": list(b), "thickness": thickness}


def _cut(
    room: tuple[int, int, int, int],
    name: str,
    thickness: float,
    chance: random.Random,
    walls: list[dict[str, Any]],
    openings: list[dict[str, Any]],
) -> list[tuple[int, int, int, int]]:
    west, south, east, north = room
    across = east - west >= north - south
    low, high = (west, east) if across else (south, north)
    if high - low < 12:
        return [room]
    at = chance.randint(low + 5, high - 5)
    ends = ((at, south), (at, north)) if across else ((west, at), (east, at))
    walls.append(_wall(name, *ends, thickness))
    length = (north - south) if across else (east - west)
    kind = chance.choice(("door", "door", "cased"))
    width = chance.choice((2.333, 2.5, 2.667, 3.0))
    opening = {"id": f"{name}d", "wall": name, "kind": kind, "offset": CLEAR + chance.random() * 0.5, "width": width}
    if length > 2 * CLEAR + width + 0.6:
        openings.append(opening | ({"hinge": chance.choice("ab")} if kind == "door" else {}))
    if across:
        return [(west, south, at, north), (at, south, east, north)]
    return [(west, south, east, at), (west, at, east, north)]


def _windows(
    wall: dict[str, Any], walls: list[dict[str, Any]], chance: random.Random, openings: list[dict[str, Any]]
) -> None:
    """Windows between the places where partitions meet an outer wall."""
    (ax, ay), (bx, by) = wall["a"], wall["b"]
    length = abs(bx - ax) + abs(by - ay)
    meets = [0.0, length]
    for other in walls[4:]:
        for x, y in (other["a"], other["b"]):
            along = (x - ax) * (bx - ax) / length + (y - ay) * (by - ay) / length
            if abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) < 1e-6 and 0 < along < length:
                meets.append(along)
    meets.sort()
    for number, (low, high) in enumerate(itertools.pairwise(meets)):
        width = chance.choice((2.0, 3.0, 4.0, 6.0))
        if high - low > width + 2 * CLEAR + 1:
            start = low + CLEAR + 0.5 + chance.random() * (high - low - width - 2 * CLEAR - 1)
            one = {"id": f"{wall['id']}w{number}", "wall": wall["id"], "kind": "window", "width": width}
            openings.append(one | {"offset": round(start, 3), "panes": chance.choice((1, 1, 2))})


@settings(max_examples=40, deadline=None, derandomize=True)
@given(
    seed=st.integers(0, 10_000),
    unit=st.sampled_from(("in", "ft", "mm", "m")),
    turn=st.sampled_from((0.0, 0.0, 30.0, 117.3)),
)
def test_a_house_comes_back(seed: int, unit: str, turn: float) -> None:
    value = house(seed)
    plan, report = DxfDrawing(drawn(value, unit, place=(turn, 40.0, -7.0))).converted(Choices())
    level = plan.levels[0]
    walls = drawn_walls(value["walls"])
    wanted = room_areas(level.model_copy(update={"walls": walls}))
    got = room_areas(level)
    assert len(got) == len(wanted)
    assert all(is_near(one, two) for one, two in zip(got, wanted, strict=True))
    # Walls in one line on both sides of another come back as one, so feet are counted, not walls.
    assert abs(sum(wall.length for wall in level.walls) - sum(wall.length for wall in walls)) < 0.05
    assert openings_by_kind(level) == openings_by_kind(value)
    for thickness in thicknesses(level.walls):
        assert min(abs(thickness - drawn_one) for drawn_one in thicknesses(walls)) <= SIXTEENTH + 0.005
    if turn == 0.0:
        assert footprint(level.walls).symmetric_difference(footprint(walls)).area < 0.01 * footprint(walls).area
    assert {room.name for room in level.rooms} == {room["name"] for room in value["rooms"]}
    assert report.unread.lines() == []
