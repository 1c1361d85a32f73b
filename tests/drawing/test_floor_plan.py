"""The plan itself: walls with clean joints, openings, dimensions, fixtures, and the proof marked on it."""

from __future__ import annotations

import math
from typing import Any
from xml.etree import ElementTree

import pytest
import shapely

from app.drawing.floor_plan import LevelDrawing, Sizes
from app.drawing.house.facades import facades_of
from app.drawing.house.openings import swept_floor
from app.drawing.house.outline import building, outer_edges
from app.drawing.house.walls import jointed, wall_plan
from app.drawing.maker import SVG as MAKER
from app.drawing.maker import as_text
from app.drawing.palette import COVERED, MISSED, PAPER
from app.drawing.view import View
from app.geometry.scene import compile_level
from app.plan.model import Plan, Wall
from app.review.check import check_plan
from app.review.house import House
from tests.drawing.a_house import house
from tests.drawing.svg_reading import by_class, lie_over, subpaths, words

SCALE = 304.8 / 48


def drawing_of(plan: Plan) -> LevelDrawing:
    answer, (storey, *_) = check_plan(plan), House(plan)
    level = storey.level.id
    return LevelDrawing(
        storey.scene,
        [pane for pane in answer["panes"] if pane["level"] == level],
        [motion for motion in answer["motions"] if motion["level"] == level],
        [room for room in answer["rooms"] if room["level"] == level],
        storey.names,
        {device: room.id for device, room in storey.room_of_device.items() if room},
        plan.units,
    )


def drawn(plan: Plan, scale: float = SCALE) -> ElementTree.Element:
    drawing = drawing_of(plan)
    west, south, east, north = drawing.bounds
    view = View(scale, 30 - west * scale, 30 + north * scale)
    limits = (0.0, 0.0, 60 + (east - west) * scale, 60 + (north - south) * scale)
    svg = MAKER.svg()
    svg["xmlns"] = "http://www.w3.org/2000/svg"
    svg.add(drawing.draw(view, limits, Sizes()))
    return ElementTree.fromstring(as_text(svg))


def wall(name: str, *ends: float, thickness: float = 0.5) -> Wall:
    return Wall(id=name, a=(ends[0], ends[1]), b=(ends[2], ends[3]), thickness=thickness)


@pytest.mark.parametrize("turn", [0.0, 31.0, 200.0])
def test_corner_of_two_walls_is_filled_to_its_outer_edge(turn: float) -> None:
    def at(x: float, y: float) -> tuple[float, float]:
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        return (x * cos - y * sin, x * sin + y * cos)

    body = jointed([wall("a", *at(0, 0), *at(10, 0)), wall("b", *at(0, 0), *at(0, 10))])
    # two bodies of 10 by ½ ft, each flat at the corner, lack and share a quarter square: the corner adds what lacks
    assert body.area == pytest.approx(2 * 10 * 0.5 - 0.25**2 + 0.25**2, abs=1e-9)
    assert body.contains(shapely.Point(at(-0.24, -0.24)))
    assert len(shapely.get_parts(body)) == 1


def test_corner_of_walls_of_two_thicknesses_is_filled() -> None:
    body = jointed([wall("a", 0, 0, 10, 0, thickness=1.0), wall("b", 0, 0, 0, 10, thickness=0.5)])
    assert body.contains(shapely.Point(-0.24, -0.49))


def test_sharp_corner_is_cut_off_rather_than_run_out() -> None:
    body = jointed([wall("a", 0, 0, 10, 0), wall("b", 0, 0, 10, 1)])
    assert body.bounds[0] > -1.0


def test_collinear_walls_make_one_body_without_a_spike() -> None:
    body = jointed([wall("a", 0, 0, 5, 0), wall("b", 5, 0, 10, 0)])
    assert body.bounds == pytest.approx((0, -0.25, 10, 0.25))


def test_openings_are_gaps_in_the_walls() -> None:
    plan = wall_plan(house().levels[0])
    assert not plan.full.intersects(shapely.Point(7, 0))
    assert plan.full.intersects(shapely.Point(1, 0))
    assert plan.closed.intersects(shapely.Point(7, 0))


def test_half_wall_is_drawn_apart_and_noted_with_its_height() -> None:
    value = house().levels[0].model_dump(mode="json")
    walls = [*value["walls"], {"id": "half", "a": [10, 5], "b": [16, 5], "height": 3.5}]
    plan = house(walls=walls)
    parts = wall_plan(plan.levels[0])
    assert parts.low.area == pytest.approx(6 * 0.375)
    assert not parts.full.intersects(shapely.Point(13, 5))
    assert "half wall 3'-6\" AFF" in {word.text for word in words(drawn(plan))}


def test_front_door_swings_into_the_house() -> None:
    (swept,) = swept_floor(compile_level(house().levels[0]))
    assert swept.centroid.y > 0
    assert swept.bounds[3] == pytest.approx(0.25 + 3)


def test_facades_of_a_rectangle_are_four_with_the_overall_length_once_each_way() -> None:
    scene = compile_level(house().levels[0])
    area = building(scene, wall_plan(house().levels[0]))
    facades = facades_of(scene, area, outer_edges(area))
    assert len(facades) == 4
    assert sorted(round(facade.high - facade.low, 6) for facade in facades if facade.overall) == [14.5, 30.5]


