"""Changes of walls as pure functions of the page's modules: oblique neighbours, whole walls, arcs either way."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest

from tests.browser.conftest import one_room

pytestmark = pytest.mark.browser

_CALL = """async ([module, name, args]) => {
    const start = document.querySelector("script[src$='/start.js']").src;
    return (await import(new URL(module, start).href))[name](...args);
}"""


@pytest.fixture(scope="module")
def call(browser: Any, server: Any) -> Any:
    """Calls a function of one of the page's modules."""
    page = browser.new_context().new_page()
    page.goto(f"{server.url}/plans/{server.add(one_room())}")
    page.wait_for_selector("body[data-ready]")
    yield lambda module, name, *args: page.evaluate(_CALL, [module, name, list(args)])
    page.context.close()


def _plan(*walls: tuple[tuple[float, float], tuple[float, float]], **level: Any) -> dict[str, Any]:
    listed = [{"id": f"w{i + 1}", "a": a, "b": b, "thickness": 0.5} for i, (a, b) in enumerate(walls)]
    return {
        "format": "studbay-plan/1",
        "name": "Shapes",
        "levels": [{"id": "L1", "name": "Main", "walls": listed, **level}],
    }


def _shift(call: Any, plan: dict[str, Any], wall: int, feet: float) -> Any:
    level = plan["levels"][0]
    return call("plan/wall_shift.js", "shiftWall", plan, level, level["walls"][wall], feet)


def test_oblique_neighbours_keep_their_direction(call: Any) -> None:
    plan = _plan(((0, 0), (10, 0)), ((10, 0), (14, 8)), ((0, 0), (0, 8)))
    walls = _shift(call, plan, 0, 2)["walls"]
    assert walls[0]["a"] == pytest.approx([0, 2])
    assert walls[0]["b"] == pytest.approx([11, 2])  # on the line from (10, 0) to (14, 8)
    assert walls[1]["a"] == pytest.approx([11, 2])
    assert walls[2]["a"] == pytest.approx([0, 2])


def test_a_wall_that_ends_on_the_moved_one_follows_and_one_it_ends_on_stays(call: Any) -> None:
    plan = _plan(((0, 5), (20, 5)), ((8, 5), (8, 12)), ((0, 0), (0, 12)), ((20, 0), (20, 12)))
    walls = _shift(call, plan, 0, -3)["walls"]
    assert (walls[0]["a"], walls[0]["b"]) == (pytest.approx([0, 2]), pytest.approx([20, 2]))
    assert walls[1]["a"] == pytest.approx([8, 2])
    assert [walls[i]["a"] for i in (2, 3)] == [[0, 0], [20, 0]]


def test_a_move_that_would_leave_a_wall_without_length_is_refused(call: Any) -> None:
    plan = _plan(((0, 0), (10, 0)), ((10, 0), (10, 8)), ((10, 8), (0, 8)), ((0, 8), (0, 0)))
    assert _shift(call, plan, 0, 8) is None
    assert _shift(call, plan, 0, 9) is None  # nor may it pass the wall across
    assert _shift(call, plan, 0, 7.5)["walls"][0]["a"] == pytest.approx([0, 7.5])


def test_a_length_typed_for_a_partition_takes_the_whole_run_along(call: Any) -> None:
    plan = _plan(((0, 5), (20, 5)), ((20, 0), (20, 5)), ((20, 5), (20, 12)), ((0, 0), (20, 0)))
    level = plan["levels"][0]
    walls = call("plan/wall_shift.js", "withLength", plan, level, level["walls"][0], 18, "a")["walls"]
    assert walls[0]["b"] == pytest.approx([18, 5])
    assert [walls[i][end] for i, end in ((1, "a"), (1, "b"), (2, "a"), (2, "b"), (3, "b"))] == [
        pytest.approx(corner) for corner in ([18, 0], [18, 5], [18, 5], [18, 12], [18, 0])
    ]


def test_a_square_bay_may_take_a_whole_wall(call: Any) -> None:
    plan = _plan(((0, 0), (8, 0)))
    level = plan["levels"][0]
    shape = {"width": 8, "projection": 3, "angle": 90, "windows": False, "sill": 2, "head": 7}
    built = call("plan/bay.js", "withBay", plan, level, level["walls"][0], 0, shape, -1)
    ends = [(wall["a"], wall["b"]) for wall in built["plan"]["levels"][0]["walls"]]
    assert ends == [([0, 0], [0, -3]), ([0, -3], [8, -3]), ([8, -3], [8, 0])]
    shape["angle"] = 30
    assert "sides meet" in call("plan/bay.js", "withBay", plan, level, level["walls"][0], 0, shape, 1)
    shape["width"] = 9
    assert "wider than its wall" in call("plan/bay.js", "withBay", plan, level, level["walls"][0], 0, shape, 1)


