"""One level drawn as an architect's plan with its proof marked on it, in millimetres of paper at a scale.

Each part of it is drawn by a module of ``app.drawing.house``; here is the order in which they lie one over another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.board import Board, Box
from app.drawing.house.devices import draw_devices, place_symbols
from app.drawing.house.dimensions import draw_dimensions, strings_on_paper
from app.drawing.house.facades import Facade, facades_of
from app.drawing.house.fixtures import bed_outlines, draw_beds, draw_obstructions, draw_signs
from app.drawing.house.glass_tags import draw_tags
from app.drawing.house.half_walls import draw_half_wall_notes
from app.drawing.house.obstruction_names import draw_obstruction_names
from app.drawing.house.openings import draw_openings, swept_floor
from app.drawing.house.outline import building, outer_edges
from app.drawing.house.proof import draw_glass, draw_seen_floor, draw_watch_lines
from app.drawing.house.room_names import draw_room_names
from app.drawing.house.walls import WallPlan, draw_walls, wall_plan
from app.drawing.maker import SVG
from app.drawing.strokes import Strokes
from app.drawing.view import Spot, View
from app.geometry.bodies import wall_corners
from app.geometry.scene import LevelScene
from app.plan.model import Device

WORDS_FROM = 1.5  # mm a foot, 1:203

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
    def facades(self) -> list[Facade]:
        """The building's facades, which dimensions run along."""
        return facades_of(self.scene, self.area, outer_edges(self.area))

    @cached_property
    def bounds(self) -> Box:
        """West, south, east and north of everything drawn, in feet."""
        level = self.scene.level
        points = [device.at for device in level.devices]
        points += [fixture.at for fixture in level.fixtures if fixture.at is not None]
        points += [corner for fixture in level.fixtures for corner in fixture.polygon or ()]
        parts: list[BaseGeometry] = [shapely.multipoints(points)] if points else []
        if not self.area.is_empty:
            ends = [facade.at(mark) for facade in self.facades for mark in (facade.low, facade.high)]
            parts.append(self.area)
            if ends:  # a level of stubs has none
                parts.append(shapely.multipoints(ends))
        if not parts:
            return (0.0, 0.0, 20.0, 20.0)
        west, south, east, north = shapely.total_bounds(parts).tolist()
        return (west, south, east, north)

    def own_legend(self) -> Iterable[tuple[str, Callable[[Spot], Any]]]:
        """What a drawing with more on it adds to the legend."""
        return ()

    def own_marks(self, board: Board, view: View, limits: Box, sizes: Sizes) -> Iterable[Any]:
        """Marks of a drawing with more on it, placed on the board before words are."""
        return ()

    def draw(self, view: View, limits: Box, sizes: Sizes) -> Any:
        """The level as a group, words only within ``limits`` (left, top, right, bottom in mm)."""
        group = SVG.g(class_="floor-plan")
        for name, strokes in self._lines(view, limits).items():
            group.add(strokes.group(name))
        if legible(view.scale):
            for part in self._signs_and_words(view, limits, sizes):
                group.add(part)
        group.add(draw_dimensions(self.facades, view, self.units, sizes.dimension))
        return group

    def _lines(self, view: View, limits: Box) -> dict[str, Strokes]:
        """What is drawn in lines: beneath the walls, and the walls with what stands in them."""
        level, beneath, walls = self.scene.level, Strokes(), Strokes()
        draw_seen_floor(beneath, self.motions, view)
        draw_obstructions(beneath, level, view, limits)
        draw_beds(beneath, level, self.walls.closed, view)
        draw_watch_lines(beneath, self.scene, self.panes, view)
        draw_walls(walls, self.walls, view)
        draw_openings(walls, self.scene, view)
        draw_glass(walls, self.scene, self._panes_within(view, limits), view)
        return {"beneath": beneath, "walls": walls}

    def _signs_and_words(self, view: View, limits: Box, sizes: Sizes) -> Iterator[Any]:
        """Signs, symbols and words, each placed clear of those before it: what must stand where it is comes first."""
        level, signs = self.scene.level, Strokes()
        bodies = [self._on_paper(shapely.Polygon(wall_corners(wall)), view) for wall in level.walls]
        board = Board(np.array(bodies, dtype=object), limits)
        spots = draw_signs(signs, level, view, sizes.sign)
        for x, y in spots:
            board.take((x - 1.4 * sizes.sign, y - 1.1 * sizes.sign, x + 1.4 * sizes.sign, y + 1.1 * sizes.sign))
        for box in strings_on_paper(self.facades, view, sizes.dimension):
            board.take(box)
        yield signs.group("signs")
        devices = [device for device in level.devices if _within(view.spot(device.at), limits)]
        places = place_symbols(devices, spots, self._homes(devices, view), board, view, sizes.symbol)
        yield from self.own_marks(board, view, limits, sizes)
        tags = draw_tags(self.scene, self._panes_within(view, limits), board, view, sizes.label)
        marks = {room.id: room.at for room in level.rooms if _within(view.spot(room.at), limits)}
        rooms = [room for room in self.rooms if room["id"] in marks]
        in_use = self._on_paper(self.in_use, view)
        yield draw_room_names(rooms, marks, in_use, board, view, self.units, sizes.room)
        yield draw_devices(devices, self.names, places, board, view, sizes.symbol, sizes.label)
        yield tags
        yield draw_half_wall_notes(level, board, view, self.units, sizes.label)
        yield draw_obstruction_names(level, board, view, sizes.label)

    def _homes(self, devices: Sequence[Device], view: View) -> dict[str, BaseGeometry]:
        """The floor on paper of the room that each device belongs to."""
        outlines = {room["id"]: room["outline"] for room in self.rooms if room["outline"]}
        homes = {}
        for device in devices:
            outline = outlines.get(self.rooms_of_devices.get(device.id, ""))
            if outline:
                homes[device.id] = self._on_paper(shapely.union_all([shapely.Polygon(ring) for ring in outline]), view)
        return homes

    @cached_property
    def in_use(self) -> BaseGeometry:
        """Floor under furniture, beds and the swing of doors, where a room's name is less easily read."""
        level = self.scene.level
        parts: list[BaseGeometry] = [shapely.Polygon(fixture.polygon) for fixture in level.fixtures if fixture.polygon]
        parts += [shapely.Polygon(outline) for outline in bed_outlines(level, self.walls.closed)]
        return shapely.union_all([*parts, *swept_floor(self.scene)])

    def _on_paper(self, area: BaseGeometry, view: View) -> BaseGeometry:
        return shapely.transform(area, lambda points: points * [view.scale, -view.scale] + [view.left, view.base])

    def _panes_within(self, view: View, limits: Box) -> Answers:
        return [pane for pane in self.panes if any(_within(view.spot(end), limits) for end in pane["segment"])]


def legible(scale: float) -> bool:
    """Whether signs and words are drawn at a scale in mm a foot: on a site's plan they would cover the houses."""
    return scale >= WORDS_FROM


def _within(spot: Sequence[float], limits: Box) -> bool:
    return limits[0] <= spot[0] <= limits[2] and limits[1] <= spot[1] <= limits[3]
