"""The plans of a share page: each level as proof and as cable, with a place to tap over every device and pane."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import svgwrite

from app.documents.plan_answers import PlanAnswers
from app.documents.plan_svg import PLANS, level_drawings
from app.drawing.course import Course
from app.drawing.floor_plan import LevelDrawing, Sizes
from app.drawing.house.dimensions import FAR_SIDES, NEAR_SIDES
from app.drawing.lettering import FONTS
from app.drawing.maker import SVG, as_text
from app.drawing.pane_marks import STATUS_WORDS
from app.drawing.view import View
from app.plan.devices import DEVICE_KIND
from app.review.house import Storey

SHOWN = ("proof", "cable")  # a tap tells heights and mounts
_MM_PER_FOOT = 304.8 / 48  # 1/4" to the foot, at which symbols and words were made to be read
_TAP = 3.2  # mm: radius of a place to tap, and half the depth of a pane's
_SIZES = Sizes()


@dataclass(frozen=True)
class Picture:
    """One drawing of a level: what it ``shows`` (a key of ``PLANS``), its ``words``, its ``svg``."""

    level: str
    level_name: str
    shows: str
    words: str
    svg: str


def pictures_of(answers: PlanAnswers) -> list[Picture]:
    """Every level, proof first."""
    return [
        _picture(answers, storey, shows, drawing)
        for shows in SHOWN
        for storey, drawing in zip(answers.house, level_drawings(answers, shows), strict=True)
    ]


def _picture(answers: PlanAnswers, storey: Storey, shows: str, drawing: LevelDrawing) -> Picture:
    words = PLANS[shows][0]
    west, south, east, north = drawing.bounds
    wide, high = (
        length * _MM_PER_FOOT + NEAR_SIDES + FAR_SIDES for length in (max(east - west, 1.0), max(north - south, 1.0))
    )
    view = View(_MM_PER_FOOT, NEAR_SIDES - west * _MM_PER_FOOT, FAR_SIDES + north * _MM_PER_FOOT)
    page = svgwrite.Drawing(debug=False)
    for size in ("width", "height"):
        page.attribs.pop(size, None)
    page.attribs.update({"viewBox": f"0 0 {wide:.2f} {high:.2f}", "font-family": FONTS})
    page.attribs.update({"role": "group", "aria-label": f"{storey.level.name}: {words}"})
    page.add(drawing.draw(view, (0.0, 0.0, wide, high), _SIZES))
    page.add(_taps(answers, storey, view))
    return Picture(storey.level.id, storey.level.name, shows, words, as_text(page))


def _taps(answers: PlanAnswers, storey: Storey, view: View) -> Any:
    """Clear places to tap: openings and panes beneath devices, which stand before them."""
    group = SVG.g(class_="taps", fill="#000", fill_opacity=0, stroke_opacity=0)
    for opening in storey.level.openings:
        if not opening.has_glass:
            wall = storey.level.wall_by_id[opening.wall]
            ends = (wall.along(opening.offset), wall.along(opening.end))
            group.add(_tap(opening.id, storey.name(opening.id), _bar(ends, view)))
    for pane in answers.of_level("panes", storey.level.id):
        words = f"Glass {pane['id']}, {STATUS_WORDS[pane['status']]}"
        group.add(_tap(pane["id"], words, _bar(pane["segment"], view)))
    for device in storey.level.devices:
        words = f"{storey.name(device.id)}, {DEVICE_KIND[device.kind].name}"
        x, y = view.spot(device.at)
        group.add(_tap(device.id, words, SVG.circle((round(x, 2), round(y, 2)), _TAP)))
    return group


def _bar(ends: Sequence[Sequence[float]], view: View) -> Any:
    """A stretch of wall as broad as a finger."""
    course = Course.of(ends)
    corners = (view.spot(corner) for corner in course.bar((0.0, course.length), _TAP / view.scale))
    return SVG.polygon([(round(x, 2), round(y, 2)) for x, y in corners])


def _tap(thing: str, words: str, shape: Any) -> Any:
    link = SVG.a(f"#{anchor(thing)}")
    del link.attribs["target"]
    link["role"] = "link"
    link["data-thing"] = thing
    link["aria-label"] = words
    link.add(shape)
    return link


def anchor(thing: str) -> str:
    """The name of the place in the page where a thing's first row is."""
    return "about-" + thing.replace("/", "_")
