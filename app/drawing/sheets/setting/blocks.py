"""Headings, paragraphs and tables set into blocks of one column's width."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from app.drawing.lettering import CAP_HEIGHT, SMALLEST, lettered, text_width, wrapped
from app.drawing.maker import SVG
from app.drawing.palette import INK, QUIET
from app.drawing.sheets.setting.flow import Block
from app.drawing.view import Spot
from app.drawing.weights import FINE, THIN

Sign = Callable[[Spot], Any]
_SHORT_NOTE = 4  # lines


@dataclass(frozen=True)
class Cell:
    """A cell of a table: its text, and a small sign before it."""

    text: str
    sign: Sign | None = None
    bold: bool = False


@dataclass(frozen=True)
class Row:
    """A row of cells, with notes across the whole width beneath it."""

    cells: tuple[Cell, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Setter:
    """Sets text into a column ``width`` mm wide; ``factor`` multiplies the sizes for a larger paper."""

    width: float
    factor: float = 1.0

    @property
    def size(self) -> float:
        """The font's size of running text in mm."""
        return max(SMALLEST, 2.5 * self.factor)

    @property
    def leading(self) -> float:
        """From one baseline to the next, in mm."""
        return self.size * 1.32

    def heading(self, text: str) -> list[Block]:
        """A heading with space above and a rule beneath; it stays with what follows."""
        size = 3.2 * self.factor
        lines = wrapped(text.upper(), size, self.width, bold=True)
        height = len(lines) * size * 1.2 + 2.2 * self.factor

        def draw(at: Spot) -> Iterator[Any]:
            for number, line in enumerate(lines):
                yield lettered(line, (at[0], at[1] + size * (0.95 + 1.2 * number)), size, bold=True)
            y = at[1] + len(lines) * size * 1.2 + 0.5 * self.factor
            yield SVG.line((at[0], y), (at[0] + self.width, y), stroke=INK, stroke_width=THIN)

        return [self.space(4.5), Block(height, draw, keep=True)]

    def space(self, height: float) -> Block:
        """Bare space that falls away at the top of a column."""
        return Block(height * self.factor, lambda at: (), keep=True, gap=True)

    def paragraph(self, text: str, *, tag: str = "", bold: bool = False, quiet: bool = False) -> list[Block]:
        """A paragraph, line by line; a ``tag`` stands before it in bold and the text hangs to its right."""
        indent = 0.0
        if tag:
            indent = max(13.5 * self.factor, text_width(tag, self.size, bold=True) + 2.0)
        lines = wrapped(text, self.size, self.width - indent, bold=bold)
        blocks = []
        for number, line in enumerate(lines):
            last = number == len(lines) - 1
            alone = number in (0, len(lines) - 2)  # the first line is not left behind, nor the last one sent on
            height = self.leading + (0.9 * self.factor if last else 0.0)
            blocks.append(
                Block(
                    height,
                    self._line(line, indent, tag if number == 0 else "", bold, quiet),
                    keep=not last and alone,
                )
            )
        return blocks

    def _line(self, line: str, indent: float, tag: str, bold: bool, quiet: bool) -> Callable[[Spot], Iterator[Any]]:
        def draw(at: Spot) -> Iterator[Any]:
            base = at[1] + self.size
            if tag:
                yield lettered(tag, (at[0], base), self.size, bold=True)
            yield lettered(line, (at[0] + indent, base), self.size, bold=bold, colour=QUIET if quiet else INK)

        return draw

    def table(self, heads: Sequence[str], shares: Sequence[float], rows: Iterable[Row]) -> list[Block]:
        """A table whose head stands again wherever it goes on; ``shares`` of the width make its columns."""
        total = sum(shares)
        widths = [self.width * share / total for share in shares]
        head = self._row(Row(tuple(Cell(text, bold=True) for text in heads)), widths, rule=THIN)
        header = Block(head.height, head.draw, keep=True)
        blocks = [header]
        for row in rows:
            drawn = self._row(row, widths, rule=0.0 if row.notes else FINE)
            blocks.append(Block(drawn.height, drawn.draw, keep=bool(row.notes), header=header))
            lines = [line for note in row.notes for line in wrapped(note, self.size, self.width - 5 * self.factor)]
            for number, line in enumerate(lines):
                last = number == len(lines) - 1
                # A short note is not parted from its row; a long one may be.
                keep = not last and len(lines) <= _SHORT_NOTE
                height = self.leading + (0.8 if last else 0.0)
                blocks.append(Block(height, self._note(line, last), keep=keep, header=header))
        return blocks

    def _note(self, line: str, last: bool) -> Callable[[Spot], Iterator[Any]]:
        def draw(at: Spot) -> Iterator[Any]:
            yield lettered(line, (at[0] + 5 * self.factor, at[1] + self.size * 0.95), self.size)
            if last:
                y = round(at[1] + self.leading + 0.8, 3)
                yield SVG.line((at[0], y), (at[0] + self.width, y), stroke=QUIET, stroke_width=FINE)

        return draw

    def _row(self, row: Row, widths: Sequence[float], rule: float) -> Block:
        pad, sign = 1.2, 4.0 * self.factor
        texts = [
            wrapped(cell.text, self.size, width - pad - (sign if cell.sign else 0.0), bold=cell.bold)
            for cell, width in zip(row.cells, widths, strict=True)
        ]
        least = 4.4 * self.factor if any(cell.sign for cell in row.cells) else 0.0
        height = max(least, max(map(len, texts)) * self.leading) + 0.9 * self.factor

        def draw(at: Spot) -> Iterator[Any]:
            x = at[0]
            first = at[1] + 0.45 * self.factor + (max(least, self.leading) - self.leading) / 2 + self.size * 0.95
            for cell, width, lines in zip(row.cells, widths, texts, strict=True):
                if cell.sign:
                    yield cell.sign((x + sign * 0.36, first - self.size * CAP_HEIGHT / 2))
                for number, line in enumerate(lines):
                    left = x + (sign if cell.sign else 0.0)
                    yield lettered(line, (left, first + number * self.leading), self.size, bold=cell.bold)
                x += width
            if rule:
                y = round(at[1] + height, 3)
                yield SVG.line(
                    (at[0], y), (at[0] + self.width, y), stroke=INK if rule > FINE else QUIET, stroke_width=rule
                )

        return Block(height, draw)
