"""The plan of each level on as many sheets as its scale asks for, joined by match lines."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from app.drawing.floor_plan import LevelDrawing, Sizes, legible
from app.drawing.house.board import Box
from app.drawing.house.dimensions import FAR_SIDES, NEAR_SIDES
from app.drawing.lettering import SMALLEST, lettered, paragraph, word_box, wrapped
from app.drawing.maker import SVG, cut_to
from app.drawing.palette import INK
from app.drawing.sheets.legend import Entry, draw_legend, legend_entries, legend_height
from app.drawing.sheets.paper.frame import Sheet, column_area, drawing_area, heading
from app.drawing.sheets.paper.papers import Paper
from app.drawing.sheets.paper.scale_bar import north_arrow, scale_bar
from app.drawing.sheets.paper.scales import Fit, Scale, fit_asked, fit_best
from app.drawing.sheets.part_key import draw_part_key
from app.drawing.sheets.underlay.drawn import WORDS, drawn_underlay, underlay_sign
from app.drawing.sheets.underlay.laid import Laid
from app.drawing.view import Spot, View
from app.drawing.weights import CUT

_AIR = 1.5  # mm between the frame and what is drawn
_TOO_SMALL = "Too small for names and devices: choose a larger scale or paper, or read the schedules."
_MATCH = 7.0  # mm that a match line and its words take
_KEY, _LEAST_KEY = 34.0, 12.0  # mm of height that the key of parts takes, and below which it is left out
_KEY_AIR = 3.0  # mm beneath the key


@dataclass(frozen=True)
class Part:
    """The part of a level that one sheet shows: which column and row of how many, and its window of the plan."""

    column: int
    row: int
    fit: Fit

    def neighbours(self) -> dict[str, tuple[int, int]]:
        """The sides on which the plan goes on, with the column and row of the part there."""
        sides = {
            "left": (self.column - 1, self.row),
            "right": (self.column + 1, self.row),
            "top": (self.column, self.row - 1),
            "bottom": (self.column, self.row + 1),
        }
        return {
            side: (column, row)
            for side, (column, row) in sides.items()
            if 0 <= column < self.fit.across and 0 <= row < self.fit.down
        }


def fit_level(drawing: LevelDrawing, paper: Paper, scale: Scale | None) -> Fit:
    """The scale of a level on a paper and the sheets it takes; ``scale`` None chooses the largest that fits."""
    west, south, east, north = drawing.bounds
    left, top, right, bottom = _area(paper)
    size, area = (east - west, north - south), (right - left, bottom - top)
    around = (NEAR_SIDES + FAR_SIDES) * paper.lettering
    if scale is None:
        fit = fit_best(size, area, around, paper.habit.units)
    else:
        fit = fit_asked(scale, size, area, around, paper.habit.units)
    if fit.across * fit.down == 1:
        return fit
    # Match lines take room of their own.
    narrower = tuple(length - 2 * _MATCH * paper.lettering for length in area)
    return fit_asked(fit.scale, size, narrower, around, paper.habit.units)


def _area(paper: Paper) -> Box:
    left, top, right, bottom = drawing_area(paper)
    return (left + _AIR, top + _AIR, right - _AIR, bottom - _AIR)


def common_scale(drawings: Sequence[LevelDrawing], paper: Paper) -> Scale:
    """The scale at which every level of a house fits, so that one lies true over another."""
    return max((fit_level(drawing, paper, None).scale for drawing in drawings), key=lambda scale: scale.ratio)


def plan_sheets(
    drawing: LevelDrawing,
    paper: Paper,
    scale: Scale,
    first: int,
    several: bool,
    title: str = "Security plan",
    laid: Laid | None = None,
) -> list[Sheet]:
    """The sheets of a level; ``first`` is the number in the series of the first, ``laid`` the picture beneath them."""
    fit = fit_level(drawing, paper, scale)
    parts = [Part(column, row, fit) for row in range(fit.down) for column in range(fit.across)]
    numbers = {(part.column, part.row): paper.habit.number(first + index) for index, part in enumerate(parts)}
    title += f", {drawing.scene.level.name}" if several else ""
    sheets = []
    for index, part in enumerate(parts):
        said = title if len(parts) == 1 else f"{title}, part {index + 1} of {len(parts)}"
        number = numbers[part.column, part.row]
        drawn = partial(_drawn, drawing, paper, part, numbers, laid)
        sheets.append(Sheet(number, said, paper.habit.scale(fit.scale), drawn))
    return sheets


def _drawn(
    drawing: LevelDrawing, paper: Paper, part: Part, numbers: Mapping[tuple[int, int], str], laid: Laid | None
) -> Any:
    """The plan, what lies beneath it, and the column beside it."""
    group = SVG.g(class_="plan-sheet")
    view, window = _view(drawing, paper, part)
    beneath = drawn_underlay(laid, view, window) if laid else None
    if beneath:
        group.add(beneath)
    for piece in _plan(drawing, paper, part, numbers):
        group.add(piece)
    group.add(_column(drawing, paper, part, numbers, [(WORDS, underlay_sign)] if beneath else []))
    return group


def _view(drawing: LevelDrawing, paper: Paper, part: Part) -> tuple[View, Box]:
    """How a part lies on its sheet, and its window of the sheet in mm."""
    f, k = paper.lettering, part.fit.scale.mm_per_foot
    west, _, _, north = drawing.bounds
    (x, y), (wide, high) = _layout(drawing, paper, part.fit)
    view = View(k, x - part.column * wide + NEAR_SIDES * f - west * k, y - part.row * high + FAR_SIDES * f + north * k)
    return view, (x, y, x + wide, y + high)


def _layout(drawing: LevelDrawing, paper: Paper, fit: Fit) -> tuple[Spot, tuple[float, float]]:
    """Where a part's window begins on the sheet, and its width and height, in mm; parts of a level are alike."""
    f, k = paper.lettering, fit.scale.mm_per_foot
    west, south, east, north = drawing.bounds
    left, top, right, bottom = _area(paper)
    around = (NEAR_SIDES + FAR_SIDES) * f
    wide, high = ((east - west) * k + around) / fit.across, ((north - south) * k + around) / fit.down
    return ((left + right - wide) / 2, (top + bottom - high) / 2), (wide, high)


