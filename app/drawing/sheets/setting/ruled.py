"""Forms to fill in by hand: tables with every cell boxed, blanks with a name beneath, ruled lines, boxes to tick.

A cell of no text is bare paper to write on, high enough for handwriting.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from app.drawing.lettering import CAP_HEIGHT, lettered, text_width, wrapped
from app.drawing.maker import SVG
from app.drawing.palette import INK, QUIET
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.view import Spot
from app.drawing.weights import FINE, THIN

WRITING = 7.0  # mm: between lines that people write on
_PAD = 1.1  # mm between a cell's rule and its words


@dataclass(frozen=True)
class Ruled:
    """A row of a form: the words of each cell, the first in bold where ``bold``; ``least`` mm high."""

    cells: tuple[str, ...]
    least: float = WRITING
    bold: bool = False


def ruled_table(setter: Setter, heads: Sequence[str], shares: Sequence[float], rows: Iterable[Ruled]) -> list[Block]:
    """A table with every cell boxed, whose head stands again wherever it goes on; ``shares`` make its columns."""
    widths = [setter.width * share / sum(shares) for share in shares]
    head = _row(setter, Ruled(tuple(heads), 0.0), widths, (True,) * len(heads))
    header = Block(head.height, head.draw, keep=True)
    drawn = [_row(setter, row, widths, (row.bold, *(False,) * (len(row.cells) - 1))) for row in rows]
    pairs = (0, len(drawn) - 2)  # no row stands alone under its head, nor is the last one sent on alone
    return [
        header,
        *(
            Block(row.height, row.draw, keep=number in pairs and number < len(drawn) - 1, header=header)
            for number, row in enumerate(drawn)
        ),
    ]


def _row(setter: Setter, row: Ruled, widths: Sequence[float], bolds: Sequence[bool]) -> Block:
    pad = _PAD * setter.factor
    texts = [
        wrapped(text, setter.size, width - 2 * pad, bold=bold) if text else []
        for text, width, bold in zip(row.cells, widths, bolds, strict=True)
    ]
    lines = max(map(len, texts))
    height = max(row.least * setter.factor, lines * setter.leading + 1.6 * pad)

    def draw(at: Spot) -> Iterator[Any]:
        x, first = at[0], at[1] + 0.8 * pad + setter.size * 0.95
        for width, words, bold in zip(widths, texts, bolds, strict=True):
            yield _box(x, at[1], width, height)
            for number, line in enumerate(words):
                yield lettered(line, (x + pad, first + number * setter.leading), setter.size, bold=bold)
            x += width

    return Block(height, draw)


def _box(x: float, y: float, wide: float, high: float) -> Any:
    return SVG.rect(
        (round(x, 3), round(y, 3)), (round(wide, 3), round(high, 3)), fill="none", stroke=QUIET, stroke_width=FINE
    )


def blanks(setter: Setter, names: Sequence[str], across: int = 1) -> Iterator[Block]:
    """A line to write on for each name, which stands before it; ``across`` of them side by side."""
    gap = 4.0 * setter.factor
    wide = (setter.width - (across - 1) * gap) / across
    for index in range(0, len(names), across):
        yield _blank_row(setter, names[index : index + across], wide, gap)


def _blank_row(setter: Setter, names: Sequence[str], wide: float, gap: float) -> Block:
    texts = [wrapped(name, setter.size, wide * 0.55) for name in names]
    height = max(WRITING * setter.factor, max(map(len, texts)) * setter.leading + 1.6)

    def draw(at: Spot) -> Iterator[Any]:
        for place, lines in enumerate(texts):
            x, base = at[0] + place * (wide + gap), at[1] + height - 1.2
            for number, line in enumerate(reversed(lines)):
                yield lettered(line, (x, base - number * setter.leading), setter.size)
            start = x + wide * (0.36 if len(lines) == 1 else 0.57)
            named = max(text_width(line, setter.size) for line in lines)
            yield SVG.line(
                (round(max(start, x + named + 1.5), 3), round(base + 0.6, 3)),
                (round(x + wide, 3), round(base + 0.6, 3)),
                stroke=INK,
                stroke_width=FINE,
            )

    return Block(height, draw)


def writing_lines(setter: Setter, count: int) -> Iterator[Block]:
    """Bare ruled lines over the whole width."""

    def draw(at: Spot) -> Iterator[Any]:
        y = round(at[1] + WRITING * setter.factor - 0.6, 3)
        yield SVG.line((at[0], y), (at[0] + setter.width, y), stroke=QUIET, stroke_width=FINE)

    for _ in range(count):
        yield Block(WRITING * setter.factor, draw)


def ticked(setter: Setter, text: str) -> list[Block]:
    """A paragraph behind a box to tick."""
    indent = 5.2 * setter.factor
    lines = wrapped(text, setter.size, setter.width - indent)

    def draw(at: Spot) -> Iterator[Any]:
        yield tick_box(setter, (at[0] + 1.4 * setter.factor, at[1] + setter.size * (0.95 - CAP_HEIGHT / 2)))
        for number, line in enumerate(lines):
            yield lettered(line, (at[0] + indent, at[1] + setter.size * 0.95 + number * setter.leading), setter.size)

    return [Block(len(lines) * setter.leading + 1.3 * setter.factor, draw)]


def tick_box(setter: Setter, at: Spot) -> Any:
    """A box to tick about a place."""
    side = 2.3 * setter.factor
    corner = (round(at[0] - side / 2, 3), round(at[1] - side / 2, 3))
    return SVG.rect(corner, (side, side), fill="none", stroke=INK, stroke_width=THIN)
