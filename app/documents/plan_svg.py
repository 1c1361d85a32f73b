"""The plan of one level as an SVG file of its own, at true scale: opened, printed or placed, it measures what it says.

It carries its legend, scale bar and north, so that it can be read apart from the set; text stays text.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

import svgwrite

from app.documents.plan_answers import CONFIDENTIAL, Edition, PlanAnswers
from app.drawing.floor_plan import LevelDrawing
from app.drawing.house.dimensions import FAR_SIDES, NEAR_SIDES
from app.drawing.lettering import FONTS, lettered, wrapped
from app.drawing.maker import as_text
from app.drawing.palette import PAPER
from app.drawing.sheets.crew.cable_plans import cable_drawings
from app.drawing.sheets.crew.device_plans import device_drawings
from app.drawing.sheets.homeowner.proof_plans import proof_drawings
from app.drawing.sheets.legend import draw_legend, legend_entries, legend_height
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import Job
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scale_bar import north_arrow, scale_bar
from app.drawing.sheets.paper.scales import SCALES, USUAL, Scale
from app.drawing.sheets.plan_sheets import sizes_at
from app.drawing.view import View

CAUTION = "Verify on site. Local codes govern; smoke and CO alarms are located by others."
_MARGIN, _GAP = 6.0, 6.0  # mm
_LEGEND = 58.0  # mm: width of the legend's column
_HEAD, _FOOT = 15.0, 19.0  # mm above and below the plan
_NORTH = 4.6  # mm
_WIDEST = 2000.0  # mm: a larger plan takes a smaller scale unless one is asked for
_MM_PER_INCH = 25.4


PLANS: Mapping[str, tuple[str, Callable[[Order], list[LevelDrawing]]]] = {
    "proof": ("Coverage of glass and floor", proof_drawings),
    "devices": ("Devices with heights and mounts", device_drawings),
    "cable": ("Cable plan", cable_drawings),
}


def level_drawings(answers: PlanAnswers, shows: str) -> list[LevelDrawing]:
    """One drawing a level, as the printed sets draw it; ``shows`` is a key of ``PLANS``."""
    # A drawing asks nothing of the paper and the title block that an order for sheets names.
    order = Order(answers.house, answers.check, PAPERS["letter"], None, Job(answers.plan.name, "", "", "", "", ""))
    return PLANS[shows][1](order)


def plan_svg(
    answers: PlanAnswers, edition: Edition, level: str, shows: str = "proof", scale: str | None = None
) -> bytes:
    """The plan of a level; ``shows`` is a key of ``PLANS``, ``scale`` one of ``SCALES`` or None for the usual.

    Raises ``KeyError`` where there is no such level, plan or scale.
    """
    storey, words = answers.storey(level), PLANS[shows][0]
    drawing = next(one for one in level_drawings(answers, shows) if one.scene.level is storey.level)
    chosen = _usual_scale(drawing) if scale is None else SCALES[scale]
    west, south, east, north = drawing.bounds
    k = chosen.mm_per_foot
    wide = max((east - west) * k + NEAR_SIDES + FAR_SIDES, 90.0)
    entries = legend_entries(drawing, 1.7, k)
    high = max((north - south) * k + NEAR_SIDES + FAR_SIDES, legend_height(entries, _LEGEND, 1.0) + 2)
    size = (2 * _MARGIN + wide + _GAP + _LEGEND, 2 * _MARGIN + _HEAD + high + _FOOT)
    left, top = _MARGIN, _MARGIN + _HEAD
    view = View(k, left + NEAR_SIDES - west * k, top + FAR_SIDES + north * k)
    page = _page(size, answers.units)
    title = f"{answers.plan.name}: {storey.level.name}"
    page.set_desc(title=f"{title}, {words}", desc=f"{edition.words}. {CONFIDENTIAL}. {CAUTION}")
    page.add(page.rect((0, 0), size, fill=PAPER))
    for line in _head(title, f"{words} · {chosen.words} · {edition.words}", size[0]):
        page.add(line)
    page.add(drawing.draw(view, (left, top, left + wide, top + high), sizes_at(chosen, 1.0)))
    page.add(draw_legend(entries, (left + wide + _GAP, top), _LEGEND, high, 1.0))
    for part in _foot(chosen, answers.units, size, wide):
        page.add(part)
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + as_text(page).encode()


def _usual_scale(drawing: LevelDrawing) -> Scale:
    """The largest usual scale, unless the drawing were wider than any paper."""
    west, south, east, north = drawing.bounds
    largest = max(east - west, north - south)
    usual = USUAL[drawing.units]
    return next((scale for scale in usual if largest * scale.mm_per_foot <= _WIDEST), usual[-1])


def _page(size: tuple[float, float], units: str) -> Any:
    """A page in millimetres of user units; its size is said in inches or millimetres."""
    in_unit, unit = (1.0, "mm") if units == "metric" else (_MM_PER_INCH, "in")
    wide, high = (round(length, 4) for length in size)
    page = svgwrite.Drawing(size=(f"{wide / in_unit:.5f}{unit}", f"{high / in_unit:.5f}{unit}"), debug=False)
    page.attribs.update({"viewBox": f"0 0 {wide:g} {high:g}", "font-family": FONTS})
    return page


def _head(title: str, below: str, wide: float) -> Iterator[Any]:
    room = wide - 2 * _MARGIN
    yield lettered(wrapped(title, 4.6, room, bold=True)[0], (_MARGIN, _MARGIN + 4.4), 4.6, bold=True)
    yield lettered(wrapped(below, 2.8, room)[0], (_MARGIN, _MARGIN + 9.0), 2.8)


def _foot(scale: Scale, units: str, size: tuple[float, float], wide: float) -> Iterator[Any]:
    top = size[1] - _MARGIN - _FOOT
    yield scale_bar(scale, units, (_MARGIN, top + 4.0), min(wide - 24.0, 110.0), 2.3)
    yield north_arrow((_MARGIN + wide - _NORTH, top + _NORTH + 3.0), _NORTH, 3.0)
    yield lettered(CONFIDENTIAL.upper(), (_MARGIN, top + 14.0), 2.6, bold=True)
    yield lettered(wrapped(CAUTION, 2.4, size[0] - 2 * _MARGIN)[0], (_MARGIN, top + 18.0), 2.4)