def _plan(drawing: LevelDrawing, paper: Paper, part: Part, numbers: Mapping[tuple[int, int], str]) -> Iterator[Any]:
    """The plan in its window of the sheet, and the match lines about it."""
    f, (view, window) = paper.lettering, _view(drawing, paper, part)
    drawn = drawing.draw(view, window, sizes_at(part.fit.scale, f))
    if part.fit.across * part.fit.down == 1:
        yield drawn
        return
    _drop_words_outside(drawn, window)
    shown = cut_to(window)
    shown.add(drawn)
    yield shown
    for side, place in part.neighbours().items():
        yield from _match_line(side, window, numbers[place], f)


def sizes_at(scale: Scale, factor: float) -> Sizes:
    """Sizes on paper at a scale: where rooms are small, symbols and words are too, as far as they stay legible."""
    usual = Sizes().times(factor)
    shrink = 1.0 if scale.ratio <= 64 else 0.86 if scale.ratio <= 100 else 0.74
    return Sizes(
        max(SMALLEST * 1.12, usual.room * shrink),
        max(SMALLEST, usual.label * shrink),
        usual.dimension,
        usual.symbol * shrink,
        usual.sign * shrink,
    )


def _drop_words_outside(group: Any, window: Box) -> None:
    """Take out words that the window would cut, and those beyond it, which a clip does not take from a reader's ear."""
    kept = []
    for element in group.elements:
        if element.elementname == "text" and not _within(word_box(element), window):
            continue
        if element.elementname == "g":
            _drop_words_outside(element, window)
        kept.append(element)
    group.elements[:] = kept


