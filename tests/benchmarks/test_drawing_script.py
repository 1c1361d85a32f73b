"""The two-storey sample drawn from nothing through the page, by pointer and keys: how many actions, how many seconds.

By hand: ``pytest tests/benchmarks/test_drawing_script.py -s -o addopts=``. An action is a press, a drag, a key, or a
field filled in. All of the sample is drawn: walls, openings, names of rooms, furniture, fixtures, devices, the riser;
the result is held against the sample thing by thing, and its proof against the sample's.
"""

from __future__ import annotations

import json
import math
import os
import time
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.browser.conftest import PlanPage, browser, open_plan, server

__all__ = ["browser", "open_plan", "server"]

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "cobble-court.json"
MOST_ACTIONS = 300
BY_EYE = 0.51  # ft, east and north: what is placed by eye falls on the nearest grid step
AT_FACE = 0.6  # ft: a piece dragged this near to the face of a wall takes to it
ON_WALL = 0.36  # ft: a wall that is pressed, with its openings, stands half a grid step aside at most; told to a tenth
KEYS = {"window": "n", "door": "d", "cased": "c"}
FIXTURE_KEYS = {
    "light_switch": "Shift+L",
    "chime": "Shift+C",
    "supply_register": "Shift+R",
    "bed": "Shift+B",
    "outlet": "Shift+O",
}
DEVICE_KEYS = {"glass_break": "g", "motion": "m", "keypad": "k", "can": "p", "siren": "s", "flood": "Shift+F"}
WINDOW, DOOR, CASED = (3.0, 3.0, 6.667), (3.0, 0.0, 6.667), (4.0, 0.0, 7.0)

pytestmark = pytest.mark.browser

Point = tuple[float, float]


class Hand:
    """Somebody at the page, whose actions are counted by what they are for and of which kind they are."""

    def __init__(self, house: PlanPage) -> None:
        self.house = house
        self.counts: Counter[tuple[str, str]] = Counter()
        self.subject = ""

    def _did(self, kind: str) -> None:
        self.counts[self.subject, kind] += 1

    def press(self, at: Point) -> None:
        self._did("press")
        self.house.press(*at)

    def drag(self, start: Point, end: Point) -> None:
        self._did("drag")
        self.house.drag(start, end)

    def key(self, key: str) -> None:
        self._did("key")
        self.house.key(key)

    def say(self, text: str, at: Point | None = None) -> None:
        """Type into the field at the pointer, which a first digit opens; Enter takes it."""
        self._did("typed")
        if at:
            self.house.move(*at, steps=1)
        self._open(text)
        self.house.page.keyboard.insert_text(text[1:] if text[0].isdigit() else text)
        self.house.key("Enter")
        self.house.page.wait_for_selector("#length-box", state="hidden")

    def _open(self, text: str) -> None:
        self.house.key(text[0] if text[0].isdigit() else "Enter")
        self.house.page.wait_for_selector("#length-box:not([hidden])")

    def name(self, text: str) -> None:
        """Answer the page, which asks for the name of the next room."""
        self._did("typed")
        self.house.page.locator("#length-box input").fill(text)
        self.house.key("Enter")

    def fill(self, label: str, value: str, where: str = ".options") -> None:
        self._did("typed")
        field = self.house.page.locator(where).get_by_label(label, exact=True)
        field.fill(value)
        field.press("Enter")
        self.house.page.locator("#drawing").focus()

    def click(self, name: str, where: str = "body") -> None:
        self._did("click")
        self.house.page.locator(where).get_by_role("button", name=name).first.click()


def _feet(feet: float) -> str:
    return f"{feet:.4f}'"


def _outlines(hand: Hand, level: int) -> None:
    hand.key("r")
    hand.fill("Thickness", _feet(0.5417))
    hand.press((0, 0))
    hand.press((38, 32))
    if level == 0:
        hand.press((-22, 2))
        hand.press((0, 24))


def _first_partitions(hand: Hand) -> None:
    """Eight walls: one drawn to its length, seven square across from a press beside a wall."""
    hand.key("w")
    hand.fill("Thickness", _feet(0.375))
    hand.press((15, 0))
    hand.press((15, 21))
    hand.key("j")
    for beside in ((23, 0.9), (37.1, 15), (14.1, 13), (8, 31.1), (22.1, 21), (7.1, 24), (11, 13.9)):
        hand.press(beside)


