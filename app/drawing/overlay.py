"""The overlay of a level: what the proof says, as SVG that lies over the drawn plan.

One user unit is one foot, y is downward; groups ``rooms``, ``motion``, ``reach``, ``leaders``, ``glass`` come in this
order. Presentation attributes alone, so that a strict Content-Security-Policy lets it show.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache, partial
from typing import Any

import numpy as np
import svgwrite
from svgwrite.container import Group

from app.drawing.glass_group import Answers, GlassDrawer
from app.drawing.leader_words import Block, blocks_of, leaders_text
from app.drawing.leaders import Glass, leaders_of, walls_in_the_way
from app.drawing.lengths import drawn_length
from app.drawing.maker import SVG, Stencil, as_text, titled
from app.drawing.palette import MISSED, PAPER, QUIET, REACH, SEEN_FLOOR
from app.drawing.view import View
from app.plan.devices import height_of, range_of, tag_of
from app.plan.measures import area_text
from app.plan.model import Device, Level
from app.plan.practice import Practice

MARGIN = 4.0  # ft about the level, for marks and words
TEXT_HEIGHT = 12.0  # px on screen
USUAL_SCALE = 12 / 0.7  # px a foot where the caller does not say
PLAN = View()


def level_overlay(
    level: Level,
    panes: Answers,
    motions: Answers,
    rooms: Answers,
    *,
    practice: Practice,
    units: str = "imperial",
    pixels_per_foot: float | None = None,
    focus: Device | None = None,
) -> str:
    """The proof of one level as an SVG document, drawn once; ``OverlayMaker`` says what the arguments are."""
    maker = OverlayMaker(level, practice, units)
    return maker.drawn(panes, motions, rooms, pixels_per_foot=pixels_per_foot, focus=focus)


class OverlayMaker:
    """Draws the overlay of one level many times over.

    The fast path of a drag: rooms, seen floors and the reach of the other detectors stay as they are, so their text is
    kept and only what the moved device touches is written anew.
    """

    def __init__(self, level: Level, practice: Practice, units: str) -> None:
        self._level, self._practice, self._units = level, practice, units
        self._head = lru_cache(8)(partial(_head, _bounds(level)))
        self._kept: dict[str, tuple[object, str]] = {}
        self._glass = GlassDrawer(level)
        self._walls_at = lru_cache(8)(partial(walls_in_the_way, level))
        self._blocks_beside = lru_cache(8)(partial(_blocks_beside, level))
        self._where: Glass | None = None

    def drawn(
        self,
        panes: Answers,
        motions: Answers,
        rooms: Answers,
        *,
        pixels_per_foot: float | None = None,
        focus: Device | None = None,
    ) -> str:
        """The overlay as an SVG document.

        ``panes``, ``motions`` and ``rooms`` are the check's answers for this level (a list given again is not drawn
        again); ``pixels_per_foot`` the zoom that words and marks are sized for; ``focus`` the detector that is dragged
        or selected, as it stands now.
        """
        units, word = self._units, _word(pixels_per_foot)
        devices = self._devices_with(focus)
        parts = [
            self._head(word),
            self._once("rooms", rooms, lambda: as_text(_rooms(SVG, rooms, units))),
            self._once("motion", motions, lambda: as_text(_motion(SVG, motions, devices, units))),
            self._reach(self._glass_of(panes), devices),
            self._leaders(focus, panes, word),
            # The glass comes as text, each pane's kept from the last drawing: a drag changes few of them.
            self._glass.group(panes, word),
        ]
        return "".join(parts) + "</svg>"

    def touched(
        self,
        standing: Answers,
        panes: Answers,
        motions: Answers,
        focus: Device,
        *,
        pixels_per_foot: float | None = None,
    ) -> dict[str, Any]:
        """What one tried device changes in the drawing of the plan as it stands, as SVG text to put into its groups.

        ``standing`` are the answers of all panes as the plan has them, ``panes`` and ``motions`` those that differ.
        ``panes`` by pane, ``marks`` by pane whose status it changes, ``reach`` and ``motion`` by detector, and the
        group ``leaders``.
        """
        level, units, word = self._level, self._units, _word(pixels_per_foot)
        tried = {pane["id"]: pane for pane in panes}
        whole = [tried.get(pane["id"], pane) for pane in standing]
        turned = [now for was, now in zip(standing, whole, strict=True) if now["status"] != was["status"]]
        hears = focus.kind == "glass_break"
        circle = _reach_text(focus, level, self._glass_of(whole), self._practice, units) if hears else ""
        devices = self._devices_with(focus) if motions else []
        return {
            "panes": self._glass.panes(panes, word),
            "marks": self._glass.marks(turned, word),
            "reach": {focus.id: circle},
            "motion": {focus.id: ""}
            | {
                motion["id"]: as_text(_seen(SVG, motion, devices, units)) if motion.get("outline") else ""
                for motion in motions
            },
            "leaders": self._leaders(focus, whole, word),
        }

    def _devices_with(self, focus: Device | None) -> list[Device]:
        """The level's devices with the focused one as it stands now."""
        if focus is None:
            return list(self._level.devices)
        devices = [focus if other.id == focus.id else other for other in self._level.devices]
        return devices if any(device is focus for device in devices) else [*devices, focus]

    def _leaders(self, focus: Device | None, panes: Answers, word: float) -> str:
        """The leaders of the focused detector, where it is one that hears glass."""
        if focus is None or focus.kind != "glass_break":
            return leaders_text([], word, self._units, [])
        leaders = leaders_of(focus, self._level, panes, self._glass_of(panes), self._practice, self._walls_at)
        blocks = [*self._blocks_beside(focus.id, word), *blocks_of([focus], word)]
        return leaders_text(leaders, word, self._units, blocks)

    def _glass_of(self, panes: Answers) -> Glass:
        """Where the panes are: the glass of a level stands still, so all answers for it say the same."""
        if self._where is None or len(self._where.ends) != len(panes):
            self._where = Glass.of(panes)
        return self._where

    def _once(self, name: str, source: object, make: Callable[[], str]) -> str:
        """The text kept under a name while its source is the very same object."""
        if name not in self._kept or self._kept[name][0] is not source:
            self._kept[name] = (source, make())
        return self._kept[name][1]

    def _reach(self, glass: Glass, devices: Iterable[Device]) -> str:
        """The group ``reach``; the glass stands still, so a detector's circle is kept while the detector stands."""
        circles = [
            self._once(
                f"reach of {device.id}",
                device,
                lambda device=device: _reach_text(device, self._level, glass, self._practice, self._units),  # type: ignore[misc]
            )
            for device in devices
            if device.kind == "glass_break"
        ]
        head = f'<g class="reach" fill="none" stroke="{REACH}" stroke-dasharray="7 4" stroke-width="1.25">'
        return f"{head}{''.join(circles)}</g>"


