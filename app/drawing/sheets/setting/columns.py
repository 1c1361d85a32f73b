"""Sheets of notes and tables in even columns, with the cautions above the title block.

Sections flow one after another; a sheet is called by the sections that stand on it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from app.drawing.lettering import wrapped
from app.drawing.maker import SVG
from app.drawing.sheets.cautions import CAUTIONS
from app.drawing.sheets.paper.frame import Sheet, column_area, drawing_area
from app.drawing.sheets.paper.papers import Paper
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block, Column, balanced, columns_of

NARROW = 90.0  # mm: about seventy letters a line
WIDE = 185.0  # mm: a table of many columns, which takes the whole of a small sheet
_BETWEEN = 6.0  # mm between columns
_PAD = 5.0  # mm between the frame and the columns
_LARGER = (1.6, 1.5, 1.4, 1.3, 1.2, 1.1)
_BROADEST = 1.5  # of a narrow column: longer lines are hard to follow
_CAUTION_SIZES = (0.93, 0.9, 0.87, 0.8, 0.7)  # of usual lettering, which itself never shrinks below the smallest


@dataclass(frozen=True)
class Section:
    """``title`` names it in the sheet's title and in the contents; ``contents`` sets it into a column."""

    title: str
    contents: Callable[[Setter], Iterable[Block]]


@dataclass(frozen=True)
class Grid:
    """The columns of a sheet: how many, how wide and high, from where, in mm."""

    count: int
    width: float
    height: float
    left: float
    top: float
    between: float

    @classmethod
    def of(cls, paper: Paper, column: float) -> Grid:
        """As many columns at least ``column`` wide as the paper holds."""
        f = paper.lettering
        left, top, right, bottom = drawing_area(paper)
        inner, between = right - left - 2 * _PAD * f, _BETWEEN * f
        count = max(1, int((inner + between) // (column * f + between)))
        width = (inner - (count - 1) * between) / count
        return cls(count, width, bottom - top - 2 * _PAD * f, left + _PAD * f, top + _PAD * f, between)

    def drawn(self, columns: Sequence[Column]) -> Any:
        """Columns side by side as a group."""
        group = SVG.g(class_="schedule-sheet")
        for place, column in enumerate(columns):
            x = self.left + place * (self.width + self.between)
            for down, block in column:
                for piece in block.draw((round(x, 3), round(self.top + down, 3))):
                    group.add(piece)
        return group


@dataclass(frozen=True)
class _Setting:
    """Sections as blocks, for a grid; ``title_of`` says by a block's id whose it is."""

    grid: Grid
    blocks: list[Block]
    title_of: dict[int, str]

    @classmethod
    def of(cls, sections: Sequence[Section], paper: Paper, column: float, larger: float = 1.0) -> _Setting:
        """Set for columns at least ``column`` mm wide, in letters ``larger`` than is usual on the paper."""
        grid = Grid.of(paper, column)
        setter = Setter(grid.width, paper.lettering * larger)
        blocks: list[Block] = []
        title_of: dict[int, str] = {}
        for section in sections:
            own = list(section.contents(setter))
            title_of.update(dict.fromkeys(map(id, own), section.title))
            blocks += own
        return cls(grid, blocks, title_of)

    def sheets(self, columns: Sequence[Column], paper: Paper, first: int) -> list[Sheet]:
        """The columns side by side on as many sheets as they take, with the cautions."""
        sheets: list[Sheet] = []
        for index in range(0, len(columns), self.grid.count):
            here = columns[index : index + self.grid.count]
            group = self.grid.drawn(here)
            group.add(_cautions(paper))
            titles = [self.title_of[id(block)] for column in here for _, block in column if id(block) in self.title_of]
            title = _joined(list(dict.fromkeys(titles)), paper)
            sheets.append(Sheet(paper.habit.number(first + len(sheets)), title, "", group))
        return sheets


def section_sheets(sections: Sequence[Section], paper: Paper, first: int, column: float = NARROW) -> list[Sheet]:
    """Sections set into columns and on to as many sheets as they take; ``first`` is the first one's number."""
    setting = _Setting.of(sections, paper, column)
    return setting.sheets(balanced(setting.blocks, setting.grid.height, setting.grid.count), paper, first)


def roomy_sheets(sections: Sequence[Section], paper: Paper, first: int) -> list[Sheet]:
    """The same for what is signed or hung up as one sheet: where a paper has room to spare, it is set larger."""
    for larger in _LARGER:
        setting = _Setting.of(sections, paper, NARROW * larger, larger)
        columns = balanced(setting.blocks, setting.grid.height, setting.grid.count)
        if len(columns) <= setting.grid.count and setting.grid.width <= _BROADEST * NARROW * paper.lettering * larger:
            return setting.sheets(columns, paper, first)
    return section_sheets(sections, paper, first)


def filled_sheets(sections: Sequence[Section], paper: Paper, first: int) -> list[Sheet]:
    """The same for a form that goes on: its last block, a row to write in, stands again until the sheet is full."""
    setting = _Setting.of(sections, paper, WIDE)
    columns, row, grid = columns_of(setting.blocks, setting.grid.height), setting.blocks[-1], setting.grid
    while True:
        down, last = columns[-1][-1] if columns[-1] else (0.0, row)
        used = down + last.height if columns[-1] else 0.0
        if used + row.height <= grid.height:
            columns[-1].append((used, row))
        elif len(columns) % grid.count:
            columns.append([(0.0, row.header)] if row.header else [])
        else:
            return setting.sheets(columns, paper, first)


def _joined(titles: Sequence[str], paper: Paper) -> str:
    """The titles in one that the title block holds in two lines; where too many, the first and how many more."""
    for shown in range(len(titles), 0, -1):
        names = [titles[0], *(title[:1].lower() + title[1:] for title in titles[1:shown])]
        more = len(titles) - shown
        words = ", ".join(names) + (f" and {more} more" if more else "")
        if len(wrapped(words, 3.0, paper.title_width / paper.lettering - 6.0, bold=True)) <= 2:
            return words
    return titles[0]


def _cautions(paper: Paper) -> Any:
    """The cautions, in the column above the title block, set closer where the column is short."""
    left, top, right, bottom = column_area(paper)
    group = SVG.g(class_="cautions")
    for size in _CAUTION_SIZES:
        setter = Setter(right - left, paper.lettering * size)
        blocks = [block for caution in CAUTIONS for block in setter.paragraph(caution)]
        columns = columns_of([*setter.heading("Cautions"), *blocks], bottom - top)
        if len(columns) == 1:
            break
    for down, block in columns[0]:
        for piece in block.draw((left, top + down)):
            group.add(piece)
    return group