def _second_partitions(hand: Hand) -> None:
    """Fifteen walls: the rail about the stairs and the closets' corner are drawn, ten run across."""
    hand.key("j")
    hand.fill("Thickness", _feet(0.375))
    for beside in ((15, 0.9), (23, 0.9), (14.1, 12), (14.1, 20), (23.9, 12)):
        hand.press(beside)
    hand.press((15.9, 24))
    hand.say("2'6", (0.9, 14.5))
    hand.say("5'6", (5.5, 19.1))
    hand.say("6'", (9, 12.9))
    hand.key("w")
    hand.press((31, 12))
    hand.press((31, 18.5))
    hand.press((23, 18.5))
    hand.press((31, 14.5))
    hand.press((38, 14.5))
    hand.press((23, 20.3))
    hand.press((19.5, 20.3))
    hand.fill("Height", _feet(3))
    hand.press((19.5, 7))
    hand.press((23, 7))
    hand.fill("Height", "")


def _shape(opening: dict[str, Any]) -> tuple[float, float, float, int, bool, bool, str]:
    """What an opening is, with what holds where nothing is said."""
    operable, glazed = opening.get("operable"), opening.get("glazed")
    return (
        round(float(opening["width"]), 3),
        round(float(opening.get("sill") or 0), 3),
        round(float(opening.get("head") or 6.667), 3),
        opening.get("panes") or 1,
        True if operable is None else operable,
        opening["kind"] == "window" if glazed is None else glazed,
        opening.get("leaf") or "swing",
    )


def _size(kind: str, shape: tuple[Any, ...]) -> str:
    """A shape as it is typed in one line."""
    width, sill, head, panes, operable, glazed, leaf = shape
    words = [f"{_feet(width)} x {_feet(head - sill)}", f"{panes} panes"]
    if kind == "window":
        words = [f"{_feet(width)} x {_feet(head - sill)}", f"head {_feet(head)}", f"{panes} panes"]
        words.append("opens" if operable else "fixed")
    if kind == "door":
        words += ["glass" if glazed else "solid", {"swing": "swings"}.get(leaf, leaf)]
    return ", ".join(words if kind != "cased" else words[:1])


def _openings(hand: Hand, level: dict[str, Any], held: dict[str, tuple[Any, ...]]) -> None:
    """Every opening, those of one kind and shape one after the other: a shape is typed once, then repeated."""
    walls = {wall["id"]: wall for wall in level["walls"]}
    drawn = _page_level(hand.house)["walls"]
    taken = ""
    for opening in sorted(level["openings"], key=lambda one: (one["kind"], _shape(one))):
        kind = opening["kind"]
        if kind != taken:
            hand.key(KEYS[kind])
            taken = kind
        size = "" if held[kind] == _shape(opening) else _size(kind, _shape(opening))
        held[kind] = _shape(opening)
        _place(hand, opening, walls[opening["wall"]], drawn, size)


def _along(wall: dict[str, Any], u: float) -> Point:
    length = math.dist(wall["a"], wall["b"])
    x, y = (a + (b - a) * u / length for a, b in zip(wall["a"], wall["b"], strict=True))
    return x, y


def _place(hand: Hand, opening: dict[str, Any], wall: dict[str, Any], walls: list[dict[str, Any]], size: str) -> None:
    """By its distance from the nearer end of the wall that was drawn; a door that hangs on the other jamb is rehung."""
    at = _along(wall, opening["offset"] + opening["width"] / 2)
    drawn = _wall_at(walls, at)
    length = math.dist(drawn["a"], drawn["b"])
    u = math.dist(drawn["a"], at)
    offset = u - opening["width"] / 2
    place = _feet(offset if u <= length / 2 else length - offset - opening["width"])
    hand.say(f"{size} at {place}" if size else place, at)
    hinge = opening.get("hinge")
    if opening.get("leaf", "swing") == "swing" and hinge:
        jamb = _along(wall, opening["offset"] + (0 if hinge == "a" else opening["width"]))
        made = _last_opening(hand.house)
        hung = _along(drawn, made["offset"] + (0 if made["hinge"] == "a" else made["width"]))
        if math.dist(jamb, hung) > 0.1:
            hand.key("h")


