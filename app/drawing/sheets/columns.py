"""Sheets of notes and tables in even columns, with the cautions above the title block."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from app.drawing.maker import SVG
from app.drawing.sheets.cautions import CAUTIONS
from app.drawing.sheets.flow import Block, balanced, columns_of
from app.drawing.sheets.frame import Sheet, column_area, drawing_area
from app.drawing.sheets.papers import Paper
from app.drawing.sheets.setting import Setter

COLUMN = 90.0  # mm: about seventy letters a line
_BETWEEN = 6.0  # mm between columns
_PAD = 5.0  # mm between the frame and the columns


def column_sheets(contents: Callable[[Setter], Iterable[Block]], paper: Paper, first: int, title: str) -> list[Sheet]:
    """Contents set into columns and on to as many sheets as they take; ``first`` is the first one's number."""
    f = paper.lettering
    left, top, right, bottom = drawing_area(paper)
    pad = _PAD * f
    inner = right - left - 2 * pad
    count = max(1, int((inner + _BETWEEN * f) // ((COLUMN + _BETWEEN) * f)))
    width = (inner - (count - 1) * _BETWEEN * f) / count
    columns = balanced(list(contents(Setter(width, f))), bottom - top - 2 * pad, count)
    sheets = []
    for index in range(0, len(columns), count):
        group = SVG.g(class_="schedule-sheet")
        for place, column in enumerate(columns[index : index + count]):
            x = left + pad + place * (width + _BETWEEN * f)
            for down, block in column:
                for piece in block.draw((round(x, 3), round(top + pad + down, 3))):
                    group.add(piece)
        group.add(_cautions(paper))
        sheets.append(Sheet(f"TY-{first + index // count:03d}", title, "", group))
    return sheets


def _cautions(paper: Paper) -> Any:
    """The cautions, in the column above the title block."""
    left, top, right, bottom = column_area(paper)
    group = SVG.g(class_="cautions")
    setter = Setter(right - left, paper.lettering * 0.93)
    blocks = [block for caution in CAUTIONS for block in setter.paragraph(caution)]
    (column,) = columns_of([*setter.heading("Cautions"), *blocks], bottom - top)
    for down, block in column:
        for piece in block.draw((left, top + down)):
            group.add(piece)
    return group
