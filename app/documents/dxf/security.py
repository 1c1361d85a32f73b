"""What security adds to a level: devices with their labels, panes by how they stand, reaches, home runs and risers."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

import numpy as np
import shapely

from app.documents.dxf import layers
from app.documents.dxf.blocks import DEVICE_TAGS, LETTER, RISER, SYMBOL, device_block
from app.documents.dxf.ground import Ground
from app.documents.plan_answers import PlanAnswers
from app.drawing.course import Course
from app.drawing.house.board import Board, Box, around
from app.drawing.leaders import Glass
from app.drawing.lettering import text_width
from app.drawing.overlay import reach_in_plan
from app.drawing.pane_marks import STATUS_WORDS
from app.geometry.bodies import wall_corners
from app.plan.devices import DEVICE_KIND, cable_of, height_of, range_of
from app.plan.measures import length_text
from app.plan.model import Device
from app.review.house import Storey
from app.wiring.routes.run_heights import run_height

_GLASS = 0.12  # ft: width of a pane's line
_FAR = 1e5  # ft
_SAME = 1e-6  # ft

Spots = Sequence[Sequence[float]]


def draw_security(ground: Ground, storey: Storey, answers: PlanAnswers) -> Board:
    """Devices, glass, reaches, runs and risers of a level; gives back the board that the words stand on."""
    _reaches(ground, storey, answers)
    _runs(ground, storey, answers)
    _panes(ground, storey, answers)
    for riser in answers.plan.risers:
        if storey.level.id in (riser.from_level, riser.to_level):
            insert = ground.block(layers.RISER, RISER, riser.at)
            ground.attribute(insert, "ID", riser.id, riser.at, LETTER)
    board = _board(storey)
    _devices(ground, storey, answers, board)
    return board


def _devices(ground: Ground, storey: Storey, answers: PlanAnswers, board: Board) -> None:
    """Every device as a block; its label where it lies over nothing, with a line to it from afar."""
    for device in storey.level.devices:
        kind, room = DEVICE_KIND[device.kind], storey.room_of_device[device.id]
        layer = layers.device_layer(device.kind, kind.name)
        turned = kind.faces and device.facing is not None
        turn = (device.facing or 0.0) % 360 if turned else 0.0
        insert = ground.block(layer, device_block(device.kind, turned), device.at, turn=turn)
        label = storey.name(device.id)
        box = _label_box(board, device, label)
        place = (box[0], -box[3] + LETTER * 0.125)
        values = (
            label,
            device.id,
            kind.name,
            length_text(height_of(device, storey.level, storey.practice), storey.units) + " AFF",
            cable_of(device, storey.practice) or ("by others" if kind.located_by_others else "none"),
            answers.room_name(room.id if room else None) or "none",
            device.note or "",
        )
        for tag, value in zip(DEVICE_TAGS, values, strict=True):
            ground.attribute(insert, tag, value, place, LETTER, seen=tag == "LABEL")
        nearest = (min(max(device.at[0], box[0]), box[2]), min(max(device.at[1], -box[3]), -box[1]))
        if math.dist(nearest, device.at) > 2 * SYMBOL:
            ground.straight(layer, device.at, nearest)


def _board(storey: Storey) -> Board:
    """A board of the level, y downward, with walls and symbols on it."""
    bodies = [shapely.Polygon(wall_corners(wall) * [1, -1]) for wall in storey.level.walls]
    board = Board(np.array(bodies, dtype=object), (-_FAR, -_FAR, _FAR, _FAR))
    spots = [device.at for device in storey.level.devices]
    spots += [fixture.at for fixture in storey.level.fixtures if fixture.at is not None]
    for x, y in spots:
        board.take((x - SYMBOL, -y - SYMBOL, x + SYMBOL, -y + SYMBOL))
    return board


def _label_box(board: Board, device: Device, label: str) -> Box:
    """Where a device's label goes, in feet with y downward as the board has it."""
    wide, high = text_width(label, LETTER * 1.45), LETTER * 1.25
    boxes = around((device.at[0], -device.at[1]), SYMBOL * 1.25, wide, high)
    return boxes[board.place(boxes) or 0]


