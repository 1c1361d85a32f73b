"""Houses by the seed, as plan dicts: random ones for the oracles, even ones of four sizes for the benchmarks.

Also what may be done to any plan dict without changing its meaning: turn it, move it, mirror it, swap a wall's ends.
Nothing here imports the program, so that an oracle fed by it owes the program nothing.
"""

from __future__ import annotations

import copy
import math
import random
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

Value = dict[str, Any]
Spot = tuple[float, float]

CEILING = 9.0
SIZES = {"S": (5, 3, 40, 15), "M": (9, 9, 200, 80), "L": (30, 30, 2_000, 800), "XL": (97, 96, 20_000, 8_000)}


# --- moves that leave a plan's meaning alone -------------------------------------------------------------------------


def moved(plan: Value, *, turn: float = 0.0, shift: Spot = (0.0, 0.0), mirror: bool = False) -> Value:
    """The plan mirrored in the y axis (first, if asked), turned by degrees about the origin, then shifted by feet."""
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def place(at: Any) -> list[float]:
        x, y = (-at[0] if mirror else at[0]), at[1]
        return [cosine * x - sine * y + shift[0], sine * x + cosine * y + shift[1]]

    other = copy.deepcopy(plan)
    for level in other["levels"]:
        for wall in level.get("walls", []):
            wall["a"], wall["b"] = place(wall["a"]), place(wall["b"])
        for fixture in level.get("fixtures", []):
            if "polygon" in fixture:
                fixture["polygon"] = [place(corner) for corner in fixture["polygon"]]
            if "at" in fixture:
                fixture["at"] = place(fixture["at"])
        for thing in [*level.get("rooms", []), *level.get("devices", [])]:
            thing["at"] = place(thing["at"])
        for device in level.get("devices", []):
            facing = device.get("facing", 0.0) or 0.0
            device["facing"] = ((180 - facing if mirror else facing) + turn) % 360
    for riser in other.get("risers", []):
        riser["at"] = place(riser["at"])
    return other


def walls_reversed(plan: Value) -> Value:
    """The same house with the ends of every wall swapped, so that offsets and lites count from the other end."""
    other = copy.deepcopy(plan)
    for level in other["levels"]:
        lengths = {wall["id"]: math.dist(wall["a"], wall["b"]) for wall in level["walls"]}
        for wall in level["walls"]:
            wall["a"], wall["b"] = wall["b"], wall["a"]
        for opening in level.get("openings", []):
            opening["offset"] = max(0.0, lengths[opening["wall"]] - opening["offset"] - opening["width"])
    return other


# --- random houses ---------------------------------------------------------------------------------------------------


def random_house(seed: int) -> Value:
    """A one-storey house of four to nine rooms: a rectangle outside, T-junctions on centrelines inside, turned by any
    angle and shifted; windows of one to three lites, glazed doors, cased openings with and without a header, half
    walls, furniture, wardrobes, hanging soffits, concave counters; glass breaks and motions.
    """
    rng = random.Random(seed)
    house = _House(rng)
    turn = rng.choice([0.0, 90.0, rng.uniform(0, 360), rng.uniform(0, 360), rng.uniform(0, 360)])
    return moved(house.plan(f"House {seed}"), turn=turn, shift=(rng.uniform(-900, 900), rng.uniform(-900, 900)))


