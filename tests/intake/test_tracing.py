"""How offices draw, one habit a test: layers of a wall, symbols over walls, curves, wide lines, blocks."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from typing import Any

import ezdxf
import pytest
from ezdxf.enums import TextEntityAlignment

from app.intake.choices import Choices
from app.intake.drawing import DxfDrawing
from app.intake.report import Report
from app.intake.roles import Role
from app.plan.model import Plan
from tests.intake.comparing import room_areas

Draw = Callable[[Any], None]
WALLS: dict[str, Role] = {"W": "walls"}


def _read(draw: Draw, roles: dict[str, Role] | None = None, unit: int = 2, **choices: Any) -> tuple[Plan, Report]:
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = unit
    for name in ("W", "D", "G", "N"):
        document.layers.add(name)
    draw(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    drawing = DxfDrawing(stream.getvalue().encode())
    known = {layer: role for layer, role in (roles or WALLS).items() if layer in drawing.sheet.counts}
    return drawing.converted(Choices(roles=known, **choices))


def _rectangle(model: Any, west: float, south: float, east: float, north: float, layer: str = "W") -> None:
    corners = [(west, south), (east, south), (east, north), (west, north)]
    model.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def _shell(model: Any, *more: float) -> None:
    """A room of 30 × 20 ft inside walls half a foot thick; ``more`` are lines so far inside its faces."""
    for inset in (0.0, 0.5, *more):
        _rectangle(model, inset, inset, 31 - inset, 21 - inset)


def test_two_rectangles_are_a_room() -> None:
    plan, report = _read(_shell)
    assert [wall.thickness for wall in plan.levels[0].walls] == [0.5] * 4
    assert report.size_ft == pytest.approx((30.5, 20.5))
    assert report.unread.lines() == []


def test_board_stud_and_brick_are_one_wall() -> None:
    """Lines at 0, 4, 5 and 10.5 in: brick, air, stud; and a half-inch board inside."""

    def draw(model: Any) -> None:
        for inches in (0.0, 4.0, 5.0, 10.5, 11.0):
            _rectangle(model, inches / 12, inches / 12, 31 - inches / 12, 21 - inches / 12)

    plan, _ = _read(draw)
    assert [wall.thickness for wall in plan.levels[0].walls] == pytest.approx([11 / 12] * 4, abs=1 / 192)


def test_a_narrow_closet_is_not_a_wall() -> None:
    """Two partitions 16 in apart: each is a wall, and the chase between them is none."""

    def draw(model: Any) -> None:
        _shell(model)
        for x in (10.0, 11.75):
            for face in (x, x + 0.375):
                model.add_line((face, 0.5), (face, 20.5), dxfattribs={"layer": "W"})

    plan, _ = _read(draw)
    inner = [wall for wall in plan.levels[0].walls if wall.thickness < 0.45]
    assert sorted(round(wall.a[0] + 0.25, 2) for wall in inner) == [10.19, 11.94]


def test_faces_drawn_twice_and_in_pieces_are_one_wall() -> None:
    def draw(model: Any) -> None:
        _shell(model)
        _shell(model)
        for k in range(10):
            model.add_line((3 * k, 0), (3 * k + 3.002, 0), dxfattribs={"layer": "W"})

    plan, _ = _read(draw)
    assert len(plan.levels[0].walls) == 4


def test_a_door_drawn_over_a_wall_that_goes_on_cuts_its_opening() -> None:
    def draw(model: Any) -> None:
        _shell(model)
        model.add_arc((10, 0.5), 3, 0, 90, dxfattribs={"layer": "D"})

    plan, _ = _read(draw, {"W": "walls", "D": "doors"})
    (door,) = plan.levels[0].openings
    wall = plan.levels[0].wall_by_id[door.wall]
    hinge = wall.along(door.offset if door.hinge == "a" else door.end)
    assert (door.kind, door.width) == ("door", pytest.approx(3, abs=0.001))
    assert hinge[0] == pytest.approx(10 - 0.25, abs=0.01)


def test_a_pair_of_leaves_is_one_door() -> None:
    def draw(model: Any) -> None:
        _shell(model)
        model.add_arc((10, 0.5), 3, 0, 90, dxfattribs={"layer": "D"})
        model.add_arc((16, 0.5), 3, 90, 180, dxfattribs={"layer": "D"})

    plan, _ = _read(draw, {"W": "walls", "D": "doors"})
    (door,) = plan.levels[0].openings
    assert (door.kind, door.width, door.hinge) == ("door", pytest.approx(6, abs=0.01), None)


def test_window_lines_over_a_wall_that_goes_on_are_a_window() -> None:
    def draw(model: Any) -> None:
        _shell(model)
        for y in (0.2, 0.3):
            model.add_line((5, y), (9, y), dxfattribs={"layer": "G"})
        model.add_line((7, 0.2), (7, 0.3), dxfattribs={"layer": "G"})

    plan, _ = _read(draw, {"W": "walls", "G": "windows"}, sill=2.5, head=7.0)
    (window,) = plan.levels[0].openings
    assert (window.kind, window.width, window.panes) == ("window", pytest.approx(4, abs=0.001), 2)
    assert (window.sill, window.head) == (2.5, 7.0)


def test_a_mirrored_stretched_nested_block_is_a_door() -> None:
    def draw(model: Any) -> None:
        blocks = model.doc.blocks
        leaf = blocks.new("LEAF")
        leaf.add_line((0, 0), (0, 1))
        leaf.add_arc((0, 0), 1, 0, 90)
        blocks.new("DOOR").add_blockref("LEAF", (0, 0), dxfattribs={"rotation": 90})
        _shell(model)
        model.add_blockref("DOOR", (20, 0.5), dxfattribs={"layer": "D", "xscale": -2.5, "yscale": 2.5, "rotation": 90})

    plan, _ = _read(draw, {"W": "walls", "D": "doors"})
    (door,) = plan.levels[0].openings
    assert door.kind == "door"
    assert door.width == pytest.approx(2.5, abs=0.01)
    assert door.hinge is not None


def test_a_bay_of_concentric_arcs_closes_its_room() -> None:
    def draw(model: Any) -> None:
        for radius in (10.0, 10.5):
            model.add_arc((0, 0), radius, 0, 180, dxfattribs={"layer": "W"})
        for x in (-10.5, -10.0, 10.0, 10.5):
            model.add_line((x, 0), (x, -8), dxfattribs={"layer": "W"})
        for y, half in ((-8.0, 10.0), (-8.5, 10.5)):
            model.add_line((-half, y), (half, y), dxfattribs={"layer": "W"})
        for x in (-10.5, 10.5):
            model.add_line((x, -8), (x, -8.5), dxfattribs={"layer": "W"})

    plan, _ = _read(draw)
    level = plan.levels[0]
    assert len(level.rooms) == 1
    assert room_areas(level)[0] == pytest.approx(math.pi * 100 / 2 + 160, rel=0.01)


def test_walls_as_one_line_take_the_thickness_that_is_given() -> None:
    def draw(model: Any) -> None:
        _rectangle(model, 0, 0, 30, 20)
        model.add_line((12, 0), (12, 20), dxfattribs={"layer": "W"})

    plan, _ = _read(draw, {"W": "centrelines"}, thickness=0.5)
    assert len(plan.levels[0].rooms) == 2
    assert {wall.thickness for wall in plan.levels[0].walls} == {0.5}


def test_a_polyline_as_wide_as_a_wall_is_one() -> None:
    def draw(model: Any) -> None:
        corners = [(0, 0), (30, 0), (30, 20), (0, 20)]
        model.add_lwpolyline(corners, close=True, dxfattribs={"layer": "W", "const_width": 0.5})

    plan, _ = _read(draw)
    assert [(wall.thickness, len(plan.levels[0].rooms)) for wall in plan.levels[0].walls] == [(0.5, 1)] * 4


def test_filled_walls_are_walls() -> None:
    def draw(model: Any) -> None:
        boxes = ((0, 0, 31, 0.5), (0, 20.5, 31, 21), (0, 0, 0.5, 21), (30.5, 0, 31, 21))
        for west, south, east, north in boxes:
            hatch = model.add_hatch(dxfattribs={"layer": "W"})
            hatch.paths.add_polyline_path([(west, south), (east, south), (east, north), (west, north)], is_closed=True)

    plan, _ = _read(draw)
    assert len(plan.levels[0].walls) == 4
    assert len(plan.levels[0].rooms) == 1


def test_a_name_over_two_lines_beside_its_measure_is_one_name() -> None:
    def draw(model: Any) -> None:
        _shell(model)
        for y, text in ((12, "MAIN"), (11, "BEDROOM"), (10, "12'-6\" x 14'-0\"")):
            spot = model.add_text(text, height=0.6, dxfattribs={"layer": "N"})
            spot.set_placement((15, y), align=TextEntityAlignment.MIDDLE_CENTER)

    plan, _ = _read(draw, {"W": "walls", "N": "names"})
    assert [(room.name, room.use) for room in plan.levels[0].rooms] == [("Main bedroom", "main_bedroom")]


def test_nothing_is_dropped_in_silence() -> None:
    """Every entity of the file is read or stands in the account with its reason."""

    def draw(model: Any) -> None:
        _shell(model)
        model.add_line((100, 100), (104, 100), dxfattribs={"layer": "W"})
        model.add_point((1, 1), dxfattribs={"layer": "W"})
        model.add_line((2, 2), (3, 3), dxfattribs={"layer": "D"})
        model.add_arc((15, 10), 3, 0, 90, dxfattribs={"layer": "W"})
        model.add_linear_dim(base=(0, -3), p1=(0, 0), p2=(31, 0), dxfattribs={"layer": "N"}).render()
        model.doc.paperspace().add_text("SHEET", dxfattribs={"layer": "N"})

    _, report = _read(draw)
    told = {(line["layer"], line["kind"]): line["reason"] for line in report.unread.lines()}
    assert "no second face" in told["W", "stroke"]
    assert "no stroke" in told["W", "POINT"]
    assert "left out" in told["D", "lines"]
    assert "swing" in told["W", "arc"]
    assert "dimensions" in told["N", "DIMENSION"]
    assert "printed sheet" in told["N", "TEXT"]


def test_a_cottage_of_a_surveyor_with_a_wrong_header_is_asked_about() -> None:
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 6  # metres, it says; drawn in millimetres
    model = document.modelspace()
    document.layers.add("WALLS")
    for inset in (0, 150):
        _rectangle(model, inset, inset, 9450 - inset, 6400 - inset, "WALLS")
    stream = io.StringIO()
    document.write(stream)
    drawing = DxfDrawing(stream.getvalue().encode())
    assert (drawing.scale.said, drawing.scale.proposed, drawing.scale.must_ask) == ("m", "mm", True)
    assert drawing.converted(Choices())[1].size_ft == pytest.approx((9.3 / 0.3048, 6.25 / 0.3048), abs=0.01)
