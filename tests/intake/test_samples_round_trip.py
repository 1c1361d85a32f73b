"""The sample plans drawn to DXF in many releases, units and places, and read back: every room as large as before."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from app.intake.choices import Choices
from app.intake.drawing import DxfDrawing
from app.plan.reading import plan_from, plan_value, read_plan
from tests.intake.comparing import is_near, room_areas
from tests.intake.writing.from_plan import drawn

SAMPLES = Path(__file__).parents[2] / "sample_plans"
FLOORS = [
    (path.stem, level["id"])
    for path in sorted(SAMPLES.glob("*.json"))
    for level in json.loads(path.read_text(encoding="utf-8"))["levels"]
]
WAYS = (
    ("in", "R2010", (0.0, 0.0, 0.0)),
    ("mm", "R12", (33.0, 1000.0, -4000.0)),
    ("m", "R2000", (0.7, 200_000.0, 300_000.0)),
    ("ft", "R2018", (90.0, 5.0, 5.0)),
    ("none", "R2013", (45.0, 1.0, 2.0)),
    ("cm", "R2007", (12.0, 0.0, 0.0)),
)


def _value(sample: str, level_id: str) -> dict[str, Any]:
    levels = json.loads((SAMPLES / f"{sample}.json").read_text(encoding="utf-8"))["levels"]
    return next(level for level in levels if level["id"] == level_id)


@pytest.mark.parametrize(("sample", "level_id"), FLOORS)
@pytest.mark.parametrize("way", range(len(WAYS)))
def test_rooms_are_as_large_as_before(sample: str, level_id: str, way: int) -> None:
    if (len(sample) + way) % 2 and way > 1:
        pytest.skip("every floor goes two ways, and half of the others")
    unit, version, place = WAYS[way]
    value = _value(sample, level_id)
    drawing = DxfDrawing(drawn(value, unit, version, place=place))
    plan, report = drawing.converted(Choices())
    before = plan_from(json.loads((SAMPLES / f"{sample}.json").read_text(encoding="utf-8"))).level(level_id)
    assert before is not None
    wanted, got = room_areas(before), room_areas(plan.levels[0])
    assert len(got) == len(wanted)
    assert all(is_near(one, two) for one, two in zip(got, wanted, strict=True))
    assert report.units == ("in" if unit == "none" else unit)
    assert [one.name for one in plan.levels[0].rooms if one.name.startswith("Room ")] == []


@pytest.mark.parametrize(("sample", "level_id"), FLOORS)
def test_what_comes_out_is_a_plan_file(sample: str, level_id: str) -> None:
    plan, _ = DxfDrawing(drawn(_value(sample, level_id))).converted(Choices())
    assert read_plan(json.dumps(plan_value(plan)).encode()) == plan


@pytest.mark.parametrize(("sample", "level_id"), FLOORS)
def test_leaves_keep_their_hinge(sample: str, level_id: str) -> None:
    value = _value(sample, level_id)
    plan, _ = DxfDrawing(drawn(value)).converted(Choices())
    swings = [one for one in value["openings"] if one["kind"] == "door" and one.get("hinge")]
    assert sum(one.hinge is not None for one in plan.levels[0].openings) == len(swings)
