"""The sets that can be printed: which sheets go to whom, in which order.

The homeowner's set is the marked-up plan to approve; the crew's set is what a crew wires from.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from app.drawing.floor_plan import LevelDrawing
from app.drawing.sheets.columns import column_sheets
from app.drawing.sheets.crew.cable_plans import CableDrawing
from app.drawing.sheets.crew.cable_schedules import cable_contents
from app.drawing.sheets.crew.labels import label_contents
from app.drawing.sheets.frame import Sheet
from app.drawing.sheets.homeowner.notes import schedule_sheets
from app.drawing.sheets.papers import Paper
from app.drawing.sheets.plan_sheets import common_scale, plan_sheets
from app.drawing.sheets.scales import Scale
from app.review.house import House, Storey
from app.wiring.answer import wiring_answer

HOMEOWNER = "homeowner"
CREW = "crew"

Answer = Mapping[str, Any]


@dataclass(frozen=True)
class PrintedSet:
    """``words`` name the set; ``compile`` gives its sheets for a house, its check, a paper and a scale (None fits)."""

    words: str
    compile: Callable[[House, Answer, Paper, Scale | None], list[Sheet]]


def homeowner_set(house: House, check: Answer, paper: Paper, scale: Scale | None) -> list[Sheet]:
    """Each level's plan with its proof, then notes and schedules."""
    drawings = [_proof_drawing(storey, check) for storey in house]
    plans = _plans(drawings, paper, scale, 101, "Security plan")
    return plans + schedule_sheets(house, check, paper, 601)


def crew_set(house: House, check: Answer, paper: Paper, scale: Scale | None) -> list[Sheet]:
    """Each level's cable plan, then pulls, boxes, rough-in, zones and power."""
    wiring, units = wiring_answer(house.wiring), house.plan.units
    drawings = [_cable_drawing(storey, check, wiring) for storey in house]
    plans = _plans(drawings, paper, scale, 151, "Cable plan")
    title = "Cable, rough-in, zones and power"
    tables = column_sheets(lambda setter: cable_contents(wiring, setter, units), paper, 651, title)
    labels = column_sheets(lambda setter: label_contents(wiring, setter), paper, 651 + len(tables), "Cable labels")
    return plans + tables + (labels if wiring["pulls"] else [])


SETS: Mapping[str, PrintedSet] = {
    HOMEOWNER: PrintedSet("for the homeowner", homeowner_set),
    CREW: PrintedSet("for the crew", crew_set),
}


def _plans(drawings: list[LevelDrawing], paper: Paper, scale: Scale | None, first: int, title: str) -> list[Sheet]:
    """The plan sheets of all levels, at one scale."""
    in_common = scale or common_scale(drawings, paper)
    sheets: list[Sheet] = []
    for drawing in drawings:
        sheets += plan_sheets(drawing, paper, in_common, first + len(sheets), len(drawings) > 1, title)
    return sheets


def _proof_drawing(storey: Storey, check: Answer) -> LevelDrawing:
    panes, motions, rooms = (_of_level(check[family], storey) for family in ("panes", "motions", "rooms"))
    return LevelDrawing(storey.scene, panes, motions, rooms, storey.names, _rooms_of(storey), storey.units)


def _cable_drawing(storey: Storey, check: Answer, wiring: Answer) -> LevelDrawing:
    """Without the marks of the proof, which would hide the runs."""
    rooms, bundles = _of_level(check["rooms"], storey), _of_level(wiring["bundles"], storey)
    return CableDrawing(storey.scene, [], [], rooms, storey.names, _rooms_of(storey), storey.units, bundles)


def _of_level(answers: list[Answer], storey: Storey) -> list[Answer]:
    return [answer for answer in answers if answer["level"] == storey.level.id]


def _rooms_of(storey: Storey) -> dict[str, str]:
    return {device: room.id for device, room in storey.room_of_device.items() if room is not None}
