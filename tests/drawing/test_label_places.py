"""Words of every plan sheet of every sample stand clear of one another and of every device's symbol."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest
import shapely

from app.drawing.house.board import Board, about, aside
from app.drawing.sheet import sheet_context
from app.plan.reading import read_plan_file
from app.review.check import check_plan
from app.web.templates import TEMPLATES
from tests.drawing.a_house import house
from tests.drawing.svg_reading import SVG, by_class, places, words

SAMPLES = sorted((TEMPLATES.parent / "sample_plans").glob("*.json"))
_TOUCHING = 0.05  # mm: boxes of letters may touch


@cache
def checked(path: Path) -> tuple[Any, Any]:
    plan = read_plan_file(path)
    return plan, check_plan(plan)


def sheets(plan: Any, check: Any, **choices: str) -> list[ElementTree.Element]:
    found = sheet_context(plan, check, revision=1, saved_at="2026-03-05", **choices)["sheets"]
    return [ElementTree.fromstring(sheet["svg"]) for sheet in found]


def symbol_box(symbol: ElementTree.Element) -> shapely.Polygon:
    points: list[tuple[float, float]] = []
    for part in symbol.iter():
        if part.tag == f"{SVG}circle":
            x, y, r = (float(part.attrib[name]) for name in ("cx", "cy", "r"))
            points += [(x - r, y - r), (x + r, y + r)]
        elif part.tag == f"{SVG}path" and "A" not in part.attrib["d"]:
            points += places(part.attrib["d"])
    return shapely.box(*shapely.MultiPoint(points).bounds)


def over_one_another(shapes: list[tuple[str, shapely.Polygon]]) -> list[tuple[str, str]]:
    """The names of shapes that lie over others by more than a hair."""
    bare = [shape.buffer(-_TOUCHING / 2, join_style="mitre") for _, shape in shapes]
    first, second = shapely.STRtree(bare).query(bare, predicate="intersects")
    return [(shapes[a][0], shapes[b][0]) for a, b in zip(first.tolist(), second.tolist(), strict=True) if a < b]


def overlaps(sheet: ElementTree.Element) -> list[tuple[str, str]]:
    """Words over words, and words over symbols, of the plan on a sheet."""
    found = []
    for plan in by_class(sheet, "floor-plan"):
        symbols = [part for part in plan.iter() if part.get("data-device")]
        lettered = [(word.text, shapely.Polygon(word.corners)) for word in words(plan) if word.box[2] > word.box[0]]
        signs = [(f"symbol {part.get('data-device')}", symbol_box(part)) for part in symbols]
        pairs = over_one_another([*lettered, *signs])
        # Two symbols may lean on each other: a detector stands where it is.
        found += [pair for pair in pairs if not all(name.startswith("symbol ") for name in pair)]
    return found


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("readers", ["homeowner", "crew"])
@pytest.mark.parametrize(
    ("paper", "scale"), [("letter", "auto"), ("letter", "1/4"), ("a4", "1:100"), ("arch_d", "1/4")]
)
def test_no_word_of_a_plan_lies_over_another_or_over_a_symbol(path: Path, readers: str, paper: str, scale: str) -> None:
    for sheet in sheets(*checked(path), readers=readers, paper=paper, scale=scale):
        assert overlaps(sheet) == []


def test_a_label_that_finds_no_room_stands_aside_with_a_leader() -> None:
    devices = [
        {"id": f"fl{n}", "kind": "flood", "at": [3 + 1.2 * (n % 5), 3 + 1.2 * (n // 5)], "label": "A LONG LABEL"}
        for n in range(25)
    ]
    plan = house(devices=devices)
    (sheet, *_) = [sheet for sheet in sheets(plan, check_plan(plan), paper="tabloid") if by_class(sheet, "floor-plan")]
    assert overlaps(sheet) == []
    assert len(by_class(sheet, "leader")) >= 5


def test_a_board_takes_the_nearest_free_place_before_one_on_a_wall() -> None:
    wall = shapely.box(-1, -100, 1, 100)
    board = Board(np.array([wall]), (-50, -50, 50, 50))
    boxes = aside((0.0, 0.0), 10.0, 4.0)
    index = board.place(boxes)
    assert index == 0
    assert not shapely.box(*boxes[index]).intersects(wall)
    assert board.place([boxes[0], about((0.0, 0.0), 10.0, 4.0)]) == 1