def _word(pixels_per_foot: float | None) -> float:
    """The height of words in feet at a zoom."""
    return TEXT_HEIGHT / min(max(pixels_per_foot or USUAL_SCALE, 0.5), 500.0)


def _blocks_beside(level: Level, device: str, word: float) -> list[Block]:
    """What words keep clear of on a level, but for one device."""
    return blocks_of((other for other in level.devices if other.id != device), word)


def _bounds(level: Level) -> tuple[float, float, float, float]:
    """Left, top, width and height of the picture, in feet with y downward."""
    points = [point for wall in level.walls for point in (wall.a, wall.b)]
    points += [device.at for device in level.devices]
    points += [corner for fixture in level.fixtures for corner in fixture.polygon or ()]
    xs, ys = [x for x, _ in points] or [0.0, 20.0], [y for _, y in points] or [0.0, 20.0]
    left, top = math.floor(min(xs) - MARGIN), math.floor(-max(ys) - MARGIN)
    return left, top, math.ceil(max(xs) + MARGIN) - left, math.ceil(-min(ys) + MARGIN) - top


def _head(bounds: tuple[float, float, float, float], word: float) -> str:
    """The document up to its first group."""
    page = svgwrite.Drawing(debug=False)
    left, top, width, height = bounds
    page.attribs.update(
        {
            "viewBox": f"{left:g} {top:g} {width:g} {height:g}",
            "width": f"{width * 16:g}",
            "height": f"{height * 16:g}",
            "class": "overlay",
            "font-family": "system-ui, sans-serif",
        }
    )
    _patterns(page, word)
    return as_text(page).removesuffix("</svg>")


