"""Dimension strings along the outer walls: corners and centres of openings, and outside them the overall length.

Lines end in slashes. Where two marks stand too close for a legible length between them, the lesser is left out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

from app.drawing.house.board import Box
from app.drawing.house.facades import Facade
from app.drawing.lengths import drawn_length
from app.drawing.lettering import CAP_HEIGHT, lettered, text_width
from app.drawing.maker import SVG
from app.drawing.strokes import Look, Strokes
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import FINE, THIN

USUAL_SIZE = 2.35  # mm: the font for which the distances below are meant
INNER = 10.0  # mm of paper from the building to the string of corners and openings
OUTER = 15.0  # mm to the overall length
NEAR_SIDES = 18.5  # mm that dimensions take on the west and south sides, where overall lengths stand first
FAR_SIDES = 13.0  # mm that they take on the east and north sides
_SHORT = 1.8  # mm of the line that leads from an opening's middle
_TEXT_AIR = 1.4  # mm beside a text
_PIECE = 4.0  # mm of a slanted string that one upright box stands for
_SAME = 0.03  # ft: marks nearer than this are one

_LINE = Look(FINE)
_SLASH = Look(THIN)


def draw_dimensions(facades: Sequence[Facade], view: View, units: str, size: float) -> Any:
    """The dimension strings of a level as a group; ``size`` is the height of the text's font in mm."""
    strokes, group = Strokes(), SVG.g(class_="dimensions")
    texts = [text for facade in facades for text in _strings(strokes, facade, view, units, size)]
    group.add(strokes.group("dimension-lines"))
    for text in texts:
        group.add(text)
    return group


def strings_on_paper(facades: Sequence[Facade], view: View, size: float) -> Iterator[Box]:
    """The upright boxes that the strings take on paper: one for a facade, a run of small ones along a slanted one."""
    f = size / USUAL_SIZE
    for facade in facades:
        slanted = min(map(abs, facade.out)) > 1e-6
        pieces = max(1, math.ceil((facade.high - facade.low) * view.scale / _PIECE)) if slanted else 1
        marks = [facade.low + (facade.high - facade.low) * piece / pieces for piece in range(pieces + 1)]
        rows = ((INNER - 0.6, INNER + 3.6), (OUTER - 0.6, OUTER + 3.0)) if slanted else ((INNER - 0.6, OUTER + 3.0),)
        for start, end in pairwise(marks):
            for row in rows:
                corners = [view.spot(facade.at(mark, away * f / view.scale)) for mark in (start, end) for away in row]
                xs, ys = [x for x, _ in corners], [y for _, y in corners]
                yield (min(xs), min(ys), max(xs), max(ys))


def _strings(strokes: Strokes, facade: Facade, view: View, units: str, size: float) -> list[Any]:
    """The string of a facade's corners and openings, and outside it the overall length."""
    low, high, out, f = facade.low, facade.high, facade.out, size / USUAL_SIZE
    marks = _legible(_distinct(low, high, facade.middles, facade.corners), view.scale, units, size)
    rows = [(INNER * f, marks)] if len(marks) > 2 else []
    if facade.overall:
        rows.append((OUTER * f if rows else INNER * f, [low, high]))
    texts: list[Any] = []
    for distance, here in rows:
        places = [view.spot(facade.at(mark, distance / view.scale)) for mark in here]
        strokes.add(_LINE, line_through(places))
        for mark, place in zip(here, places, strict=True):
            at_corner = any(abs(mark - corner) <= _SAME for corner in facade.corners)
            back = (OUTER - INNER) * f - 1.0 if here is not marks and len(rows) == 2 else distance - 2.0
            # A line to an opening's middle stops short: its tag stands there.
            strokes.add(_LINE, _extension(place, out, (back if at_corner else _SHORT, 1.2)))
        strokes.add(_SLASH, *(_slash(place, facade.along) for place in places))
        lengths = [second - first for first, second in pairwise(here)]
        texts += _texts(places, lengths, out, units, size)
    return texts


def _distinct(low: float, high: float, middles: Sequence[float], corners: Sequence[float]) -> list[tuple[float, int]]:
    """Marks in order, each once, with how much they matter: the ends most, then middles of openings, then corners."""
    kept: list[tuple[float, int]] = []
    for rank, marks in ((2, (low, high)), (1, middles), (0, corners)):
        for mark in marks:
            if all(abs(mark - other) > _SAME for other, _ in kept):
                kept.append((mark, rank))
    return sorted(kept)


def _legible(marks: list[tuple[float, int]], scale: float, units: str, size: float) -> list[float]:
    """The marks that leave room for every length between them: of two too close the lesser is left out."""
    marks = list(marks)
    while len(marks) > 2:
        short = [
            (second - first) * scale - text_width(drawn_length(second - first, units), size) - _TEXT_AIR
            for (first, _), (second, _) in pairwise(marks)
        ]
        tightest = min(range(len(short)), key=short.__getitem__)
        if short[tightest] >= 0:
            break
        inner = [index for index in (tightest, tightest + 1) if 0 < index < len(marks) - 1]
        if not inner:
            break
        del marks[min(inner, key=lambda index: marks[index][1])]
    return [mark for mark, _ in marks]


def _texts(places: Sequence[Spot], lengths: Sequence[float], out: Spot, units: str, size: float) -> list[Any]:
    """A text for each part of a string, on its outer side."""
    dx, dy = places[-1][0] - places[0][0], places[-1][1] - places[0][1]
    run = math.hypot(dx, dy) or 1.0
    angle, up = _readable(dx / run, dy / run)
    lift = 0.9 if out[0] * up[0] - out[1] * up[1] > 0 else -0.9 - CAP_HEIGHT * size
    texts = []
    for (first, second), length in zip(pairwise(places), lengths, strict=True):
        at = ((first[0] + second[0]) / 2 + up[0] * lift, (first[1] + second[1]) / 2 + up[1] * lift)
        texts.append(lettered(drawn_length(length, units), at, size, anchor="middle", turn=angle))
    return texts


def _readable(ux: float, uy: float) -> tuple[float, Spot]:
    """The turn in degrees of a text along a line, read from below or from the right, and the way that is up for it."""
    if ux < -1e-6 or (abs(ux) <= 1e-6 and uy > 0):
        ux, uy = -ux, -uy
    return math.degrees(math.atan2(uy, ux)), (uy, -ux)


def _extension(place: Spot, out: Spot, reach: Sequence[float]) -> str:
    back, past = reach
    return line_through(
        (
            (place[0] - out[0] * back, place[1] + out[1] * back),
            (place[0] + out[0] * past, place[1] - out[1] * past),
        )
    )


def _slash(place: Spot, along: Spot) -> str:
    """A slash at 45° to the dimension line, as it leans in reading."""
    ux, uy = along[0], -along[1]
    _, up = _readable(ux, uy)
    if ux < -1e-6 or (abs(ux) <= 1e-6 and uy > 0):
        ux, uy = -ux, -uy
    dx, dy = 0.8 * (ux + up[0]), 0.8 * (uy + up[1])
    return line_through(((place[0] - dx, place[1] - dy), (place[0] + dx, place[1] + dy)))