def _panes(ground: Ground, storey: Storey, answers: PlanAnswers) -> None:
    """Each pane on the layer of its state, what is missed on one of its own, and a word beside what is not covered."""
    middle = shapely.union_all(list(storey.scene.faces.floors)).centroid
    for pane in answers.of_level("panes", storey.level.id):
        course = Course.of(pane["segment"])
        ground.line(layers.GLASS[pane["status"]], pane["segment"], _GLASS, pane=pane["id"], state=pane["status"])
        for low, high in pane["stretches"]:
            ground.line(layers.GLASS_GAP, (course.at(low), course.at(high)), pane=pane["id"])
        if pane["status"] != "covered":
            # The word stands outdoors of the pane, where no device is.
            side = 1.0 if middle.is_empty or course.aside((middle.x, middle.y)) < 0 else -1.0
            share = f" {pane['best']['fraction']:.0%}" if pane["best"] else ""
            words, height = f"{pane['id']}: {STATUS_WORDS[pane['status']]}{share}", LETTER * 0.8
            x, y = course.at(course.length / 2, side * 0.9)
            # Beside an upright pane the middle of the word is moved until its end clears the wall.
            x -= course.along[1] * side * text_width(words, height * 1.45) / 2
            ground.text(layers.GLASS[pane["status"]], words, (x, y), height, middle=True)


def _reaches(ground: Ground, storey: Storey, answers: PlanAnswers) -> None:
    glass = Glass.of(answers.of_level("panes", storey.level.id))
    for device in storey.devices("glass_break"):
        height = height_of(device, storey.level, storey.practice)
        radius, _ = reach_in_plan(device, range_of(device, storey.practice), height, glass)
        if radius > 0:
            ground.circle(layers.HEARING, device.at, radius, device=device.id)
    for motion in answers.of_level("motions", storey.level.id):
        for ring in motion["outline"]:
            ground.outline(layers.SEEN, ring, device=motion["id"])


def _runs(ground: Ground, storey: Storey, answers: PlanAnswers) -> None:
    for pull in answers.wiring["pulls"]:
        for points in runs_on_level(pull["route"] or (), storey, answers):
            layer, cable = layers.cable_layer(pull["cable"]), pull["cable"]
            ground.line(layer, points, pull=pull["label"], cable=cable, cut_ft=pull["cut_ft"])


def runs_on_level(route: Spots, storey: Storey, answers: PlanAnswers) -> Iterator[list[tuple[float, float]]]:
    """The parts of a home run that lie on a level, in plan: what runs straight up or down shows as nothing."""
    points: list[tuple[float, float]] = []
    for here, there in pairwise(route):
        if math.dist(here[:2], there[:2]) <= _SAME:
            continue
        if _level_of(max(here[2], there[2]), answers) != storey.level.id:
            if points:
                yield points
            points = []
            continue
        points = points or [(here[0], here[1])]
        points.append((there[0], there[1]))
    if points:
        yield points


def _level_of(z: float, answers: PlanAnswers) -> str:
    """The level at whose run height a stretch lies, else the highest whose floor is beneath it."""
    levels = answers.plan.levels
    for level in levels:
        if abs(run_height(level, answers.house.practice) - z) <= 1e-4:
            return level.id
    rising = sorted(levels, key=lambda level: level.elevation)
    beneath = [level for level in rising if level.elevation <= z + _SAME]
    return (beneath[-1] if beneath else rising[0]).id


def kinds_in_use(answers: PlanAnswers) -> Mapping[str, Any]:
    """The kinds of device that the plan has, with their names."""
    used = {device.kind for storey in answers.house for device in storey.level.devices}
    return {kind: DEVICE_KIND[kind].name for kind in DEVICE_KIND if kind in used}