class _House:
    """One random house in its own frame, built step by step from one stream of random numbers."""

    def __init__(self, rng: random.Random) -> None:
        self.rng = rng
        self.xs = [0.0, *_sums(rng.uniform(8, 16) for _ in range(rng.randint(2, 3)))]
        self.ys = [0.0, *_sums(rng.uniform(8, 14) for _ in range(rng.randint(2, 3)))]
        self.walls: list[Value] = []
        self.openings: list[Value] = []
        self.fixtures: list[Value] = []
        self.devices: list[Value] = []

    def plan(self, name: str) -> Value:
        right, top = self.xs[-1], self.ys[-1]
        for side in (((0, 0), (right, 0)), ((right, 0), (right, top)), ((right, top), (0, top)), ((0, top), (0, 0))):
            self._exterior(*side)
        self._interior()
        for _ in range(self.rng.randint(3, 7)):
            self._furnish()
        for _ in range(5):
            self._listen()
        for _ in range(3):
            self._watch()
        rooms = [
            {"id": f"room{i}{j}", "name": f"Room {i}{j}", "at": [(x0 + x1) / 2 + 0.61, (y0 + y1) / 2 + 0.37]}
            for i, (x0, x1) in enumerate(pairwise(self.xs))
            for j, (y0, y1) in enumerate(pairwise(self.ys))
        ]
        level = {
            "id": "ground",
            "name": "Ground",
            "ceiling": CEILING,
            "walls": self.walls,
            "openings": self.openings,
            "fixtures": self.fixtures,
            "rooms": rooms,
            "devices": self.devices,
        }
        practice = {"doors.taken_as": self.rng.choice(["closed", "closed", "open"])}
        return {"format": "studbay-plan/1", "name": name, "levels": [level], "practice": practice}

    def _exterior(self, a: Spot, b: Spot) -> None:
        """One side of the house, as one wall or cut at its middle, glazed span by span."""
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        for start, end in [(a, b)] if self.rng.random() < 0.6 else [(a, middle), (middle, b)]:
            wall = self._wall(start, end, 0.5)
            spans = max(1, round(math.dist(start, end) / 12))
            width = math.dist(start, end) / spans
            for span in range(spans):
                # A span may straddle the end of an interior wall, which then cuts its glass.
                self._opening(wall, span * width, (span + 1) * width, self._glazing())

    def _interior(self) -> None:
        """Lines of walls through the house: those one way run through, those the other way end on them."""
        for x in self.xs[1:-1]:
            self._partition((x, 0.0), (x, self.ys[-1]), len(self.ys) - 1)
        for y in self.ys[1:-1]:
            for left, right in pairwise(self.xs):
                if self.rng.random() < 0.85:
                    self._partition((left, y), (right, y), 1)
        if self.rng.random() < 0.4:
            self._wall((0.0, self.ys[1] * 0.55), (self.xs[1] * 0.5, 0.0), 0.375)

    def _partition(self, a: Spot, b: Spot, spans: int) -> None:
        height = self.rng.uniform(3, 6) if self.rng.random() < 0.2 else None
        wall = self._wall(a, b, self.rng.choice([0.375, 0.375, 0.5, 0.3]), height)
        if height is not None:
            return
        width = math.dist(a, b) / spans
        for span in range(spans):
            self._opening(wall, span * width, (span + 1) * width, self._passage())

    def _wall(self, a: Spot, b: Spot, thickness: float, height: float | None = None) -> Value:
        if self.rng.random() < 0.5:
            a, b = b, a
        wall: Value = {"id": f"wall{len(self.walls)}", "a": list(a), "b": list(b), "thickness": thickness}
        if height is not None:
            wall["height"] = height
        self.walls.append(wall)
        return wall

    def _opening(self, wall: Value, low: float, high: float, fields: Value | None) -> None:
        room = high - low - 0.8
        if fields is None or room < 1:
            return
        width = min(room, fields.pop("width"))
        offset = low + 0.4 + self.rng.uniform(0, room - width)
        self.openings.append(
            {"id": f"open{len(self.openings)}", "wall": wall["id"], "offset": offset, "width": width} | fields
        )

    def _glazing(self) -> Value | None:
        rng, kind = self.rng, self.rng.random()
        if kind < 0.7:
            sill, head = rng.uniform(0, 4), rng.uniform(5, 8.5)
            return {
                "kind": "window",
                "width": rng.uniform(2, 7),
                "sill": sill,
                "head": head,
                "panes": rng.randint(1, 3),
            }
        if kind < 0.85:
            return {"kind": "door", "leaf": "slide", "glazed": True, "panes": 2, "width": 6.0}
        return {"kind": "door", "width": 3.0} if kind < 0.95 else None

    def _passage(self) -> Value | None:
        rng, kind = self.rng, self.rng.random()
        if kind < 0.4:
            return {"kind": "cased", "width": rng.uniform(2.5, 7), "head": rng.choice([6.667, 8.0, CEILING])}
        if kind < 0.65:
            return {"kind": "door", "width": rng.choice([2.5, 3.0])}
        if kind < 0.75:
            return {"kind": "door", "width": 2.667, "glazed": True, "sill": 0.5, "head": 6.5}
        if kind < 0.85:
            return {"kind": "window", "width": 3.0, "sill": 3.5, "head": 6.0, "operable": False}
        return None

    def _furnish(self) -> None:
        """A piece that hides glass, of some height, turned by some angle, anywhere in the house."""
        rng = self.rng
        wide, deep = rng.uniform(1, 5), rng.uniform(0.7, 3)
        shape = rng.choice(
            [
                [(0, 0), (wide, 0), (wide, deep), (0, deep)],
                [(0, 0), (wide, 0), (wide, deep), (0, deep)],
                [(0, 0), (wide, 0), (wide, 0.6), (0.6, 0.6), (0.6, wide), (0, wide)],
                [(math.cos(math.pi * k / 3) * deep, math.sin(math.pi * k / 3) * deep) for k in range(6)],
                [(0, 0), (wide, 0), (wide * 0.4, deep * 0.4), (0, deep)],
            ]
        )
        base, top = rng.choice([(0, rng.uniform(2, 3.5)), (0, rng.uniform(5, 8)), (0, None), (7.0, None), (6.0, 8.2)])
        around, turn = self._spot(1.0), rng.choice([0.0, rng.uniform(0, 2 * math.pi)])
        cosine, sine = math.cos(turn), math.sin(turn)
        polygon = [[around[0] + cosine * x - sine * y, around[1] + sine * x + cosine * y] for x, y in shape]
        piece: Value = {"id": f"piece{len(self.fixtures)}", "kind": "obstruction", "polygon": polygon, "base": base}
        self.fixtures.append(piece if top is None else piece | {"top": top})

    def _listen(self) -> None:
        rng = self.rng
        device: Value = {"id": f"gb{len(self.devices)}", "kind": "glass_break", "at": list(self._spot(0.45))}
        if rng.random() < 0.4:
            device["height"] = rng.uniform(5, 8.7)
        if rng.random() < 0.3:
            device["range"] = rng.choice([10.0, 20.0, 25.0])
        self.devices.append(device)

    def _watch(self) -> None:
        rng = self.rng
        device: Value = {"id": f"md{len(self.devices)}", "kind": "motion"}
        if rng.random() < 0.6:
            column, row = rng.randrange(len(self.xs) - 1), rng.randrange(len(self.ys) - 1)
            east, north = rng.random() < 0.5, rng.random() < 0.5
            x, y = self.xs[column + (not east)], self.ys[row + (not north)]
            device["at"] = [x + (0.3 if east else -0.3), y + (0.3 if north else -0.3)]
            device["facing"] = {(1, 1): 45, (0, 1): 135, (0, 0): 225, (1, 0): 315}[(int(east), int(north))]
        else:
            device |= {"at": list(self._spot(0.6)), "facing": rng.uniform(0, 360)}
            device |= {"view_angle": rng.choice([60.0, 120.0, 200.0, 360.0]), "range": rng.choice([8.0, 15.0, 25.0])}
            device["height"] = rng.choice([7.0, 8.5, 3.0, 2.0])
        self.devices.append(device)

    def _spot(self, margin: float) -> Spot:
        return (
            self.rng.uniform(margin, self.xs[-1] - margin),
            self.rng.uniform(margin, self.ys[-1] - margin),
        )


