"""Key figures of a cover: a number that is seen from afar, and what it counts in plain words beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from app.drawing.lettering import lettered, text_width, wrapped
from app.drawing.maker import SVG
from app.drawing.palette import QUIET
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.view import Spot
from app.drawing.weights import FINE


@dataclass(frozen=True)
class Figure:
    """A ``number`` such as "36 of 38", and the ``words`` for what it counts."""

    number: str
    words: str


def figure_blocks(figures: Iterable[Figure], setter: Setter) -> Iterator[Block]:
    """The figures one under another, their words in one line of columns."""
    shown = list(figures)
    size = 4.4 * setter.factor
    start = max((text_width(figure.number, size, bold=True) for figure in shown), default=0.0) + 3.5 * setter.factor
    for figure in shown:
        yield _figure(figure, setter, size, start)


def _figure(figure: Figure, setter: Setter, size: float, start: float) -> Block:
    lines = wrapped(figure.words, setter.size, setter.width - start)
    height = max(8.6 * setter.factor, len(lines) * setter.leading + 3.0 * setter.factor)

    def draw(at: Spot) -> Iterator[Any]:
        middle = at[1] + height / 2
        yield lettered(figure.number, (at[0], middle + size * 0.36), size, bold=True)
        first = middle - (len(lines) - 1) * setter.leading / 2 + setter.size * 0.36
        for number, line in enumerate(lines):
            yield lettered(line, (at[0] + start, first + number * setter.leading), setter.size)
        y = round(at[1] + height, 3)
        yield SVG.line((at[0], y), (at[0] + setter.width, y), stroke=QUIET, stroke_width=FINE)

    return Block(height, draw)
