"""What every sheet has: its frame, and the column on the right that ends in the title block.

The block says whose house it is, what the sheet shows, at what scale, which revision of what day, and that it is
confidential.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.drawing.house.board import Box
from app.drawing.lettering import CAP_HEIGHT, FONTS, SMALLEST, lettered, paragraph, shortened, text_width, wrapped
from app.drawing.maker import SVG
from app.drawing.palette import INK, PAPER, QUIET
from app.drawing.sheets.paper.border import border
from app.drawing.sheets.paper.papers import Paper
from app.drawing.weights import CUT, THIN

CONFIDENTIAL = "Confidential: shows where detectors are"
PUBLIC = "General guide: shows no house"
NOT_TO_SCALE = "Not to scale"
_MOST_ACROSS = 2  # lines of a title block's row that takes the whole width
_GAP = 4.0  # mm between the drawing and the column


@dataclass(frozen=True)
class Job:
    """What stands in every title block of a set; its ``letterhead`` stands in every frame."""

    plan: str
    client: str
    address: str
    designer: str
    revision: str
    saved_at: str
    letterhead: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sheet:
    """One sheet: its ``number`` such as TY-101, its ``title``, the ``scale`` in words (none: not to scale), and the
    ``drawing``, or what makes it: a set of many sheets is drawn one by one, and told of and stopped between them.
    A ``public`` sheet may be handed out: it names no client and no address.
    """

    number: str
    title: str
    scale: str
    drawing: Any
    public: bool = False

    @property
    def drawn(self) -> Any:
        """The drawing itself; what only draws one when its turn comes is called."""
        return self.drawing() if callable(self.drawing) else self.drawing


def drawing_area(paper: Paper) -> Box:
    """Left, top, right and bottom of what is left of the column, in mm."""
    left, top, right, bottom = paper.frame
    return (left, top, right - paper.title_width, bottom)


def column_area(paper: Paper) -> Box:
    """Left, top, right and bottom of the column above its title block, in mm."""
    pad = 3.0 * paper.lettering
    _, top, right, bottom = paper.frame
    return (right - paper.title_width + pad, top + pad, right - pad, bottom - title_height(paper) - pad)


def title_height(paper: Paper) -> float:
    """Height of the title block in mm."""
    return 68.0 * paper.lettering


def framed(paper: Paper, job: Job, sheet: Sheet, place: tuple[int, int], note: str = "") -> Any:
    """A whole sheet as an SVG element at its exact size; ``place`` is which sheet of how many, ``note`` a line at
    its foot.
    """
    svg = SVG.svg(
        size=(f"{paper.width:g}mm", f"{paper.height:g}mm"),
        viewBox=f"0 0 {paper.width:g} {paper.height:g}",
        font_family=FONTS,
        class_="sheet-drawing",
    )
    svg["xmlns"] = "http://www.w3.org/2000/svg"
    svg.set_desc(title=f"{sheet.number} {sheet.title}")
    svg.add(SVG.rect((0, 0), (paper.width, paper.height), fill=PAPER))
    svg.add(sheet.drawn)
    left, top, right, bottom = paper.frame
    lines = SVG.g(fill="none", stroke=INK, stroke_width=CUT, class_="frame")
    lines.add(SVG.rect((left, top), (right - left, bottom - top)))
    lines.add(SVG.line((right - paper.title_width, top), (right - paper.title_width, bottom)))
    svg.add(lines)
    svg.add(border(paper))
    if job.letterhead:
        for piece in _letterhead(paper, job.letterhead):
            svg.add(piece)
    if note:
        svg.add(lettered(note, (left + 2.0, bottom - 1.4), SMALLEST, halo=True))
    svg.add(_title_block(paper, job, sheet, place))
    return svg


def _title_block(paper: Paper, job: Job, sheet: Sheet, place: tuple[int, int]) -> Any:
    f = paper.lettering
    _, _, right, bottom = paper.frame
    left = right - paper.title_width
    top = bottom - title_height(paper)
    pad, wide = 3.0 * f, paper.title_width - 6.0 * f
    group = SVG.g(class_="title-block")
    rules = SVG.g(stroke=INK, stroke_width=THIN, fill="none")
    group.add(SVG.line((left, top), (right, top), stroke=INK, stroke_width=CUT))
    group.add(rules)
    y = top + 5.2 * f
    for text in wrapped(job.plan, 3.9 * f, wide, bold=True)[:2]:
        group.add(lettered(shortened(text, 3.9 * f, wide, bold=True), (left + pad, y), 3.9 * f, bold=True))
        y += 4.7 * f
    for text in [line for line in (job.client, job.address) if line and not sheet.public][:2]:
        group.add(lettered(shortened(text, 2.5 * f, wide), (left + pad, y - 0.4 * f), 2.5 * f))
        y += 3.5 * f
    says = paper.habit.captions
    rows = {
        says.designer: job.designer,
        says.revision: job.revision,
        says.date: job.saved_at,
        says.scale: sheet.scale or NOT_TO_SCALE,
    }
    y = top + 22.0 * f
    rules.add(SVG.line((left, y - 1.5 * f), (right, y - 1.5 * f)))
    _rows(group, {name: value for name, value in rows.items() if value}, (left + pad, y + 2.2 * f), wide, f)
    y = top + 45.0 * f
    rules.add(SVG.line((left, y), (right, y)))
    title = wrapped(sheet.title, 3.0 * f, wide, bold=True)[:2]
    for line in paragraph(title, (left + pad, y + 4.6 * f), 3.0 * f, 3.8 * f, bold=True):
        group.add(line)
    group.add(lettered(sheet.number, (left + pad, bottom - 6.2 * f), 7.0 * f, bold=True))
    count = f"sheet {place[0]} of {place[1]}"
    group.add(lettered(count, (right - pad, bottom - 6.2 * f), 2.4 * f, anchor="end"))
    rules.add(SVG.line((left, bottom - 4.4 * f), (right, bottom - 4.4 * f)))
    group.add(lettered(PUBLIC if sheet.public else CONFIDENTIAL, (left + pad, bottom - 1.5 * f), 2.4 * f, bold=True))
    return group


def _letterhead(paper: Paper, lines: Sequence[str]) -> Iterator[Any]:
    """What a company says of itself, its name in bold, set into the lower line of the frame: so it takes no room."""
    left, _, right, bottom = paper.frame
    size = max(SMALLEST, 2.5 * paper.lettering)
    end, most = right - paper.title_width - 4.0, right - paper.title_width - left - 16.0
    name = shortened(lines[0], size, most, bold=True)
    wide = text_width(name, size, bold=True)
    more = shortened(" · ".join(lines[1:]), size, most - wide) if most - wide > 12.0 else ""
    wide += 2.5 * paper.lettering if more else 0.0
    start = end - wide - text_width(more, size)
    back = (start - 1.5, round(bottom - size * 0.7, 3)), (round(end - start + 3.0, 3), round(size * 1.4, 3))
    yield SVG.rect(*back, fill=PAPER)
    base = round(bottom + size * CAP_HEIGHT / 2, 3)
    yield lettered(name, (round(start, 3), base), size, bold=True)
    if more:
        yield lettered(more, (round(start + wide, 3), base), size)


def _rows(group: Any, rows: Mapping[str, str], at: tuple[float, float], wide: float, f: float) -> None:
    """Each row by its name; a sentence too long to stand beside its name, as of an approval, takes the whole width."""
    x, y = at
    for name, value in rows.items():
        lines, start = wrapped(value, 2.5 * f, wide - 17 * f), x + 17 * f
        across = wrapped(value, 2.5 * f, wide)
        if len(lines) > 2 and name.lower() in value.lower() and len(across) <= _MOST_ACROSS:
            lines, start = across, x
        elif len(lines) > 2:
            lines = [lines[0], shortened(" ".join(lines[1:]), 2.5 * f, wide - 17 * f)]
        if start > x:
            group.add(lettered(name, (x, y), 2.3 * f, colour=QUIET))
        for line in lines:
            group.add(lettered(line, (start, y), 2.5 * f))
            y += 3.1 * f
        y += 1.2 * f


def heading(text: str, at: tuple[float, float], size: float, wide: float) -> list[Any]:
    """A heading in capitals with a rule beneath it."""
    x, y = at
    words = shortened(text.upper(), size, wide, bold=True)
    below = y + size * (1.15 - CAP_HEIGHT) + 0.3
    assert text_width(words, size, bold=True) <= wide + 1e-6
    return [
        lettered(words, (x, y), size, bold=True),
        SVG.line((x, below), (x + wide, below), stroke=INK, stroke_width=THIN),
    ]
