"""Building models read into plans: walls, openings with heights, rooms, levels; broken ones; without the extra."""

from __future__ import annotations

import builtins
import json
from pathlib import Path
from typing import Any

import pytest

from app.intake.choices import Choices
from app.intake.opening import open_foreign
from app.intake.refused import DrawingRefused
from app.plan.reading import plan_from, plan_value, read_plan
from tests.intake.comparing import is_near, room_areas
from tests.intake.writing.plum_lane import LEVEL

SAMPLES = Path(__file__).parents[2] / "sample_plans"
HEAD = b"ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\n"


def _written(levels: list[dict[str, Any]], unit: str, schema: str) -> bytes:
    pytest.importorskip("ifcopenshell", reason='get it with: pip install -e ".[ifc]"')
    from tests.intake.writing.ifc_from_plan import written

    return written(levels, unit, schema)


def _sample(name: str) -> dict[str, Any]:
    value: dict[str, Any] = json.loads((SAMPLES / f"{name}.json").read_text(encoding="utf-8"))
    return value


@pytest.mark.parametrize(
    ("name", "unit", "schema"),
    [("birch-cottage", "MILLIMETRE", "IFC4"), ("cobble-court", "FOOT", "IFC2X3"), ("amber-ridge", "METRE", "IFC4X3")],
)
def test_a_sample_comes_back_level_by_level(name: str, unit: str, schema: str) -> None:
    value = _sample(name)
    plan, report = open_foreign(_written(value["levels"], unit, schema)).converted(Choices())
    before = plan_from(value)
    assert len(plan.levels) == len(before.levels)
    for was, now in zip(before.levels, plan.levels, strict=True):
        wanted, got = room_areas(was), room_areas(now)
        assert len(got) == len(wanted)
        assert all(is_near(one, two) for one, two in zip(got, wanted, strict=True))
        assert now.name == was.name
        assert now.elevation == pytest.approx(was.elevation, abs=0.001)
        assert now.ceiling == pytest.approx(was.ceiling, abs=0.001)
        assert {(room.name, room.use) for room in now.rooms} >= {
            (room.name, use) for room, use in ((room, room.use) for room in was.rooms) if use in ("kitchen", "garage")
        }
        assert sorted((one.kind, round(one.sill, 2), round(one.head, 2)) for one in now.openings) == sorted(
            (one.kind, round(one.sill, 2), round(one.head, 2)) for one in was.openings
        )
    assert report.unread.lines() == []
    assert read_plan(json.dumps(plan_value(plan)).encode()) == plan


def test_operations_tell_hinge_and_leaf() -> None:
    plan, _ = open_foreign(_written([LEVEL], "METRE", "IFC4")).converted(Choices())
    level = plan.levels[0]
    hinges = {
        tuple(round(x, 1) for x in level.wall_by_id[one.wall].along(one.offset if one.hinge == "a" else one.end))
        for one in level.openings
        if one.hinge is not None
    }
    assert hinges == {(12.0, 0.0), (18.0, 10.7), (18.0, 16.0), (19.0, 13.0), (26.0, 16.8)}
    assert [one.width for one in level.openings if one.leaf == "slide"] == [pytest.approx(8, abs=0.001)]
    assert sorted(one.panes for one in level.openings if one.kind == "window") == [1, 1, 1, 2, 2]


def test_half_walls_stay_half() -> None:
    plan, _ = open_foreign(_written(_sample("birch-cottage")["levels"], "METRE", "IFC4")).converted(Choices())
    assert [wall.height for wall in plan.levels[0].walls if wall.height is not None] == [pytest.approx(3.5)]


def test_one_storey_is_chosen_by_name_and_an_unknown_one_refused() -> None:
    source = _written(_sample("cobble-court")["levels"], "METRE", "IFC4")
    plan, _ = open_foreign(source).converted(Choices(storeys=("Second floor",)))
    assert [level.name for level in plan.levels] == ["Second floor"]
    with pytest.raises(DrawingRefused, match="no storey 'Attic'"):
        open_foreign(source).converted(Choices(storeys=("Attic",)))


def test_without_the_extra_one_line_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def without(name: str, *rest: Any, **more: Any) -> Any:
        if name.startswith("ifcopenshell"):
            raise ImportError(name)
        return real(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    source = HEAD + b"FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n"
    with pytest.raises(DrawingRefused, match=r"pip install 'studbay\[ifc\]'"):
        open_foreign(source)


def test_a_model_cut_short_or_empty_is_refused_in_words() -> None:
    pytest.importorskip("ifcopenshell")
    empty = HEAD + b"FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n"
    with pytest.raises(DrawingRefused, match="ends early"):
        open_foreign(empty[:-20])
    with pytest.raises(DrawingRefused, match="no project"):
        open_foreign(empty)
    whole = _written([LEVEL], "METRE", "IFC4")
    for cut in (200, 5_000, 20_000):
        broken = whole[:cut] + whole[cut + 300 :]
        try:
            open_foreign(broken).converted(Choices())
        except DrawingRefused as refused:
            assert "\n" not in str(refused)  # noqa: PT017 (either outcome is right)


def test_a_model_of_too_many_entities_is_refused_unread() -> None:
    source = HEAD + b"FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n" + b"#1=IFCX();\n" * 400_500 + b"END-ISO-10303-21;\n"
    with pytest.raises(DrawingRefused, match="400,000 entities"):
        open_foreign(source)


def test_a_model_by_another_library_gives_its_walls_and_openings() -> None:
    """Openings are as wide as door and frame (55 mm on each side), as that library cuts them."""
    pytest.importorskip("ifcopenshell")
    source = (Path(__file__).parent / "files" / "plum-lane-ifckit.ifc").read_bytes()
    plan, report = open_foreign(source).converted(Choices())
    level = plan.levels[0]
    assert (len(level.walls), len(level.rooms), level.ceiling) == (8, 5, pytest.approx(9.0))
    frames = 2 * 55 / 304.8
    drawn = [one for one in LEVEL["openings"] if one["kind"] != "cased"]
    wanted = sorted((one["kind"], one["width"] + (frames if one["kind"] == "door" else 0.0)) for one in drawn)
    got = sorted((one.kind, one.width) for one in level.openings)
    assert [kind for kind, _ in got] == [kind for kind, _ in wanted]
    assert [width for _, width in got] == pytest.approx([width for _, width in wanted], abs=0.001)
    assert {(one.sill, one.head) for one in level.openings if one.kind == "window"} == {(3.0, 6.667)}
    assert report.unread.lines() == []
