"""One cottage, drawn by four libraries that are not ours: the same walls, openings and rooms come out of each file."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.intake.choices import Choices
from app.intake.drawing import DxfDrawing
from app.plan.model import Plan
from tests.intake.comparing import SIXTEENTH, drawn_walls, is_near, openings_by_kind, room_areas
from tests.intake.writing.plum_lane import INNER, LEVEL, OUTER

FILES = Path(__file__).parent / "files"
WRITERS = ("dxf-writer", "tarikjabiri-dxf", "makerjs", "dxfwrite")


def _plan(writer: str) -> tuple[Plan, DxfDrawing]:
    drawing = DxfDrawing((FILES / f"plum-lane-{writer}.dxf").read_bytes())
    return drawing.converted(Choices())[0], drawing


@pytest.mark.parametrize("writer", WRITERS)
def test_rooms_are_as_large_as_drawn(writer: str) -> None:
    plan, _ = _plan(writer)
    wanted = room_areas(plan.levels[0].model_copy(update={"walls": drawn_walls(LEVEL["walls"])}))
    got = room_areas(plan.levels[0])
    assert len(got) == len(wanted) == 5
    assert all(is_near(one, two) for one, two in zip(got, wanted, strict=True))


@pytest.mark.parametrize("writer", WRITERS)
def test_walls_are_as_thick_as_drawn(writer: str) -> None:
    plan, _ = _plan(writer)
    walls = plan.levels[0].walls
    assert len(walls) == 8
    assert all(min(abs(wall.thickness - drawn) for drawn in (INNER, OUTER)) < SIXTEENTH for wall in walls)
    assert sum(abs(wall.thickness - OUTER) < SIXTEENTH for wall in walls) == 4


@pytest.mark.parametrize("writer", WRITERS)
def test_openings_are_of_their_kind_and_width(writer: str) -> None:
    plan, _ = _plan(writer)
    got = openings_by_kind(plan.levels[0])
    wanted = openings_by_kind(LEVEL)
    if writer == "dxfwrite":  # on one layer a sliding door's strokes are those of a window
        got = sorted(
            ("door", width, "slide") if (kind, width) == ("window", 8.0) else (kind, width, leaf)
            for kind, width, leaf in got
        )
    assert got == wanted


@pytest.mark.parametrize("writer", ["dxf-writer", "tarikjabiri-dxf", "makerjs"])
def test_hinges_are_where_the_arcs_turn(writer: str) -> None:
    plan, _ = _plan(writer)
    level = plan.levels[0]
    hinges = set()
    for one in level.openings:
        if one.hinge is not None:
            place = level.wall_by_id[one.wall].along(one.offset if one.hinge == "a" else one.end)
            hinges.add((round(place[0], 1), round(place[1], 1)))
    drawn = {"front": (12, 0), "d1": (18, 10.667), "d2": (18, 16), "d3": (19, 13), "d4": (26, 16.833 - 2.333 + 2.333)}
    drawn["d4"] = (26, 13 + 1.5 + 2.333)
    assert hinges == {(round(x, 1), round(y, 1)) for x, y in drawn.values()}


@pytest.mark.parametrize("writer", ["dxf-writer", "tarikjabiri-dxf", "dxfwrite"])
def test_rooms_bear_their_names(writer: str) -> None:
    plan, _ = _plan(writer)
    rooms = {(room.name.lower(), room.use) for room in plan.levels[0].rooms}
    assert rooms == {(room["name"].lower(), room["use"]) for room in LEVEL["rooms"]}


def test_units_are_told_by_the_header_or_by_the_size() -> None:
    proposed = {writer: _plan(writer)[1].scale for writer in WRITERS}
    assert {writer: scale.said for writer, scale in proposed.items()} == {
        "dxf-writer": "mm",
        "tarikjabiri-dxf": "in",
        "makerjs": "m",
        "dxfwrite": None,
    }
    assert {writer: scale.proposed for writer, scale in proposed.items()} == {
        "dxf-writer": "mm",
        "tarikjabiri-dxf": "in",
        "makerjs": "m",
        "dxfwrite": "ft",
    }
    assert proposed["dxfwrite"].must_ask


def test_a_damaged_dimension_is_told_of() -> None:
    _, drawing = _plan("tarikjabiri-dxf")
    assert any("DIMENSION" in note for note in drawing.survey()["notes"])