def _within(box: Box, window: Box) -> bool:
    return box[0] >= window[0] and box[1] >= window[1] and box[2] <= window[2] and box[3] <= window[3]


def _match_line(side: str, window: Box, number: str, f: float) -> Iterator[Any]:
    left, top, right, bottom = window
    upright = side in ("left", "right")
    x, y = (left if side == "left" else right), (top if side == "top" else bottom)
    ends = ((x, top), (x, bottom)) if upright else ((left, y), (right, y))
    yield SVG.line(*ends, stroke=INK, stroke_width=CUT, stroke_dasharray="9 2 2 2", class_="match-line")
    size, text = 2.6 * f, f"MATCH LINE, SEE {number}"
    if upright:
        away = -1.6 * f if side == "left" else 1.6 * f + size * 0.72
        yield lettered(text, (x + away, (top + bottom) / 2), size, bold=True, anchor="middle", turn=-90.0)
    else:
        away = -1.6 * f if side == "top" else 1.6 * f + size * 0.72
        yield lettered(text, ((left + right) / 2, y + away), size, bold=True, anchor="middle")


def _windows(drawing: LevelDrawing, paper: Paper, fit: Fit) -> dict[tuple[int, int], Box]:
    """West, south, east and north in feet of what each part shows."""
    f, k = paper.lettering, fit.scale.mm_per_foot
    _, (wide, high) = _layout(drawing, paper, fit)
    west, north = drawing.bounds[0] - NEAR_SIDES * f / k, drawing.bounds[3] + FAR_SIDES * f / k
    return {
        (column, row): (
            west + column * wide / k,
            north - (row + 1) * high / k,
            west + (column + 1) * wide / k,
            north - row * high / k,
        )
        for row in range(fit.down)
        for column in range(fit.across)
    }


def _column(
    drawing: LevelDrawing,
    paper: Paper,
    part: Part,
    numbers: Mapping[tuple[int, int], str],
    beneath: Sequence[Entry],
) -> Any:
    """North, scale bar, legend (last what lies ``beneath``) and, where the level takes several sheets, their key."""
    f, scale = paper.lettering, part.fit.scale
    left, top, right, bottom = column_area(paper)
    wide = right - left
    group = SVG.g(class_="plan-notes")
    for piece in heading("Legend", (left, top + 2.6 * f), 2.9 * f, wide):
        group.add(piece)
    foot = bottom - 17.0 * f
    entries = [*legend_entries(drawing, 1.7 * f, scale.mm_per_foot), *beneath]
    high = foot - top - 7.5 * f
    if part.fit.across * part.fit.down > 1:
        key_height = min(_KEY * f, high - legend_height(entries, wide, f))
        if key_height >= _LEAST_KEY * f:
            box = (left, foot - key_height, right, foot - _KEY_AIR * f)
            windows = _windows(drawing, paper, part.fit)
            group.add(draw_part_key(drawing, windows, numbers, (part.column, part.row), box, SMALLEST))
            high -= key_height
    group.add(draw_legend(entries, (left, top + 5.5 * f), wide, high, f))
    if not legible(scale.mm_per_foot):
        for line in paragraph(wrapped(_TOO_SMALL, 2.4 * f, wide), (left, foot - 10.0 * f), 2.4 * f, 3.2 * f):
            group.add(line)
    radius = 4.6 * f
    group.add(north_arrow((right - radius - 1.0, bottom - radius - 2.0 * f), radius, 3.0 * f))
    group.add(scale_bar(scale, drawing.units, (left, bottom - 8.0 * f), wide - 4 * radius, 2.3 * f))
    group.add(lettered(paper.habit.scale(scale), (left, bottom - 10.0 * f), 2.8 * f, bold=True))
    return group
