"""A plan as one DXF drawing: every level at real size in model space, the others laid out east of the first.

Each level has a layout of its own that is ready to plot. The first level keeps the plan's own coordinates; how far each
other is moved stands in the drawing's custom properties and under its title. Inches in an imperial plan, millimetres
in a metric one.
"""

from __future__ import annotations

import io
import math
from collections.abc import Sequence

from ezdxf import colors
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.units import IN, MM

from app.documents.dxf import layers
from app.documents.dxf.blocks import SYMBOL, add_symbol_blocks, text_style
from app.documents.dxf.ground import APPLICATION, PER_FOOT, Ground
from app.documents.dxf.layers import Layer, layers_of
from app.documents.dxf.layouts import add_layout
from app.documents.dxf.names import draw_room_names
from app.documents.dxf.security import draw_security, kinds_in_use
from app.documents.dxf.shell import draw_shell
from app.documents.plan_answers import CONFIDENTIAL, Edition, PlanAnswers
from app.plan.measures import length_text
from app.plan.model import Level
from app.review.house import Storey

VERSION = "R2010"  # old enough for every program in use, new enough for letters of any script
BETWEEN = 35.0  # ft between levels, at the least: reaches go past the walls
_TITLE, _LINE = 0.75, 0.4  # ft: heights of lettering
_LINE_SCALE = 0.6  # ft for each unit of a linetype's pattern


def plan_dxf(answers: PlanAnswers, edition: Edition, level: str | None = None) -> bytes:
    """The drawing of all levels, or of one at its own coordinates; raises ``KeyError`` where there is no such level."""
    storeys = list(answers.house) if level is None else [answers.storey(level)]
    units = answers.units
    document = _document(answers, units)
    for storey, shift in zip(storeys, shifts([storey.level for storey in storeys]), strict=True):
        ground = Ground(document.modelspace(), PER_FOOT[units], (shift, 0.0))
        draw_shell(document, ground, storey, answers)
        board = draw_security(ground, storey, answers)
        draw_room_names(ground, storey, answers, board)
        _title(ground, storey, answers, edition)
        add_layout(document, ground, storey, extent(storey.level), answers, edition)
        moved = length_text(shift, units)
        document.header.custom_vars.append(f"Level {storey.level.id} moved east by", moved)
    for key, words in (("Plan", answers.plan.name), ("Edition", edition.words), ("Caution", CONFIDENTIAL)):
        document.header.custom_vars.append(key, " ".join(words.split()))
    document.layouts.delete("Layout1")  # the one that every new drawing has
    _zoomed(document)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode(document.output_encoding, "dxfreplace")


def shifts(levels: Sequence[Level]) -> list[float]:
    """How many feet east each level is laid: whole tens of feet, the first where it is."""
    moved: list[float] = []
    edge = -math.inf
    for level in levels:
        west, _, east, _ = extent(level)
        shift = 0.0 if not moved else max(0.0, math.ceil((edge + BETWEEN - west) / 10) * 10)
        moved.append(shift)
        edge = max(edge, east + shift)
    return moved


def extent(level: Level) -> tuple[float, float, float, float]:
    """West, south, east and north of what a level holds, in feet."""
    points = [end for wall in level.walls for end in (wall.a, wall.b)] + [device.at for device in level.devices]
    points += [corner for fixture in level.fixtures for corner in fixture.polygon or ()]
    xs, ys = [x for x, _ in points] or [0.0], [y for _, y in points] or [0.0]
    return min(xs), min(ys), max(xs), max(ys)


def _document(answers: PlanAnswers, units: str) -> Drawing:
    document = new(VERSION, setup=["linetypes"])
    metric = units == "metric"
    document.units = MM if metric else IN
    header = document.header
    header["$MEASUREMENT"] = 1 if metric else 0
    header["$LUNITS"], header["$LUPREC"] = (2, 0) if metric else (4, 4)
    header["$LTSCALE"] = PER_FOOT[units] * _LINE_SCALE
    header["$PSLTSCALE"] = 0  # a line's pattern is of the building, in a viewport too
    header["$LWDISPLAY"] = 1
    document.appids.add(APPLICATION)
    text_style(document)
    cables = sorted({pull["cable"] for pull in answers.wiring["pulls"]})
    for layer in layers_of(kinds_in_use(answers), cables):
        _add(document, layer)
    document.layers.get(layers.WINDOW.name).dxf.plot = 0
    add_symbol_blocks(document, PER_FOOT[units])
    return document


def _add(document: Drawing, layer: Layer) -> None:
    entry = document.layers.add(layer.name, linetype=layer.line, lineweight=layer.weight)
    if layer.colour.strip("#0"):  # black is drawn as each program's own ink, also on a dark ground
        entry.rgb = colors.RGB.from_hex(layer.colour)
    entry.dxf.plot = int(layer.on)
    if not layer.on:
        entry.off()
    entry.description = layer.words


def _title(ground: Ground, storey: Storey, answers: PlanAnswers, edition: Edition) -> None:
    """Beneath a level: its name, the job, the units, and what is to be said of every such drawing."""
    west, south, _, _ = extent(storey.level)
    y = south - 5.0
    ground.text(layers.TITLE, f"{storey.level.name}: {answers.plan.name}", (west, y), _TITLE)
    unit = "millimetres" if answers.units == "metric" else "inches"
    east = ground.shift[0]
    moved = f"; this level is drawn {length_text(east, answers.units)} east of its place" if east else ""
    lines = (
        f"{edition.words}. Real size in {unit}; heights above finished floor{moved}.",
        f"{CONFIDENTIAL}. Verify on site; local codes govern; smoke and CO alarms are located by others.",
    )
    for number, line in enumerate(lines, start=1):
        ground.text(layers.TITLE, line, (west, y - 1.0 * number), _LINE)


def _zoomed(document: Drawing) -> None:
    """The view that the drawing opens with: all of it."""
    points = [
        point
        for entity in document.modelspace().query("LWPOLYLINE LINE")
        for point in (
            [(x, y) for x, y, *_ in entity.get_points()]  # type: ignore[attr-defined]
            if entity.dxftype() == "LWPOLYLINE"
            else [(entity.dxf.start.x, entity.dxf.start.y), (entity.dxf.end.x, entity.dxf.end.y)]
        )
    ]
    if not points:
        return
    xs, ys = [x for x, _ in points], [y for _, y in points]
    margin = SYMBOL * 60
    document.set_modelspace_vport(
        height=(max(ys) - min(ys)) + max(margin, 0.3 * (max(xs) - min(xs))),
        center=((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2),
    )
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (min(xs), min(ys), 0), (max(xs), max(ys), 0)