def _patterns(page: Any, word: float) -> None:
    """The two hatches: single slanted lines for seen floor, crossed ones for glass that is missed."""
    step = word * 0.7
    floor = page.pattern((0, 0), (step * 1.6, step * 1.6), id="overlay-seen", patternUnits="userSpaceOnUse")
    floor["patternTransform"] = "rotate(45)"
    floor.add(page.line((0, 0), (0, step * 1.6), stroke=SEEN_FLOOR, stroke_width=step * 0.16))
    page.defs.add(floor)
    missed = page.pattern((0, 0), (step * 0.55, step * 0.55), id="overlay-missed", patternUnits="userSpaceOnUse")
    missed["patternTransform"] = "rotate(45)"
    missed.add(page.rect((0, 0), (step, step), fill=PAPER))
    missed.add(page.path(d=f"M0 0H{step:.3f}M0 0V{step:.3f}", stroke=MISSED, stroke_width=step * 0.26, fill="none"))
    page.defs.add(missed)


def _group(page: Any, name: str, **attributes: Any) -> Group:
    return page.g(class_=name, **attributes)


def _rooms(page: Any, rooms: Answers, units: str) -> Group:
    group = _group(page, "rooms", fill="none", stroke=QUIET, stroke_width=0.75, stroke_opacity=0.35)
    for room in rooms:
        if room.get("outline"):
            outline = page.path(d=PLAN.rings(room["outline"]), vector_effect="non-scaling-stroke")
            outline["data-room"] = room["id"]
            outline.set_desc(title=f"{room['name'] or room['id']}: {area_text(room['area_sqft'], units)}")
            group.add(outline)
    return group


def _motion(page: Any, motions: Answers, devices: Iterable[Device], units: str) -> Group:
    group = _group(page, "motion", fill="url(#overlay-seen)", fill_rule="evenodd", stroke=REACH, stroke_width=1)
    for motion in motions:
        if motion.get("outline"):
            group.add(_seen(page, motion, devices, units))
    return group


def _seen(page: Any, motion: Mapping[str, Any], devices: Iterable[Device], units: str) -> Any:
    """The floor that one motion detector watches."""
    seen = page.path(d=PLAN.rings(motion["outline"]), vector_effect="non-scaling-stroke")
    seen["data-device"] = motion["id"]
    name = next((tag_of(device) for device in devices if device.id == motion["id"]), motion["id"])
    seen.set_desc(title=f"{name} watches {area_text(motion['area_sqft'], units)} of floor")
    return seen


def _reach_text(device: Device, level: Level, glass: Glass, practice: Practice, units: str) -> str:
    """The circle within which a detector's glass lies in its range, or nothing where it hangs too high for any."""
    reach = range_of(device, practice)
    radius, drop = reach_in_plan(device, reach, height_of(device, level, practice), glass)
    if radius <= 0:
        return ""
    x, y = PLAN.spot(device.at)
    title = (
        f"{tag_of(device)} hears {drawn_length(reach, units)} in a straight line: "
        f"{drawn_length(radius, units)} in plan to the edge of glass {drawn_length(drop, units)} above or below it"
    )
    return _CIRCLE.filled(x=str(x), y=str(y), radius=str(round(radius, 4)), device=device.id, title=title)


def reach_in_plan(device: Device, reach: float, height: float, glass: Glass) -> tuple[float, float]:
    """Radius in plan within which all glass near a detector lies in its slant range, and the drop it comes from.

    By Pythagoras √(reach² − drop²), where the drop is the greatest height between the detector and a sill or head
    of the glass within reach in plan (with none there, a sill 3 ft above the floor); 0 where the drop is the larger.
    """
    drop = abs(height - 3.0)
    near = (((glass.ends - np.array(device.at)) ** 2).sum(axis=2) <= reach**2).any(axis=1)
    if near.any():
        drop = float(np.abs(glass.edges[near] - height).max())
    return (math.sqrt(reach**2 - drop**2) if drop < reach else 0.0), drop


_CIRCLE = Stencil(
    titled(
        SVG.circle(("{x}", "{y}"), "{radius}", vector_effect="non-scaling-stroke"),
        **{"data-device": "{device}"},
    )
)
