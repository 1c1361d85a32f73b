"""The legend of a plan sheet: every symbol, mark and line that the sheet uses, and no other."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import shapely

from app.drawing.floor_plan import LevelDrawing, legible
from app.drawing.house.fixtures import SIGN_WORDS, shown_signs, sign_lines, sign_path
from app.drawing.house.proof import HEARD, MISSED_EDGE, MISSED_HATCH, SEEN_EDGE, WATCH, crossed, seen_hatch, status_mark
from app.drawing.house.walls import HALF_WALL, is_half
from app.drawing.lettering import CAP_HEIGHT, SMALLEST, lettered, wrapped
from app.drawing.maker import SVG
from app.drawing.palette import INK, PAPER
from app.drawing.strokes import Strokes
from app.drawing.symbols import device_symbol
from app.drawing.view import Spot, line_through
from app.drawing.weights import FINE, MEDIUM, THIN
from app.plan.devices import DEVICE_KINDS

_SIGN_WIDTH = 11.0  # mm: the column of signs
_LEAST_GAP = 0.4  # mm between entries
Entry = tuple[str, Callable[[Spot], Any]]


def legend_entries(drawing: LevelDrawing, symbol: float, scale: float) -> list[Entry]:
    """What a level's plan uses at a scale in mm a foot, each with its words and what draws its sign about a place."""
    return [
        *drawing.own_legend(),
        *_glass(drawing),
        *(_devices(drawing, symbol) if legible(scale) else ()),
        *_shell(drawing, scale),
    ]


def _glass(drawing: LevelDrawing) -> Iterator[Entry]:
    statuses = {pane["status"] for pane in drawing.panes}
    if "covered" in statuses:
        yield "Glass covered by one detector", covered_sign
    if "partial" in statuses:
        yield "Glass partly covered; hatched where not", lambda at: missed_sign("partial", at)
    if "uncovered" in statuses:
        yield "Glass not covered", lambda at: missed_sign("uncovered", at)
    if statuses & {"covered", "partial"}:
        yield "From a detector to glass it hears", lambda at: _line(WATCH, at)
    if any(motion.get("outline") for motion in drawing.motions):
        yield "Floor that a motion detector sees", _seen


def _devices(drawing: LevelDrawing, symbol: float) -> Iterator[Entry]:
    used = {device.kind for device in drawing.scene.level.devices}
    for kind in DEVICE_KINDS:
        if kind.kind in used:
            yield f"{kind.abbreviation}: {kind.name}", lambda at, name=kind.kind: device_symbol(name, at, symbol)  # type: ignore[misc]


def _shell(drawing: LevelDrawing, scale: float) -> Iterator[Entry]:
    level = drawing.scene.level
    if any(is_half(wall, level) for wall in level.walls):
        yield "Half wall, height as noted", _half_wall
    if any(opening.kind == "cased" for opening in level.openings):
        yield "Cased opening (no door)", _cased
    kinds = {fixture.kind for fixture in shown_signs(level, scale)} if legible(scale) else set()
    kinds |= {"obstruction"} if any(fixture.polygon for fixture in level.fixtures) else set()
    for kind, words in SIGN_WORDS.items():
        if kind in kinds:
            yield words, lambda at, name=kind: _fixture(name, at)  # type: ignore[misc]


def covered_sign(at: Spot) -> Any:
    """The sign of covered glass."""
    strokes = Strokes()
    strokes.add(HEARD, line_through(((at[0] - 1.5, at[1]), (at[0] + 5, at[1]))))
    group = strokes.group("covered")
    for away in (-0.45, 0.45):
        group.add(SVG.line((at[0] - 1.5, at[1] + away), (at[0] + 5, at[1] + away), stroke=INK, stroke_width=MEDIUM))
    group.add(status_mark("covered", (at[0] - 3.6, at[1]), 1.0))
    return group


def missed_sign(status: str, at: Spot) -> Any:
    """The sign of glass that is "partial" or "uncovered"."""
    strokes = Strokes()
    left, top, right, bottom = at[0] - 1.5, at[1] - 1.1, at[0] + 5, at[1] + 1.1
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    strokes.add(MISSED_EDGE, line_through(corners) + "Z")
    strokes.add(MISSED_HATCH, crossed(corners))
    group = strokes.group(status)
    group.add(status_mark(status, (at[0] - 3.6, at[1]), 1.0))
    return group


def _line(look: Any, at: Spot) -> Any:
    strokes = Strokes()
    strokes.add(look, line_through(((at[0] - 4.5, at[1]), (at[0] + 5, at[1]))))
    return strokes.group("line")


def _seen(at: Spot) -> Any:
    strokes = Strokes()
    box = shapely.box(at[0] - 4.5, at[1] - 1.5, at[0] + 5, at[1] + 1.5)
    seen_hatch(strokes, box)
    strokes.add(SEEN_EDGE, line_through(box.exterior.coords[:-1]) + "Z")
    return strokes.group("seen")


def _half_wall(at: Spot) -> Any:
    return SVG.rect(
        (round(at[0] - 4.5, 3), round(at[1] - 0.9, 3)), (9.5, 1.8), fill=HALF_WALL, stroke=INK, stroke_width=THIN
    )


def _cased(at: Spot) -> Any:
    group = SVG.g(stroke=INK, stroke_width=FINE, stroke_dasharray="1.6 0.9")
    for away in (-0.9, 0.9):
        group.add(SVG.line((at[0] - 4.5, at[1] + away), (at[0] + 5, at[1] + away)))
    return group


def _fixture(kind: str, at: Spot) -> Any:
    group = SVG.g(stroke=INK, stroke_width=THIN, fill="none")
    group.add(SVG.path(d=sign_path(kind, at), fill=PAPER))
    lines = sign_lines(kind, at)
    if lines:
        group.add(SVG.path(d=lines, stroke_width=FINE))
    return group


def legend_height(entries: list[Entry], wide: float, factor: float) -> float:
    """The height in mm that the entries take at least."""
    _, heights = _texts(entries, wide, factor)
    return sum(heights) + _LEAST_GAP * factor * len(heights)


def _texts(entries: list[Entry], wide: float, factor: float) -> tuple[list[list[str]], list[float]]:
    """The lines and the height of each entry."""
    size = max(2.4 * factor, SMALLEST)
    texts = [wrapped(words, size, wide - _SIGN_WIDTH * factor) for words, _ in entries]
    return texts, [max(len(text) * size * 1.2, 3.6 * factor) for text in texts]


def draw_legend(entries: list[Entry], at: Spot, wide: float, high: float, factor: float) -> Any:
    """The entries one under another from a place down, set closer where the column is short."""
    group = SVG.g(class_="legend")
    size = max(2.4 * factor, SMALLEST)
    texts, heights = _texts(entries, wide, factor)
    gap = min(2.5 * factor, (high - sum(heights)) / max(1, len(heights)))
    x, y = at
    for (_, sign), text, height in zip(entries, texts, heights, strict=True):
        middle = y + height / 2
        group.add(sign((x + 4.6, middle)))
        first = middle - (len(text) - 1) * size * 0.6 + size * CAP_HEIGHT / 2
        for number, line in enumerate(text):
            group.add(lettered(line, (x + _SIGN_WIDTH * factor, first + number * size * 1.2), size))
        y += height + gap
    return group
