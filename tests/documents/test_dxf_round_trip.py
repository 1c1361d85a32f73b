"""A plan drawn as DXF and read in again: walls, openings and rooms come back, though nothing of ours is in the file."""

from __future__ import annotations

import math
from collections import Counter
from pathlib import Path

import pytest

from app.command_line.entry import run
from app.plan.model import Level
from app.plan.reading import read_plan_file

SAMPLES = Path(__file__).parents[2] / "sample_plans"


def length_of(level: Level) -> float:
    return sum(wall.length for wall in level.walls)


def kinds_of(level: Level) -> Counter[str]:
    """Openings by kind, one for each place: what is drawn over another, as a transom over a door, is one in plan."""
    places = {
        tuple(round(c, 1) for c in level.wall_by_id[one.wall].along(one.offset + one.width / 2)): one.kind
        for one in level.openings
    }
    return Counter(places.values())


@pytest.mark.parametrize("name", ["birch-cottage", "cobble-court", "elder-rise"])
def test_a_level_read_in_again_has_its_walls_openings_and_rooms(name: str, tmp_path: Path) -> None:
    source, drawing, back = SAMPLES / f"{name}.json", tmp_path / "drawn.dxf", tmp_path / "back.json"
    level = read_plan_file(source).levels[0]
    assert run(["export", str(source), "-o", str(drawing), "--level", level.id]) == 0
    assert run(["intake", str(drawing), "-o", str(back)]) == 0
    again = read_plan_file(back).levels[0]
    assert length_of(again) == pytest.approx(length_of(level), abs=0.1)
    assert kinds_of(again) == kinds_of(level)
    assert {room.name for room in again.rooms} >= {room.name for room in level.rooms if room.use != "closet"}
    widths = [sorted(round(one.width, 2) for one in each.openings) for each in (level, again)]
    assert all(math.isclose(one, two, abs_tol=0.03) for one, two in zip(*widths, strict=True))
