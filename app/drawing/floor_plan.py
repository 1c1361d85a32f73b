"""One level drawn as an architect's plan with its proof marked on it, in millimetres of paper at a scale.

Each part of it is drawn by a module of ``app.drawing.house``; here is the order in which they lie one over another.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.board import Board, Box
from app.drawing.house.devices import draw_devices, place_symbols
from app.drawing.house.dimensions import draw_dimensions
from app.drawing.house.fixtures import draw_beds, draw_obstructions, draw_signs
from app.drawing.house.half_walls import draw_half_wall_notes
from app.drawing.house.obstruction_names import draw_obstruction_names
from app.drawing.house.openings import draw_openings
from app.drawing.house.outline import Edge, building, main_direction, outer_edges, square_bounds
from app.drawing.house.proof import draw_glass, draw_seen_floor, draw_tags, draw_watch_lines
from app.drawing.house.room_names import draw_room_names
from app.drawing.house.walls import WallPlan, draw_walls, wall_plan
from app.drawing.maker import SVG
from app.drawing.strokes import Strokes
from app.drawing.view import View
from app.geometry.scene import LevelScene

Answers = Sequence[Mapping[str, Any]]


@dataclass(frozen=True)
class Sizes:
    """Sizes on paper in mm: fonts of rooms, devices and tags, dimensions; half widths of symbols and signs."""

    room: float = 3.1
    label: float = 2.35
    dimension: float = 2.35
    symbol: float = 1.9
    sign: float = 1.25

    def times(self, factor: float) -> Sizes:
        """The same for a larger sheet."""
        return Sizes(
            self.room * factor, self.label * factor, self.dimension * factor, self.symbol * factor, self.sign * factor
        )


@dataclass(frozen=True)
class LevelDrawing:
    """A level ready to be drawn at any scale: its scene and the check's answers for it."""

    scene: LevelScene
    panes: Answers
    motions: Answers
    rooms: Answers
    names: Mapping[str, str]
    rooms_of_devices: Mapping[str, str]
    units: str

    @cached_property
    def walls(self) -> WallPlan:
        """The walls as they are cut in plan."""
        return wall_plan(self.scene.level)

    @cached_property
    def area(self) -> BaseGeometry:
        """What the building covers."""
        return building(self.scene, self.walls)

    @cached_property
    def edges(self) -> list[Edge]:
        """The building's outer sides."""
        return outer_edges(self.area)

    @cached_property
    def bounds(self) -> Box:
        """West, south, east and north of everything drawn, in feet."""
        level = self.scene.level
        points = [device.at for device in level.devices]
        points += [fixture.at for fixture in level.fixtures if fixture.at is not None]
        points += [corner for fixture in level.fixtures for corner in fixture.polygon or ()]
        parts: list[BaseGeometry] = [shapely.multipoints(points)] if points else []
        if not self.area.is_empty:
            parts += [self.area, square_bounds(self.area, main_direction(level.walls))]
        if not parts:
            return (0.0, 0.0, 20.0, 20.0)
        west, south, east, north = shapely.total_bounds(parts).tolist()
        return (west, south, east, north)

    def draw(self, view: View, limits: Box, sizes: Sizes) -> Any:
        """The level as a group, words only within ``limits`` (left, top, right, bottom in mm)."""
        level = self.scene.level
        solid = shapely.transform(
            self.walls.closed, lambda points: points * [view.scale, -view.scale] + [view.left, view.base]
        )
        board = Board(solid, limits)
        group = SVG.g(class_="floor-plan")
        beneath, above, signs = Strokes(), Strokes(), Strokes()
        draw_seen_floor(beneath, self.motions, view)
        draw_obstructions(beneath, level, view)
        draw_beds(beneath, level, self.walls.closed, view)
        draw_watch_lines(beneath, self.scene, self.panes, view)
        draw_walls(above, self.walls, view)
        draw_openings(above, self.scene, view)
        draw_glass(above, self.scene, self.panes, view)
        spots = draw_signs(signs, level, view, sizes.sign)
        for x, y in spots:
            board.take((x - 1.4 * sizes.sign, y - 1.1 * sizes.sign, x + 1.4 * sizes.sign, y + 1.1 * sizes.sign))
        for name, strokes in (("beneath", beneath), ("walls", above), ("signs", signs)):
            group.add(strokes.group(name))
        floors = {
            room["id"]: shapely.union_all(
                [shapely.Polygon([view.spot(corner) for corner in ring]) for ring in room["outline"]]
            )
            for room in self.rooms
            if room["outline"]
        }
        devices = [device for device in level.devices if _within(view.spot(device.at), limits)]
        homes = {device: floors[room] for device, room in self.rooms_of_devices.items() if room in floors}
        places = place_symbols(devices, spots, homes, board, view, sizes.symbol)
        tags = draw_tags(self.scene, self._panes_within(view, limits), board, view, sizes.label)
        marks = {room.id: room.at for room in level.rooms if _within(view.spot(room.at), limits)}
        rooms = [room for room in self.rooms if room["id"] in marks]
        furniture = shapely.union_all(
            [
                shapely.Polygon([view.spot(corner) for corner in fixture.polygon])
                for fixture in level.fixtures
                if fixture.polygon is not None
            ]
        )
        group.add(draw_room_names(rooms, marks, furniture, board, view, self.units, sizes.room))
        group.add(draw_devices(devices, self.names, places, board, view, sizes.symbol, sizes.label))
        group.add(tags)
        group.add(draw_half_wall_notes(level, board, view, self.units, sizes.label))
        group.add(draw_obstruction_names(level, board, view, sizes.label))
        group.add(draw_dimensions(self.scene, self.edges, view, self.units, sizes.dimension))
        return group

    def _panes_within(self, view: View, limits: Box) -> Answers:
        return [pane for pane in self.panes if _within(view.spot(pane["segment"][0]), limits)]


def _within(spot: Sequence[float], limits: Box) -> bool:
    return limits[0] <= spot[0] <= limits[2] and limits[1] <= spot[1] <= limits[3]
