"""An IFC building model ready to be chosen from: its storeys and what stands on them, and the plan that choices give.

Reading is ifcopenshell's, which comes with the extra ``[ifc]``; a model tells its own unit and heights.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from statistics import median
from typing import Any

from app.intake.choices import Choices
from app.intake.house import level_from, lowest_corner, plan_of
from app.intake.ifc.library import Building, open_model
from app.intake.ifc.openings import openings_of, set_in_wall
from app.intake.ifc.spaces import Space, spaces_on
from app.intake.ifc.walls import ModelWall, wall_of
from app.intake.refused import DrawingRefused
from app.intake.report import Report, Unread
from app.intake.strokes import Words
from app.intake.tracing.floor import Floor
from app.intake.tracing.joints import Piece, joined_walls
from app.intake.tracing.openings import Found
from app.intake.wording import told
from app.plan.model import Plan

_MOST_WALLS = 5_000
_MOST_STOREYS = 20
_USUAL_CEILING = (6.0, 40.0)  # ft
_HALF = 1.0  # ft: a wall that much lower than the ceiling is a half wall
_COUNTED = (("walls", "IfcWall"), ("doors", "IfcDoor"), ("windows", "IfcWindow"), ("spaces", "IfcSpace"))
_NOT_READ = {
    "IfcCurtainWall": "curtain walls are not read: draw them as walls with windows",
    "IfcColumn": "columns are not read: draw them as obstructions",
    "IfcStair": "stairs are not read: draw them as obstructions",
    "IfcRamp": "ramps are not read",
    "IfcFurnishingElement": "furniture is not read: draw what hides glass as obstructions",
    "IfcBuildingElementProxy": "a body without a kind is not read",
}
_NO_STOREYS = "The model has no storeys: everything in it is taken as one level, whose floor is the lowest wall's foot."
_OTHERWISE = "no wall, opening or room is made of this kind"
_PARTS = ("IfcOpeningElement", "IfcVirtualElement", "IfcAnnotation", "IfcGrid")


class IfcModel:
    """One IFC file, opened once; raises ``DrawingRefused`` where it cannot be used or the extra is missing."""

    def __init__(self, source: bytes) -> None:
        self._building: Building = open_model(source)
        if len(self._building.by_type("IfcWall")) > _MOST_WALLS:
            raise DrawingRefused(f"the IFC has over {_MOST_WALLS:,} walls; save one building of it", too_large=True)

    def survey(self) -> dict[str, Any]:
        """What there is to choose from: storeys with their counts, and what is not read."""
        storeys = [
            {
                "name": storey.name,
                "elevation": round(storey.elevation, 3),
                "counts": {words: count for words, kind in _COUNTED if (count := storey.count(kind))},
            }
            for storey in self._building.storeys
        ]
        units: dict[str, Any] = {"said": "m", "likely": None, "proposed": "m", "ask": False, "sizes_ft": {}}
        return {
            "kind": "ifc",
            "layers": [],
            "storeys": storeys,
            "units": units,
            "picture": "",
            "notes": [_NO_STOREYS] if self._building.is_without_storeys else [],
            "unread": self._other_things().lines(),
        }

    def converted(self, choices: Choices) -> tuple[Plan, Report]:
        """The plan of the chosen storeys, the lowest first, and the account of it; raises ``DrawingRefused``."""
        chosen = self._chosen(choices)
        unread, notes = self._other_things(), [_NO_STOREYS] if self._building.is_without_storeys else []
        floors, spaces, ceilings = [], [], []
        for storey in chosen:
            here = spaces_on(storey, self._building)
            floor, ceiling = self._floor(storey, here, choices, unread)
            floors.append(floor)
            spaces.append(here)
            ceilings.append(ceiling)
        corner = min((lowest_corner(floor) for floor in floors if floor.pieces), default=(0.0, 0.0))
        levels = []
        for number, (storey, floor, here, ceiling) in enumerate(zip(chosen, floors, spaces, ceilings, strict=True), 1):
            words = [Words("IfcSpace", space.at, space.name, 1.0) for space in here if space.name]
            own = replace(choices, level_name=storey.name, ceiling=ceiling)
            level, said = level_from(floor, words, own, number, corner)
            levels.append(level | {"elevation": round(storey.elevation - chosen[0].elevation, 4)})
            notes += [f"{storey.name}: {note}" for note in said]
            if floor.free_ends:
                ends = told(floor.free_ends, "wall end meets", "wall ends meet")
                notes.append(f"{storey.name}: {ends} no other wall: look at each.")
        plan = plan_of(levels, choices, self._building.is_metric, notes)
        return plan, Report("m" if self._building.is_metric else "ft", _size(plan), _counts(plan), notes, unread)

    def _chosen(self, choices: Choices) -> list[Any]:
        known = {storey.name for storey in self._building.storeys}
        for name in choices.storeys:
            if name not in known:
                raise DrawingRefused(f"the IFC has no storey {name[:60]!r}; it has {', '.join(sorted(known))[:300]}")
        chosen = [
            storey
            for storey in self._building.storeys
            if (storey.name in choices.storeys if choices.storeys else storey.count("IfcWall"))
        ]
        if not chosen:
            raise DrawingRefused("no storey of the IFC has walls; save it with the walls contained in their storeys")
        if len(chosen) > _MOST_STOREYS:
            raise DrawingRefused(f"{len(chosen)} storeys have walls; choose at most {_MOST_STOREYS}")
        return chosen

    def _floor(self, storey: Any, spaces: list[Space], choices: Choices, unread: Unread) -> tuple[Floor, float]:
        walls: list[ModelWall] = []
        for element in storey.of("IfcWall"):
            made = wall_of(element, self._building)
            walls += made
            if not made:
                unread.add(storey.name, element.is_a(), "has no body that a straight wall can be made of")
        ceiling = _ceiling(walls, spaces, storey.elevation, choices)
        used: set[int] = set()
        for wall in walls:
            if wall.top - storey.elevation < ceiling - _HALF:
                wall.run.height = max(wall.top - storey.elevation, 0.1)
            wall.run.openings = openings_of(wall, storey.elevation, self._building, used)
        for kind in ("IfcDoor", "IfcWindow"):
            for element in storey.of(kind):
                if element.id() in used:
                    continue
                if not set_in_wall(element, walls, storey.elevation, self._building):
                    unread.add(storey.name, kind, "fills no opening and lies in no wall that was read")
        pieces = [Piece(wall.run, wall.run.start, wall.run.end, wall.run.openings) for wall in walls]
        links, free_ends = joined_walls(pieces)
        return Floor(pieces, links, Found(), free_ends), ceiling

    def _other_things(self) -> Unread:
        unread, counts = Unread(), Counter[tuple[str, str]]()
        for element in self._building.by_type("IfcElement"):
            kind = element.is_a()
            if not kind.startswith(("IfcWall", "IfcDoor", "IfcWindow")) and not element.is_a("IfcFeatureElement"):
                if kind not in _PARTS:
                    counts[self._building.storey_name_of(element), kind] += 1
            elif self._building.storey_of(element) is None and not element.is_a("IfcFeatureElement"):
                unread.add("no storey", kind, "stands on no storey")
        for (storey, kind), count in counts.items():
            family = re.sub(r"(StandardCase|Flight|Type)$", "", kind)
            unread.add(storey, kind, _NOT_READ.get(family, _OTHERWISE), count)
        return unread


def _ceiling(walls: list[ModelWall], spaces: list[Space], elevation: float, choices: Choices) -> float:
    """The ceiling's height: the middle one of the spaces', else of the walls', else as chosen."""
    for heights in (
        [space.height for space in spaces if space.height is not None],
        [wall.top - elevation for wall in walls],
    ):
        usual = [height for height in heights if _USUAL_CEILING[0] <= height <= _USUAL_CEILING[1]]
        if usual:
            return median(usual)
    return choices.ceiling


def _counts(plan: Plan) -> dict[str, int]:
    kinds = Counter(opening.kind for level in plan.levels for opening in level.openings)
    read = {"levels": len(plan.levels), "walls": sum(len(level.walls) for level in plan.levels)}
    read |= {"doors": kinds["door"], "windows": kinds["window"], "cased openings": kinds["cased"]}
    return read | {"rooms": sum(len(level.rooms) for level in plan.levels)}


def _size(plan: Plan) -> tuple[float, float]:
    ends = [end for level in plan.levels for wall in level.walls for end in (wall.a, wall.b)]
    xs, ys = [x for x, _ in ends], [y for _, y in ends]
    return max(xs) - min(xs), max(ys) - min(ys)
