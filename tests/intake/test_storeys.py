"""Storeys drawn on one sheet, by libraries that are not ours, become levels that lie on each other as built."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

from app.command_line.entry import run
from app.intake.choices import Choices
from app.intake.drawing import DxfDrawing
from app.intake.refused import DrawingRefused
from app.intake.report import Report
from app.intake.storeys.titles import ranks, title_told
from app.plan.model import Level, Plan
from tests.intake.comparing import drawn_walls, is_near, room_areas
from tests.intake.writing.from_plan import drawn_shapes
from tests.intake.writing.plum_lane import LEVEL as GROUND
from tests.intake.writing.two_storeys import UPPER, sheet

FILES = Path(__file__).parent / "files"
NEAR = 0.03  # ft


def _read(source: bytes, **choices: Any) -> tuple[Plan, Report]:
    return DxfDrawing(source).converted(Choices(**choices))


def _file(writer: str) -> bytes:
    return (FILES / f"two-storeys-{writer}.dxf").read_bytes()


def _is_house(plan: Plan) -> None:
    """Both levels have their rooms, and the upper one stands on the west end of the lower."""
    assert len(plan.levels) == 2
    for level, wanted in zip(plan.levels, (GROUND, UPPER), strict=True):
        areas = room_areas(level.model_copy(update={"walls": drawn_walls(wanted["walls"])}))
        got = room_areas(level)
        assert len(got) == len(areas)
        assert all(is_near(one, two) for one, two in zip(got, areas, strict=True))
    lower, upper = _ends(plan.levels[0]), _ends(plan.levels[1], 0.5)
    assert len(upper) == 8
    assert all(min(math.dist(corner, other) for other in lower) < NEAR for corner in upper)


def _ends(level: Level, least: float = 0.0) -> list[tuple[float, float]]:
    """The ends of all walls thicker than ``least``."""
    return [end for wall in level.walls if wall.thickness > least for end in (wall.a, wall.b)]


@pytest.mark.parametrize("writer", ["dxf-writer", "dxfwrite"])
def test_titled_storeys_become_levels_of_their_names(writer: str) -> None:
    plan, report = _read(_file(writer))
    _is_house(plan)
    assert [(level.name, level.elevation) for level in plan.levels] == [("First floor", 0.0), ("Second floor", 10.0)]
    assert [level["by"] for level in report.levels] == ["place", "walls"]
    assert any("Second floor is moved" in note for note in report.notes)


@pytest.mark.parametrize("writer", ["dxf-writer", "dxfwrite"])
def test_an_elevation_and_a_key_are_left_out_and_told(writer: str) -> None:
    _, report = _read(_file(writer))
    out = {one["title"] for one in report.drawings if one["level"] is None}
    assert out == {"SOUTH ELEVATION", "WALL TYPES"}
    reasons = " ".join(line["reason"] for line in report.unread.lines())
    assert "SOUTH ELEVATION" in reasons
    assert "WALL TYPES" in reasons


def test_without_titles_the_sheet_stays_one_level_and_says_so() -> None:
    plan, report = _read(_file("makerjs"))
    assert len(plan.levels) == 1
    assert any("2 drawings stand apart" in note for note in report.notes)
    assert report.size_ft[0] == pytest.approx(80, abs=NEAR)


def test_without_titles_levels_are_chosen_by_number() -> None:
    plan, _ = _read(_file("makerjs"), levels=("1:Ground", "2:Upstairs"), floor_to_floor=(9.5,))
    _is_house(plan)
    assert [(level.name, level.elevation) for level in plan.levels] == [("Ground", 0.0), ("Upstairs", 9.5)]


def test_a_shared_point_settles_where_a_storey_lies() -> None:
    # In metres, as the file is drawn: the lower south-west corner, and the upper one a foot too far east.
    plan, report = _read(_file("makerjs"), levels=("1", "2"), common=("1:0,0", f"2:{63 * 0.3048},0"))
    assert report.levels[1]["by"] == "point"
    west = [min(x for wall in level.walls for x, _ in (wall.a, wall.b)) for level in plan.levels]
    assert west[1] - west[0] == pytest.approx(-1, abs=NEAR)


def test_a_basement_lies_below_nought() -> None:
    called = {"FIRST FLOOR PLAN": "BASEMENT PLAN", 'SECOND FLOOR PLAN   1/4" = 1\'-0"': "MAIN FLOOR PLAN"}
    shapes = [
        one | {"text": called.get(one["text"], one["text"])} if one["kind"] == "text" else one
        for one in sheet("beside")
    ]
    plan, _ = _read(drawn_shapes(shapes))
    assert [(level.name, level.elevation) for level in plan.levels] == [("Basement", -10.0), ("Main floor", 0.0)]


@pytest.mark.parametrize("way", ["beside", "stacked"])
@pytest.mark.parametrize("turn", [0.0, 90.0, 211.0])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_sheet_is_read_however_it_is_turned(way: str, turn: float, unit: str) -> None:
    plan, report = _read(drawn_shapes(sheet(way), unit, place=(turn, 3000.0, -900.0)))
    _is_house(plan)
    assert [level.name for level in plan.levels] == ["First floor", "Second floor"]
    assert report.read["levels"] == 2


def test_one_level_of_the_whole_sheet_can_still_be_had() -> None:
    plan, report = _read(drawn_shapes(sheet("beside", more=False)), levels=("all:Sheet",))
    assert [level.name for level in plan.levels] == ["Sheet"]
    assert report.size_ft[0] == pytest.approx(80, abs=NEAR)


def test_two_drawings_of_one_level_keep_their_distance() -> None:
    plan, _ = _read(drawn_shapes(sheet("beside")), levels=("1+2",))
    assert max(x for wall in plan.levels[0].walls for x, _ in (wall.a, wall.b)) == pytest.approx(80, abs=NEAR)


@pytest.mark.parametrize(
    ("choices", "words"),
    [
        ({"levels": ("7",)}, "no drawing 7"),
        ({"levels": ("1", "1+2")}, "given to two levels"),
        ({"levels": ("first",)}, "is no level"),
        ({"levels": ("all", "1")}, "leave out the other levels"),
        ({"common": ("1;2",)}, "is no point"),
        ({"levels": ("1", "2"), "common": ("1:0,0",)}, "same point in drawing 2"),
        ({"floor_to_floor": (3.0,)}, "floor to floor 3 ft is out of bounds"),
    ],
)
def test_choices_that_cannot_be_are_refused_in_a_line(choices: dict[str, Any], words: str) -> None:
    with pytest.raises(DrawingRefused, match=words) as refused:
        _read(_file("makerjs"), **choices)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("text", "kind", "name"),
    [
        ("SECOND FLOOR PLAN  SCALE 1:50", "storey", "Second floor"),
        ("Ground floor", "storey", "Ground floor"),
        ("PROPOSED UPPER STOREY", "storey", "Upper storey"),
        ("LEVEL 2", "storey", "Level 2"),
        ("1. OG", "storey", "1. OG"),
        ("BASEMENT PLAN", "storey", "Basement"),
        ("FLOOR PLAN", "plan", "Floor plan"),
        ("ROOF PLAN", "other", "Roof plan"),
        ("SECTION A-A", "other", "Section a-a"),
        ("FIRST FLOOR FRAMING PLAN", "other", "First floor framing plan"),
    ],
)
def test_titles_tell_what_they_stand_under(text: str, kind: str, name: str) -> None:
    told = title_told(text)
    assert told is not None
    assert (told.kind, told.name) == (kind, name)


@pytest.mark.parametrize("text", ["STAIR UP TO SECOND FLOOR", "BEDROOM 2", "FIRST FLOOR AREA 900 SF", "LEVEL +2.70"])
def test_notes_are_no_titles(text: str) -> None:
    assert title_told(text) is None


def test_a_first_floor_is_the_ground_unless_something_else_is() -> None:
    def order(*texts: str) -> list[float]:
        titles = {index: told for index, text in enumerate(texts) if (told := title_told(text)) is not None}
        return list(ranks(titles).values())

    assert order("FIRST FLOOR", "SECOND FLOOR") == [0.0, 1.0]
    assert order("GROUND FLOOR", "FIRST FLOOR", "BASEMENT") == [0.0, 1.0, -1.0]
    assert order("ERDGESCHOSS", "1. OG", "DACHGESCHOSS") == [0.0, 1.0, 90.0]


def test_by_command_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source, out = str(FILES / "two-storeys-makerjs.dxf"), tmp_path / "plan.json"
    assert run(["intake", source, "--list"]) == 0
    assert "2: no title" in capsys.readouterr().out
    asked = ["--level", "1:Ground", "--level", "2:Upstairs", "--floor-to-floor", "9'-6\""]
    assert run(["intake", source, "-o", str(out), *asked]) == 0
    levels = json.loads(out.read_text())["levels"]
    assert [(level["name"], level["elevation"]) for level in levels] == [("Ground", 0), ("Upstairs", 9.5)]
    assert "Upstairs is moved" in capsys.readouterr().out
    assert run(["intake", source, "-o", str(out), "--level", "9"]) == 2
    assert "no drawing 9" in capsys.readouterr().err


def _untitled(count: int, side: float) -> bytes:
    """Boxes of one size beside each other, without titles."""
    shapes = []
    for k in range(count):
        for inset in (0.0, 0.5):
            low, high = inset, side - inset
            spots = [[low, low], [high, low], [high, high], [low, high]]
            shapes.append({"kind": "ring", "layer": "A-WALL", "spots": [[x + 2 * side * k, y] for x, y in spots]})
        cuts = [[[side / 2 + v + 2 * side * k, 0.5], [side / 2 + v + 2 * side * k, side - 0.5]] for v in (-0.2, 0.2)]
        shapes += [{"kind": "line", "layer": "A-WALL", "spots": spots} for spots in cuts]
        middle = [
            [[0.5 + 2 * side * k, side / 2 + v], [side / 2 - 0.2 + 2 * side * k, side / 2 + v]] for v in (-0.2, 0.2)
        ]
        shapes += [{"kind": "line", "layer": "A-WALL", "spots": spots} for spots in middle]
    return drawn_shapes(shapes)


def test_untitled_drawings_of_one_size_are_guessed_to_be_storeys_and_that_is_said() -> None:
    plan, report = _read(_untitled(2, 30.0))
    assert len(plan.levels) == 2
    assert any("No title tells which drawing is which level" in note for note in report.notes)


def test_many_or_small_drawings_of_one_size_are_no_storeys() -> None:
    assert len(_read(_untitled(8, 14.0))[0].levels) == 1
    assert len(_read(_untitled(3, 9.0), units="in")[0].levels) == 1


def test_a_titled_drawing_without_walls_makes_no_level_and_is_told() -> None:
    shapes = [
        one for one in sheet("beside", more=False) if one.get("spots", [[0, 0]])[0][0] < 50 and "centre" not in one
    ]
    outline = {"kind": "ring", "layer": "A-WALL", "spots": [[62, 0], [80, 0], [80, 26], [62, 26]]}
    plan, report = _read(drawn_shapes([*shapes, outline]))
    assert [level.name for level in plan.levels] == ["First floor"]
    assert any("No walls were found on drawing 2" in note for note in report.notes)
    told = {line["reason"]: line["count"] for line in report.unread.lines() if line["layer"] == "A-WALL"}
    assert told == {"has no second face 2 to 18 in beside it": 4}