def test_a_bay_keeps_the_windows_beside_it_in_place(call: Any) -> None:
    window = {"id": "o1", "wall": "w1", "kind": "window", "offset": 15, "width": 3, "sill": 3, "head": 6}
    plan = _plan(((0, 0), (20, 0)), openings=[window])
    level = plan["levels"][0]
    shape = {"width": 6, "projection": 2, "angle": 90, "windows": True, "sill": 2, "head": 7}
    after = call("plan/bay.js", "withBay", plan, level, level["walls"][0], 4, shape, 1)["plan"]["levels"][0]
    wall = next(entry for entry in after["walls"] if entry["id"] == after["openings"][0]["wall"])
    assert wall["a"][0] + after["openings"][0]["offset"] == pytest.approx(15)


@pytest.mark.parametrize("by", [(5, 2), (5, -2), (5, 5), (5, 9)])
def test_arcs_pass_the_point_on_either_side_and_beyond_half_a_circle(call: Any, by: tuple[float, float]) -> None:
    within = 0.05
    arc = call("geometry/arcs.js", "arcCorners", [0, 0], [10, 0], list(by), within)
    centre = (5, (by[1] ** 2 - 25) / (2 * by[1]))  # from the chord of 10 ft and the rise
    radius = math.dist(centre, (0, 0))
    assert arc["radius"] == pytest.approx(radius)
    assert all(math.dist(corner, centre) == pytest.approx(radius) for corner in arc["corners"])
    assert all(corner[1] * by[1] > -1e-9 for corner in arc["corners"]) or abs(by[1]) > 5
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(arc["corners"])]
    off = max(radius - math.dist(middle, centre) for middle in middles)
    assert off == pytest.approx(arc["off"])
    assert off <= within
    assert min(math.dist(corner, by) for corner in arc["corners"]) < math.dist(*arc["corners"][:2])


def test_three_points_in_line_make_no_arc(call: Any) -> None:
    assert call("geometry/arcs.js", "arcCorners", [0, 0], [10, 0], [4, 0], 0.05) is None


def test_a_piece_is_widened_about_the_middle_of_its_back(call: Any) -> None:
    ring = call("plan/furniture.js", "outlineOf", [3, 4], 6, 2, 30)
    assert call("plan/furniture.js", "sizeOf", ring) == pytest.approx({"width": 6, "depth": 2}, abs=1e-5)
    wider = call("plan/furniture.js", "resized", ring, 8, 2)
    assert call("plan/furniture.js", "sizeOf", wider) == pytest.approx({"width": 8, "depth": 2}, abs=1e-5)
    middle = [(ring[0][i] + ring[1][i]) / 2 for i in (0, 1)]
    assert middle == pytest.approx([3, 4], abs=1e-5)


def test_an_outline_takes_to_a_wall_and_to_its_neighbour_at_once(call: Any) -> None:
    level = _plan(((0, 0), (20, 0)))["levels"][0]
    level["fixtures"] = [{"id": "f1", "kind": "obstruction", "polygon": [[0, 0.25], [3, 0.25], [3, 3], [0, 3]]}]
    faces = call("gestures/face_snap.js", "facesOf", level, "f2")
    ring = [[3.2, 0.4], [9, 0.4], [9, 2.4], [3.2, 2.4]]
    assert call("gestures/face_snap.js", "shiftToFaces", ring, faces, 0.5) == pytest.approx([-0.2, -0.15])
    far = [[13.2, 5.4], [19, 5.4], [19, 7.4], [13.2, 7.4]]
    assert call("gestures/face_snap.js", "shiftToFaces", far, faces, 0.5) == [0, 0]


def test_a_fireplace_opens_to_the_room_however_it_was_drawn(call: Any) -> None:
    walls = _plan(((0, 10), (20, 10)))["levels"][0]["walls"]
    ring = [[5, 7.75], [11, 7.75], [11, 9.75], [5, 9.75]]
    for turn in range(4):
        fixture = {"id": "f1", "kind": "obstruction", "polygon": ring[turn:] + ring[:turn], "label": "Fireplace"}
        lines = call("drawing/furniture_lines.js", "furnitureLines", fixture, walls)
        assert lines.split("L")[0] in ("M9.8 -7.75", "M6.2 -7.75")  # the mouth is on the side away from the wall