def _sums(steps: Iterator[float]) -> Iterator[float]:
    total = 0.0
    for step in steps:
        total += step
        yield total


# --- houses of four sizes, equally dense -----------------------------------------------------------------------------


def sized_house(size: str, turn: float = 17.0) -> Value:
    """A house of exactly the walls and windows of ``SIZES[size]``, every neighbourhood alike, turned by degrees.

    A grid of rooms of 14 × 12 ft, what is left of the walls as half walls in rooms; a window or a passage in three
    walls of five, furniture in a quarter of the rooms, a motion in each eighth. Glass breaks hang as on a chessboard,
    so that one listens at every wall, and what stays uncovered is what furniture hides.
    """
    across, up, walls, windows = SIZES[size]
    rng = random.Random(f"studbay {size}")
    level: Value = {key: [] for key in ("walls", "openings", "fixtures", "rooms", "devices")}
    level |= {"id": "ground", "name": "Ground", "ceiling": CEILING}
    lines = [(i, j, i + 1, j) for j in range(up + 1) for i in range(across)]
    lines += [(i, j, i, j + 1) for i in range(across + 1) for j in range(up)]
    rooms = [(i, j) for j in range(up) for i in range(across)]
    add = level["walls"].append
    for number, (i, j, k, m) in enumerate(lines):
        add({"id": f"w{number}", "a": [14.0 * i, 12.0 * j], "b": [14.0 * k, 12.0 * m]})
    for number in range(walls - len(lines)):
        i, j = rooms[number * len(rooms) // (walls - len(lines))]
        spot = [14.0 * i + 5.5, 12.0 * j + 7.0]
        add({"id": f"h{number}", "a": spot, "b": [spot[0] + 3.5, spot[1]], "height": 3.5})
    _glaze(level, len(lines), windows, rng)
    for number, (i, j) in enumerate(rooms):
        _fill(level, number, 14.0 * i, 12.0 * j, rng)
        if (i + j) % 2 == 0:
            at = [14.0 * i + rng.uniform(6, 8), 12.0 * j + rng.uniform(5, 7)]
            level["devices"].append({"id": f"gb{number}", "kind": "glass_break", "at": at})
    return moved({"format": "studbay-plan/1", "name": f"Size {size}", "levels": [level]}, turn=turn)


def _glaze(level: Value, lines: int, windows: int, rng: random.Random) -> None:
    """Exactly so many windows, spread evenly over the grid's walls, and a passage in a fifth of the walls."""
    glazed = {int((number + 0.5) * lines / windows) for number in range(windows)}
    for number in range(lines):
        offset, opening = rng.uniform(0.6, 3.0), {"id": f"o{number}", "wall": f"w{number}"}
        if number in glazed:
            lites = {"panes": rng.choice([1, 2, 2]), "sill": rng.choice([0.5, 2.5]), "head": 6.667}
            level["openings"].append(opening | {"kind": "window", "offset": offset, "width": 5.0} | lites)
        elif number % 3 == 0:
            kind = {"kind": rng.choice(["cased", "door"]), "offset": offset, "width": rng.choice([3.0, 5.0])}
            level["openings"].append(opening | kind)


def _fill(level: Value, number: int, x: float, y: float, rng: random.Random) -> None:
    level["rooms"].append({"id": f"r{number}", "name": f"Room {number}", "at": [x + 3.1, y + 2.9]})
    if number % 4 == 1:
        low, left = y + rng.uniform(0.2, 2), x + rng.uniform(2, 9)
        polygon = [[left, low], [left + 3, low], [left + 3, low + 1.8], [left, low + 1.8]]
        top = rng.choice([2.5, 6.5])
        level["fixtures"].append({"id": f"f{number}", "kind": "obstruction", "polygon": polygon, "top": top})
    if number % 8 == 2:
        level["devices"].append({"id": f"md{number}", "kind": "motion", "at": [x + 0.2, y + 0.2], "facing": 45.0})


def each(plan: Value, family: str, accept: Callable[[Value], bool] = lambda _: True) -> list[Value]:
    """The things of one family ("walls", "devices", …) of every level that are accepted."""
    return [thing for level in plan["levels"] for thing in level.get(family, []) if accept(thing)]
