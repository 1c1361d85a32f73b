"""What stands between the frame of a sheet and the edge of its paper: marks to centre it, to fold it, and a grid.

A grid of fields names a place on a large sheet, such as C4; letters run down and numbers across, as in ISO 5457 (from
memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from app.drawing.lettering import CAP_HEIGHT, lettered
from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.sheets.paper.papers import Paper
from app.drawing.weights import CUT, FINE, THIN

_FIELD = 50.0  # mm
_BAND = 5.0  # mm from the frame
_WITHIN = 2.0  # mm that a centring mark reaches into the frame: short of the words there
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # no I and no O
_NUMERAL = 2.6  # mm
_GRID_FROM = 400.0  # mm of width: A3
_FOLD = 5.0  # mm


def border(paper: Paper) -> Any:
    """The marks of a paper's habit as a group; empty where it has none."""
    group = SVG.g(class_="border", stroke=INK, stroke_width=THIN)
    if paper.habit.marks_border:
        for piece in (*_centring(paper), *_folds(paper)):
            group.add(piece)
        if paper.width >= _GRID_FROM:
            for piece in _grid(paper):
                group.add(piece)
    return group


def _centring(paper: Paper) -> Iterator[Any]:
    """A mark at the middle of each side, from the paper's edge to a little within the frame."""
    left, top, right, bottom = paper.frame
    x, y = paper.width / 2, paper.height / 2
    for start, end in (
        ((x, 0), (x, top + _WITHIN)),
        ((x, paper.height), (x, bottom - _WITHIN)),
        ((0, y), (left + _WITHIN, y)),
        ((paper.width, y), (right - _WITHIN, y)),
    ):
        yield SVG.line(start, end, stroke_width=CUT)


def _folds(paper: Paper) -> Iterator[Any]:
    """Short lines at the edges where the sheet is folded."""
    across, down = paper.habit.folds((paper.width, paper.height))
    for x in across:
        yield SVG.line((x, 0), (x, _FOLD), stroke_width=FINE, class_="fold")
        yield SVG.line((x, paper.height - _FOLD), (x, paper.height), stroke_width=FINE, class_="fold")
    for y in down:
        yield SVG.line((0, y), (_FOLD, y), stroke_width=FINE, class_="fold")
        yield SVG.line((paper.width - _FOLD, y), (paper.width, y), stroke_width=FINE, class_="fold")


def _grid(paper: Paper) -> Iterator[Any]:
    """A band about the frame, parted into fields from the centring marks outward; what is left is added to the ends."""
    left, top, right, bottom = paper.frame
    yield SVG.rect(
        (left - _BAND, top - _BAND),
        (right - left + 2 * _BAND, bottom - top + 2 * _BAND),
        fill="none",
        stroke_width=FINE,
    )
    across, down = _edges(left, right, paper.width / 2), _edges(top, bottom, paper.height / 2)
    words = SVG.g(stroke="none")
    for index, (start, end) in enumerate(pairwise(across)):
        for edge in (top - _BAND / 2, bottom + _BAND / 2):
            words.add(_name(str(index + 1), ((start + end) / 2, edge)))
    for index, (start, end) in enumerate(pairwise(down)):
        for edge in (left - _BAND / 2, right + _BAND / 2):
            words.add(_name(_LETTERS[index], (edge, (start + end) / 2)))
    yield words
    for x in across[1:-1]:
        for edge in (top, bottom + _BAND):
            yield SVG.line((x, edge - _BAND), (x, edge), stroke_width=FINE)
    for y in down[1:-1]:
        for edge in (left, right + _BAND):
            yield SVG.line((edge - _BAND, y), (edge, y), stroke_width=FINE)


def _edges(low: float, high: float, middle: float) -> list[float]:
    """Where the fields along a side begin and end."""
    before = int((middle - low) // _FIELD)
    after = int((high - middle) // _FIELD)
    inner = [middle + _FIELD * index for index in range(-before + 1, after)]
    return [low, *inner, high]


def _name(text: str, at: tuple[float, float]) -> Any:
    return lettered(text, (at[0], at[1] + _NUMERAL * CAP_HEIGHT / 2), _NUMERAL, anchor="middle")