def test_dimension_string_adds_up_to_the_overall_length() -> None:
    texts = {word.text for word in words(drawn(house()))}
    # the south side: outer corner, middles of w1 at 7, d1 at 13.5, w2 at 24.5, outer corner
    assert {"7'-3\"", "6'-6\"", "11'-0\"", "5'-9\"", "30'-6\""} <= texts


def test_wing_at_an_odd_angle_is_measured_beside_itself() -> None:
    walls = [
        {"id": name, "a": a, "b": b, "thickness": 0.5}
        for name, a, b in (
            ("s", [0, 0], [20, 0]),
            ("se", [20, 0], [34, 14]),
            ("ne", [34, 14], [27, 21]),
            ("nw", [27, 21], [18, 12]),
            ("n", [18, 12], [0, 12]),
            ("w", [0, 12], [0, 0]),
        )
    ]
    plan = house(walls=walls, openings=[], rooms=[], devices=[], fixtures=[])
    turns = {round(abs(word.turn)) for word in words(drawn(plan))}
    assert 45 in turns


def test_exact_uncovered_stretch_is_hatched_and_the_rest_is_filled() -> None:
    plan = house()
    drawing = drawing_of(plan)
    pane = next(pane for pane in drawing.panes if pane["id"] == "w3/1")
    ((low, high),) = pane["stretches"]
    svg = drawn(plan)
    west, _, _, _ = drawing.bounds
    bars = [
        ring
        for part in svg.iter()
        if part.get("stroke-dasharray") and part.get("fill") == PAPER
        for ring in subpaths(part.attrib["d"])
    ]
    spans = [sorted(round((x - 30) / SCALE + west, 2) for x, _ in ring) for ring in bars]
    assert any(
        span[0] == pytest.approx(17 - high, abs=0.01) and span[-1] == pytest.approx(17 - low, abs=0.01)
        for span in spans
    )
    heard = [part for part in svg.iter() if part.get("stroke") == COVERED and part.get("stroke-dasharray") is None]
    assert heard


def test_status_is_drawn_in_three_ways_beside_colour() -> None:
    svg = drawn(house())
    marks = {tuple((part.get("class") or "").split()) for part in by_class(svg, "mark")}
    assert marks == {("mark", "covered"), ("mark", "partial"), ("mark", "uncovered")}
    bars = [part for part in svg.iter() if part.get("fill") == PAPER and part.get("stroke-dasharray")]
    hatch = [part for part in svg.iter() if part.get("stroke") == MISSED and part.get("fill") is None]
    assert bars
    assert hatch


def test_line_weights_are_four_at_most() -> None:
    svg = drawn(house())
    weights = {
        float(part.attrib["stroke-width"])
        for part in svg.iter()
        if part.get("stroke-width") and not part.tag.endswith("text")
    }
    assert weights <= {0.5, 0.35, 0.25, 0.18}


def test_no_word_lies_over_another() -> None:
    found = list(words(drawn(house())))
    over = [(one.text, two.text) for n, one in enumerate(found) for two in found[:n] if lie_over(one.box, two.box)]
    assert over == []


def test_two_devices_in_one_place_are_drawn_apart_with_a_line_to_the_place() -> None:
    devices: list[dict[str, Any]] = [
        {"id": "kp", "kind": "keypad", "at": [15.5, 0.3]},
        {"id": "sr", "kind": "siren", "at": [15.5, 0.3], "facing": 90},
    ]
    svg = drawn(house(devices=devices))
    first, second = (
        next(part for part in by_class(svg, kind) if part.get("data-device")) for kind in ("keypad", "siren")
    )

    def corner(part: ElementTree.Element) -> tuple[float, float]:
        return subpaths(next(shape.attrib["d"] for shape in part if shape.get("d")))[0][0]

    assert math.dist(corner(first), corner(second)) > 2


def test_unreadably_small_plans_leave_their_words_out() -> None:
    far = drawn(house(), scale=304.8 / 1200)
    assert not by_class(far, "devices")
    assert by_class(far, "walls")


@pytest.mark.parametrize(
    "changes",
    [
        {"walls": [], "openings": [], "rooms": [], "devices": [], "fixtures": []},
        {
            "walls": [{"id": "lone", "a": [0, 0], "b": [10, 0]}],
            "openings": [],
            "rooms": [],
            "devices": [],
            "fixtures": [],
        },
        {
            "openings": [],
            "fixtures": [{"id": "bed", "kind": "bed", "at": [5, 5]}, {"id": "b2", "kind": "bed", "at": [0, 0]}],
        },
        {"rooms": [{"id": "out", "name": "Nowhere", "at": [500, 500]}]},
        {
            "rooms": [
                {"id": "great", "name": "A name that is far too long for any room in any house " * 2, "at": [5, 8]}
            ]
        },
    ],
)
def test_odd_levels_are_drawn(changes: dict[str, Any]) -> None:
    assert len(by_class(drawn(house(**changes)), "floor-plan")) == 1
