"""The shell of a level: walls as cut in plan and as centrelines, openings as blocks, rooms, furniture and fixtures."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import shapely
from ezdxf.document import Drawing
from shapely.geometry.base import BaseGeometry

from app.documents.dxf import layers
from app.documents.dxf.blocks import (
    CASED,
    FIXTURES,
    LETTER,
    OPENING_TAGS,
    OVERHEAD,
    PAIR,
    SWING,
    add_opening_block,
    fixture_block,
    slide_block,
    window_block,
)
from app.documents.dxf.ground import Ground
from app.documents.dxf.names import draw_obstruction_name
from app.documents.plan_answers import PlanAnswers
from app.drawing.house.fixtures import bed_outlines
from app.drawing.house.openings import PAIR_FROM
from app.drawing.house.swings import swing_side
from app.drawing.house.walls import WallPlan, wall_plan
from app.drawing.lengths import drawn_length
from app.plan.measures import length_text
from app.plan.model import Opening, Wall
from app.review.house import Storey

_OVERHEAD_REACH = 7.0  # ft that an open overhead door stands in the room

Ring = Sequence[Sequence[float]]


def draw_shell(document: Drawing, ground: Ground, storey: Storey, answers: PlanAnswers) -> None:
    """Everything of a level that is there without security."""
    plan = wall_plan(storey.level)
    _walls(ground, storey, plan)
    for opening in storey.level.openings:
        _opening(document, ground, storey, opening, answers)
    _rooms(ground, storey, answers)
    _fixtures(ground, storey, plan)


def _walls(ground: Ground, storey: Storey, plan: WallPlan) -> None:
    for part in shapely.get_parts(plan.full):
        if part.geom_type == "Polygon" and not part.is_empty:
            fill = ground.space.add_hatch(color=256, dxfattribs={"layer": layers.WALL_FILL.name})
            for number, ring in enumerate(rings_of(part)):
                # 1 marks an outer boundary, 16 the outermost; holes lie within and take turns with it.
                fill.paths.add_polyline_path([ground.at(corner) for corner in ring], flags=1 if number == 0 else 16)
    for layer, area in ((layers.WALL, plan.full), (layers.WALL_LOW, plan.low)):
        for ring in rings_of(area):
            ground.outline(layer, ring)
    for wall in storey.level.walls:
        height = wall.height if wall.height is not None else storey.level.ceiling
        ground.straight(
            layers.WALL_CENTRE,
            wall.a,
            wall.b,
            wall=wall.id,
            thickness=length_text(wall.thickness, storey.units),
            height=length_text(height, storey.units),
        )


def rings_of(area: BaseGeometry) -> Iterator[Ring]:
    """The outer rings of an area's polygons, each before its holes."""
    for part in shapely.get_parts(area):
        if part.geom_type == "Polygon" and not part.is_empty:
            for ring in (part.exterior, *part.interiors):
                yield shapely.get_coordinates(ring)[:-1].tolist()


def _opening(document: Drawing, ground: Ground, storey: Storey, opening: Opening, answers: PlanAnswers) -> None:
    wall = storey.level.wall_by_id[opening.wall]
    layer = {"window": layers.GLAZING, "door": layers.DOOR, "cased": layers.CASED}[opening.kind]
    name, parts = _block_of(opening)
    add_opening_block(document, name, parts, LETTER * ground.scale)
    side = swing_side(storey.scene, opening)
    if name in (SWING, PAIR):
        at, scale = _hinged(wall, opening, side, ground.scale)
    else:
        at = wall.along(opening.offset)
        scale = (opening.width * ground.scale, wall.thickness * ground.scale)
    turn = math.degrees(math.atan2(wall.b[1] - wall.a[1], wall.b[0] - wall.a[0]))
    insert = ground.block(layer, name, at, turn=turn, scale=scale)
    contacts = [contact.id for contact in answers.house.contacts.get(opening.id, [])]
    values = (
        opening.id,
        _words_of(opening),
        length_text(opening.width, storey.units),
        length_text(opening.sill, storey.units),
        length_text(opening.head, storey.units),
        ", ".join(contacts) or "none",
    )
    for tag, value in zip(OPENING_TAGS, values, strict=True):
        ground.attribute(insert, tag, value, wall.along(opening.offset + opening.width / 2), LETTER)
    if name == OVERHEAD:
        ground.line(layers.OVERHEAD, _open_overhead(wall, opening, side))


def _words_of(opening: Opening) -> str:
    parts = [opening.kind, opening.leaf if opening.kind == "door" else "", "glazed" if opening.has_glass else ""]
    return ", ".join(filter(None, parts))


def _block_of(opening: Opening) -> tuple[str, int]:
    """The block of an opening, and how many lites or panels it has."""
    if opening.kind == "cased":
        return CASED, 1
    if opening.kind == "window" or opening.leaf == "fixed":
        return window_block(opening.panes), opening.panes
    if opening.leaf == "slide":
        panels = max(2, opening.panes)
        return slide_block(panels), panels
    if opening.leaf == "overhead":
        return OVERHEAD, 1
    return (PAIR if opening.width >= PAIR_FROM else SWING), 1


def _hinged(
    wall: Wall, opening: Opening, side: int, per_foot: float
) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where a swinging door's block goes, on the face that it opens over, and its scales, negative where mirrored."""
    far = opening.hinge == "b" and opening.width < PAIR_FROM
    x, y = wall.along(opening.end if far else opening.offset)
    ux, uy = (wall.b[0] - wall.a[0]) / wall.length, (wall.b[1] - wall.a[1]) / wall.length
    aside = side * wall.thickness / 2
    width = opening.width * per_foot
    return (x - uy * aside, y + ux * aside), (-width if far else width, side * width)


def _open_overhead(wall: Wall, opening: Opening, side: int) -> Ring:
    (ax, ay), (bx, by) = wall.along(opening.offset), wall.along(opening.end)
    nx, ny = -(by - ay) / opening.width * side, (bx - ax) / opening.width * side
    near, far = wall.thickness / 2, _OVERHEAD_REACH
    return [
        (ax + nx * near, ay + ny * near),
        (ax + nx * far, ay + ny * far),
        (bx + nx * far, by + ny * far),
        (bx + nx * near, by + ny * near),
    ]


def _rooms(ground: Ground, storey: Storey, answers: PlanAnswers) -> None:
    for room in answers.of_level("rooms", storey.level.id):
        for ring in room["outline"]:
            ground.outline(layers.ROOM, ring, room=room["id"])


def _fixtures(ground: Ground, storey: Storey, plan: WallPlan) -> None:
    for outline in bed_outlines(storey.level, plan.closed):
        ground.outline(layers.FURNITURE, outline)
    for fixture in storey.level.fixtures:
        if fixture.polygon is not None:
            top = fixture.top if fixture.top is not None else storey.level.ceiling
            ground.outline(layers.OBSTRUCTION, fixture.polygon, fixture=fixture.id, top=length_text(top, storey.units))
            draw_obstruction_name(ground, fixture.label, f"{drawn_length(top, storey.units)} high", fixture.polygon)
        elif fixture.at is not None and fixture.kind in FIXTURES:
            ground.block(layers.FIXTURE, fixture_block(fixture.kind), fixture.at)
