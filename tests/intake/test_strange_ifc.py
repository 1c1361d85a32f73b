"""Building models as other programs shape them: any body, unit, schema and place, with or without voids and storeys."""

from __future__ import annotations

from typing import Any

import pytest

from app.intake.choices import Choices
from app.intake.opening import open_foreign
from app.intake.refused import DrawingRefused
from app.intake.report import Report
from app.plan.model import Plan
from tests.intake.comparing import SIXTEENTH, drawn_walls, is_near, room_areas
from tests.intake.writing.plum_lane import INNER, LEVEL, OUTER
from tests.intake.writing.step_by_hand import BODIES, HEIGHT, UNITS, cottage, wall_with_opening_and_window

pytest.importorskip("ifcopenshell", reason="IFC needs the extra: pip install 'studbay[ifc]'")


def _read(**shape: Any) -> tuple[Plan, Report]:
    return open_foreign(cottage(**shape)).converted(Choices())


def _is_cottage(plan: Plan) -> None:
    level = plan.levels[0]
    wanted = room_areas(level.model_copy(update={"walls": drawn_walls(LEVEL["walls"])}))
    got = room_areas(level)
    assert len(got) == len(wanted)
    assert all(is_near(one, two) for one, two in zip(got, wanted, strict=True))
    assert all(min(abs(wall.thickness - one) for one in (INNER, OUTER)) < SIXTEENTH for wall in level.walls)
    assert level.ceiling == pytest.approx(HEIGHT, abs=0.01)
    windows = sorted(round(one.width, 2) for one in level.openings if one.kind == "window")
    assert windows == sorted(one["width"] for one in LEVEL["openings"] if one["kind"] == "window")
    assert {round(one.sill, 2) for one in level.openings if one.kind == "window"} == {3.0}
    assert sum(one.kind == "door" for one in level.openings) == 6


@pytest.mark.parametrize("body", BODIES)
def test_walls_of_any_body_are_read(body: str) -> None:
    plan, report = _read(body=body)
    _is_cottage(plan)
    assert not report.unread.lines()


@pytest.mark.parametrize("unit", UNITS)
def test_every_unit_gives_the_same_house(unit: str) -> None:
    _is_cottage(_read(unit=unit)[0])


@pytest.mark.parametrize("schema", ["IFC2X3", "IFC4", "IFC4X3_ADD2"])
def test_every_release_of_the_standard_is_read(schema: str) -> None:
    _is_cottage(_read(schema=schema)[0])


@pytest.mark.parametrize("body", ["extruded", "brep"])
def test_a_site_on_a_national_grid_costs_no_precision(body: str) -> None:
    _is_cottage(_read(body=body, far=(1_600_000.0, 17_000_000.0))[0])


def test_doors_and_windows_without_voids_are_set_into_their_walls() -> None:
    plan, report = _read(voids=False)
    _is_cottage(plan)
    assert not report.unread.lines()


def test_a_model_without_storeys_is_one_level_and_says_so() -> None:
    plan, report = _read(storeys=False)
    _is_cottage(plan)
    assert any("no storeys" in note for note in report.notes)
    assert plan.levels[0].elevation == 0


def test_a_curtain_wall_is_told_and_not_dropped() -> None:
    whole = cottage().decode()
    curtain = "#9001=IFCCURTAINWALL('0000000000000000009001',$,'C',$,$,$,$,$,$);\n"
    held = whole.index("IFCRELCONTAINEDINSPATIALSTRUCTURE")
    listed = whole.index("(#", held)
    changed = whole[:listed] + "(#9001," + whole[listed + 1 :]
    changed = changed.replace("ENDSEC;\nEND-ISO", f"{curtain}ENDSEC;\nEND-ISO")
    _, report = open_foreign(changed.encode()).converted(Choices())
    assert [line["kind"] for line in report.unread.lines()] == ["IfcCurtainWall"]


def test_a_file_whose_lines_cannot_be_understood_is_refused_in_a_line() -> None:
    with pytest.raises(DrawingRefused, match="no project") as refused:
        open_foreign(cottage().replace(b"=IFC", b"=XFC"))
    assert "\n" not in str(refused.value)


def test_the_worked_example_of_the_standard() -> None:
    """IFC4 (ISO 16739-1), annex E, "wall with opening and window": a wall of 3 × 0.3 × 2 m with a window of 1 × 1 m,
    1 m from its end and 0.5 m up.
    """
    plan, report = open_foreign(wall_with_opening_and_window()).converted(Choices())
    (level,) = plan.levels
    (wall,), (window,) = level.walls, level.openings
    metres = 1 / 0.3048
    assert plan.units == "metric"
    assert level.ceiling == pytest.approx(2 * metres, abs=1e-3)
    assert (wall.length, wall.thickness) == pytest.approx((3 * metres, 0.3 * metres), abs=1e-3)
    assert window.kind == "window"
    measures = (window.offset, window.width, window.sill, window.head)
    assert measures == pytest.approx((metres, metres, 0.5 * metres, 1.5 * metres), abs=1e-3)
    assert not report.unread.lines()