def _page_level(house: PlanPage) -> dict[str, Any]:
    """The level in view as the page has it kept in this browser or on the server, without an action."""
    house.page.wait_for_selector('#saved[data-state="saved"]')
    plan = house.server.plan(house.id)
    shown = house.page.locator('#levels [aria-pressed="true"]').inner_text()
    level: dict[str, Any] = next(one for one in plan["levels"] if one["name"] == shown)
    return level


def _wall_at(walls: list[dict[str, Any]], at: Point) -> dict[str, Any]:
    """The wall that a place lies on."""

    def off(wall: dict[str, Any]) -> float:
        a, b = wall["a"], wall["b"]
        length = math.dist(a, b)
        u = max(0.0, min(length, sum((p - q) * (r - q) for p, q, r in zip(at, a, b, strict=True)) / length))
        return math.dist(_along(wall, u), at)

    return min(walls, key=off)


def _last_opening(house: PlanPage) -> dict[str, Any]:
    last: dict[str, Any] = _page_level(house)["openings"][-1]
    return last


def _rooms(hand: Hand, level: dict[str, Any]) -> None:
    """All rooms in turn: the page leads from one to the next and asks."""
    hand.key("l")
    hand.key("Enter")
    hand.house.page.wait_for_selector("#length-box:not([hidden])")
    faces = {tuple(room["at"]): room["name"] for room in level["rooms"]}
    for _ in level["rooms"]:
        hand.name(_name_for(hand.house, faces))
    hand.house.page.wait_for_selector("#length-box", state="hidden")


def _name_for(house: PlanPage, names: dict[tuple[float, ...], str]) -> str:
    """Who draws sees the outline that the page asks about; here: the sample's room whose point it holds."""
    ring = house.page.evaluate(
        """async () => {
            for (let i = 0; i < 3; i++) await new Promise(requestAnimationFrame);
            const path = document.querySelector(".layer.marks .sketch");
            return path.getAttribute("d").match(/-?[\\d.]+/g).map(Number);
        }"""
    )
    corners = [(ring[i], -ring[i + 1]) for i in range(0, len(ring), 2)]

    def within(p: tuple[float, ...]) -> bool:
        odd = False
        for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
            if (ay > p[1]) != (by > p[1]) and p[0] < (bx - ax) * (p[1] - ay) / (by - ay) + ax:
                odd = not odd
        return odd

    return next(name for at, name in names.items() if within(at))


def _box(fixture: dict[str, Any]) -> tuple[float, float, float, float]:
    xs, ys = zip(*fixture["polygon"], strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _furniture(hand: Hand, level: dict[str, Any]) -> None:
    """Each kind of piece is named once, then dragged from corner to corner as often as it stands on the level."""
    hand.key("i")
    hand.house.wait_until("document.querySelector('#drawing').dataset.tool === 'piece'")
    pieces = [one for one in level["fixtures"] if "polygon" in one and not one["id"].startswith("f-stair")]
    flight = [one for one in level["fixtures"] if one["id"].startswith("f-stair")]
    if flight:
        hand.say("stair up")
        boxes = [_box(one) for one in flight]
        hand.drag((boxes[0][2], boxes[0][1]), (boxes[-1][0], boxes[-1][3]))
    held = ""
    for piece in sorted(pieces, key=_piece_words):
        x0, y0, x1, y1 = _box(piece)
        if _piece_words(piece) != held:
            held = _piece_words(piece)
            hand.say(held)
        hand.drag((x0, y0), (x1, y1))


def _piece_words(piece: dict[str, Any]) -> str:
    """Name, and the size where it is no usual one."""
    label = piece.get("label") or {1.4: "Low table", 2.8: "Vanity", 9: "Range hood"}.get(
        piece["top"], "Kitchen counter"
    )
    usual_tops = {
        "Toilet": 2.5,
        "Vanity": 2.8,
        "Sofa": 2.75,
        "Low table": 1.4,
        "Washer": 3.2,
        "Dryer": 3.2,
        "Car": 5,
        "Shower": 6.667,
        "Dresser": 3,
        "Sideboard": 3,
        "Workbench": 3,
        "Window seat": 1.5,
        "Sink": 3,
        "Range": 3,
        "Range hood": 9,
        "Shelves": 7,
        "Lockers": 7,
        "Fireplace": 9,
        "Kitchen counter": 3,
        "Desk": 2.5,
        "Wardrobe": 6.667,
    }
    if usual_tops.get(label) == piece["top"]:
        return label
    return f"{label} 3' x 3' x {_feet(piece['top'])}"


def _placed(hand: Hand, things: list[dict[str, Any]], keys: dict[str, str]) -> None:
    """Each kind by its key, once, then a press for each thing of it."""
    for kind, key in keys.items():
        places = [one["at"] for one in things if one["kind"] == kind]
        if places:
            hand.key(key)
        for at in places:
            hand.press(tuple(at))


def _draw(house: PlanPage, sample: dict[str, Any]) -> Hand:
    hand = Hand(house)
    held: dict[str, tuple[Any, ...]] = {
        "window": (*WINDOW, 1, True, True, "swing"),
        "door": (*DOOR, 1, True, False, "swing"),
        "cased": (*CASED, 1, True, False, "swing"),
    }
    for number, level in enumerate(sample["levels"]):
        hand.subject = "level and view"
        if number:
            hand.key("v")
            hand.click("Add a level above", ".panel:not([hidden])")
            hand.fill("Name", level["name"], ".panel:not([hidden])")
            hand.fill("Ceiling height", _feet(level["ceiling"]), ".panel:not([hidden])")
            hand.fill("Floor above datum", _feet(level["elevation"]), ".panel:not([hidden])")
        else:
            for _ in range(3):
                hand.key("-")
            house.page.wait_for_timeout(150)  # a few frames
        hand.subject = "outline"
        _outlines(hand, number)
        if not number:
            hand.subject = "level and view"
            hand.key("f")
            house.page.wait_for_timeout(150)  # a few frames
        hand.subject = "partitions"
        (_second_partitions if number else _first_partitions)(hand)
        hand.subject = "openings"
        _openings(hand, level, held)
        hand.subject = "rooms"
        _rooms(hand, level)
        hand.subject = "furniture"
        _furniture(hand, level)
        hand.subject = "fixtures"
        _placed(hand, level["fixtures"], FIXTURE_KEYS)
        hand.subject = "devices"
        _placed(hand, level["devices"], DEVICE_KEYS)
        if number:
            hand.key("z")
            hand.press(tuple(sample["risers"][0]["at"]))
    hand.subject = "contacts"
    hand.click("Devices")
    hand.click("Put contacts")
    house.page.get_by_text("contacts put").wait_for()
    return hand


def _table(hand: Hand) -> str:
    kinds = ("press", "drag", "typed", "key", "click")
    subjects = list(dict.fromkeys(subject for subject, _ in hand.counts))
    lines = [f"{'':16}" + "".join(f"{kind:>8}" for kind in (*kinds, "all"))]
    for subject in subjects:
        row = [hand.counts[subject, kind] for kind in kinds]
        lines.append(f"{subject:16}" + "".join(f"{count:8}" for count in (*row, sum(row))))
    totals = [sum(hand.counts[subject, kind] for subject in subjects) for kind in kinds]
    return "\n".join([*lines, f"{'all':16}" + "".join(f"{count:8}" for count in (*totals, sum(totals)))])


def _begun(sample: dict[str, Any]) -> dict[str, Any]:
    """What a designer's template gives: the practice, the site, one bare level."""
    level = {key: sample["levels"][0][key] for key in ("name", "elevation", "ceiling")}
    return {key: sample[key] for key in ("format", "units", "site", "practice")} | {
        "name": "Drawn again",
        "levels": [{"id": "L1", **level}],
    }


def _assert_drawn(want: dict[str, Any], got: dict[str, Any]) -> None:
    """One level as in the sample."""
    assert (got["name"], got["ceiling"]) == (want["name"], want["ceiling"])
    assert _run_of_walls(got) == pytest.approx(_run_of_walls(want), abs=0.2)
    assert sorted(room["name"] for room in got["rooms"]) == sorted(room["name"] for room in want["rooms"])
    shapes = [sorted((one["kind"], *map(str, _shape(one))) for one in level["openings"]) for level in (want, got)]
    assert shapes[0] == shapes[1]
    pairs = [_places_of_openings(level) for level in (want, got)]
    for (kind, x, y), (kind_drawn, x_drawn, y_drawn) in zip(*pairs, strict=True):
        assert kind == kind_drawn
        assert math.dist((x, y), (x_drawn, y_drawn)) < ON_WALL
    _assert_near([one["at"] for one in want["rooms"]], [one["at"] for one in got["rooms"]], 12.0)
    for kind in FIXTURE_KEYS:
        places = [[one["at"] for one in level["fixtures"] if one["kind"] == kind] for level in (want, got)]
        _assert_near(*places, BY_EYE)
    for kind in DEVICE_KEYS:
        places = [[one["at"] for one in level["devices"] if one["kind"] == kind] for level in (want, got)]
        _assert_near(*places, BY_EYE)
    boxes = [[_box(one) for one in level["fixtures"] if one.get("polygon")] for level in (want, got)]
    assert len(boxes[0]) == len(boxes[1])
    for box in boxes[0]:
        assert min(max(abs(a - b) for a, b in zip(box, other, strict=True)) for other in boxes[1]) <= AT_FACE, box


def _run_of_walls(level: dict[str, Any]) -> float:
    return sum(math.dist(wall["a"], wall["b"]) for wall in level["walls"])


def _places_of_openings(level: dict[str, Any]) -> list[tuple[str, float, float]]:
    walls = {wall["id"]: wall for wall in level["walls"]}
    middles = ((one, _along(walls[one["wall"]], one["offset"] + one["width"] / 2)) for one in level["openings"])
    return sorted((one["kind"], round(x, 1), round(y, 1)) for one, (x, y) in middles)


def _assert_near(want: list[list[float]], got: list[list[float]], tolerance: float) -> None:
    assert len(want) == len(got)
    for place in want:
        assert min(max(abs(a - b) for a, b in zip(place, other, strict=True)) for other in got) <= tolerance, place


def _proof(plan: dict[str, Any]) -> Counter[tuple[str, str, float]]:
    """How every pane stands, by the room it looks into; ids are the page's own."""
    answer = check_plan(plan_from(plan))
    rooms = {room["id"]: room["name"] for room in answer["rooms"]}
    return Counter(
        (pane["status"], rooms.get(pane["room"], ""), round(pane["area_sqft"], 1)) for pane in answer["panes"]
    )


def _guarded(plan: dict[str, Any]) -> int:
    """How many openings have a contact."""
    return sum(len(one.get("serves") or []) for level in plan["levels"] for one in level["devices"])


def test_the_two_storey_sample_is_drawn_with_no_action_wasted(open_plan: Any) -> None:
    sample = json.loads(SAMPLE.read_text("utf-8"))
    house = open_plan(_begun(sample))
    begun = time.monotonic()
    hand = _draw(house, sample)
    seconds = time.monotonic() - begun
    drawn = house.saved()
    if folder := os.environ.get("STUDBAY_PICTURES"):
        house.page.screenshot(path=f"{folder}/drawn.png")
        Path(folder, "drawn.json").write_text(json.dumps(drawn), "utf-8")
    families = ("walls", "openings", "rooms", "fixtures", "devices")
    things = sum(len(level[family]) for level in drawn["levels"] for family in families)
    total = hand.counts.total()
    print(f"\ndrawn from nothing: {total} actions for {things} things in {seconds:.1f} s\n{_table(hand)}")
    for want, got in zip(sample["levels"], drawn["levels"], strict=True):
        _assert_drawn(want, got)
    assert _proof(drawn) == _proof(sample)
    assert _guarded(drawn) >= _guarded(sample)  # the sample accepts a garage door without
    assert len(drawn["risers"]) == len(sample["risers"])
    assert total <= MOST_ACTIONS
