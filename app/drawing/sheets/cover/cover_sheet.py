"""The cover sheet of a set: the job on the left with its figures, key plans and contents on the right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from app.drawing.floor_plan import LevelDrawing
from app.drawing.lettering import lettered, shortened, text_width, wrapped
from app.drawing.maker import SVG
from app.drawing.palette import INK, QUIET
from app.drawing.sheets.cover.contents import Line, contents_of
from app.drawing.sheets.cover.figures import Figure, figure_blocks
from app.drawing.sheets.cover.key_plans import draw_key_plans
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import CONFIDENTIAL, Sheet, column_area, drawing_area
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block, columns_of
from app.drawing.view import Spot
from app.drawing.weights import CUT

_PAD = 6.0  # mm between the frame and what stands within
_LEFT = 0.40  # of the width: the job and its figures
_SECRET = (
    "This set tells where a home's detectors are. Keep it as you would keep a key: give it to those who build or "
    "serve by it, and take it back; leave none on site.",
    "Publishers of drawing symbols for security say the same: the drawing itself needs security (ASTM F967-03, 1.2).",
)
_READING = "How to read it"


def cover_sheet(
    order: Order,
    number: int,
    words: str,
    figures: Iterable[Figure],
    drawings: Sequence[LevelDrawing],
    sheets: Sequence[Sheet],
    reading: Sequence[str],
) -> Sheet:
    """The cover: ``number`` in the series; ``words`` say what the set is, ``sheets`` the others of the set, and
    ``reading`` tells its readers how to use it.
    """
    f = order.paper.lettering
    left, top, right, bottom = drawing_area(order.paper)
    left, top, right, bottom = left + _PAD * f, top + _PAD * f, right - _PAD * f, bottom - _PAD * f
    split = left + (right - left) * _LEFT
    group = SVG.g(class_="cover")
    setter = Setter(split - left - 4.0 * f, f)
    blocks = [*_job(order, words, setter), *setter.heading("At a glance"), *figure_blocks(figures, setter)]
    _set(group, blocks, (left, top), bottom - top)
    cover = Sheet(order.paper.habit.number(number), "Cover", "", group)
    beside = split + 4.0 * f
    lines = contents_of([cover, *sheets])
    need = min(_contents_height(lines, right - beside, f), (bottom - top) * 0.62)
    group.add(draw_key_plans(drawings, (beside, top, right, bottom - need - 4.0 * f), 2.6 * f))
    for piece in _contents(lines, (beside, bottom - need), right - beside, need, f):
        group.add(piece)
    group.add(_notes(order, reading))
    return cover


def _set(group: Any, blocks: Iterable[Block], at: Spot, height: float) -> None:
    """Blocks one under another, as far as they fit."""
    column = columns_of(list(blocks), height)[0]
    for down, block in column:
        for piece in block.draw((at[0], round(at[1] + down, 3))):
            group.add(piece)


def _job(order: Order, words: str, setter: Setter) -> Iterator[Block]:
    """The house's name, what the set is, and whose job it is."""
    f, job = setter.factor, order.job
    yield _title(job.plan, 7.0 * f, setter)
    yield _title(words, 3.8 * f, setter)
    yield setter.space(3.0)
    rows = {
        "Site": job.address,
        "Client": job.client,
        "Designer": job.designer,
        "Date": job.saved_at,
        "Revision": job.revision,
    }
    for name, value in rows.items():
        yield from setter.paragraph(_two_lines(value, setter) or "________________", tag=name)
    if job.letterhead:
        yield setter.space(2.0)
    for number, line in enumerate(job.letterhead):
        yield from setter.paragraph(shortened(line, setter.size, setter.width), bold=number == 0)
    yield setter.space(2.0)
    yield _boxed(CONFIDENTIAL, setter)


def _two_lines(text: str, setter: Setter) -> str:
    """As much of a text as two lines hold: whole addresses do, whole letters do not."""
    return shortened(text, setter.size, 1.7 * (setter.width - 14.0 * setter.factor))


def _title(text: str, size: float, setter: Setter) -> Block:
    lines = wrapped(text, size, setter.width, bold=True)
    if len(lines) > 3:
        lines = [*lines[:2], shortened(" ".join(lines[2:]), size, setter.width, bold=True)]

    def draw(at: Spot) -> Iterator[Any]:
        for number, line in enumerate(lines):
            yield lettered(line, (at[0], at[1] + size * (0.85 + 1.15 * number)), size, bold=True)

    return Block(len(lines) * size * 1.15 + 1.5, draw, keep=True)


def _boxed(text: str, setter: Setter) -> Block:
    """Words in a heavy box, which nobody overlooks."""
    size, high = 2.9 * setter.factor, 7.0 * setter.factor
    words = shortened(text, size, setter.width - 4.0, bold=True)

    def draw(at: Spot) -> Iterator[Any]:
        yield SVG.rect(at, (round(setter.width, 3), high), fill="none", stroke=INK, stroke_width=CUT)
        yield lettered(
            words, (at[0] + setter.width / 2, at[1] + high / 2 + size * 0.36), size, bold=True, anchor="middle"
        )

    return Block(high + 1.0, draw)


def _notes(order: Order, reading: Sequence[str]) -> Any:
    """Why the set is confidential and how it is read, in the column above the title block."""
    left, top, right, bottom = column_area(order.paper)
    group = SVG.g(class_="cover-notes")
    setter = Setter(right - left, order.paper.lettering * 0.93)
    blocks = [*setter.heading("Confidential")]
    for words in _SECRET:
        blocks += setter.paragraph(words)
    blocks += setter.heading(_READING)
    for words in reading:
        blocks += setter.paragraph(words)
    _set(group, blocks, (left, top), bottom - top)
    return group


# Contents

_LEADING = 3.9  # mm between lines of the contents
_TITLE_FROM = 24.0  # mm: where titles begin
_HEAD = 8.0  # mm that the heading takes


def _columns(lines: Sequence[Line], width: float, f: float) -> int:
    """Two columns where there are many lines and room."""
    return 2 if len(lines) > 14 and width > 120 * f else 1


def _contents_height(lines: Sequence[Line], width: float, f: float) -> float:
    return (-(-len(lines) // _columns(lines, width, f)) * _LEADING + _HEAD) * f


def _contents(lines: Sequence[Line], at: Spot, width: float, height: float, f: float) -> Iterator[Any]:
    """The lines of the contents under a heading; where they are too many for the height, how many more there are."""
    size, count = 2.5 * f, _columns(lines, width, f)
    (_, heading) = Setter(width, f).heading("Contents")
    yield from heading.draw(at)
    held = max(1, int((height - _HEAD * f + 1e-6) // (_LEADING * f)))
    shown = list(lines)
    if len(lines) > held * count:
        shown = [*lines[: held * count - 1], Line("", f"and {len(lines) - held * count + 1} more lines of sheets")]
    per_column = -(-len(shown) // count)
    wide = width / count
    for number, line in enumerate(shown):
        x = at[0] + number // per_column * wide
        y = at[1] + (_HEAD + (number % per_column) * _LEADING) * f
        yield lettered(line.numbers, (x, y), size, bold=True, colour=INK)
        start = max(_TITLE_FROM * f, text_width(line.numbers, size, bold=True) + 2.0)
        words = shortened(line.title, size, wide - start - 2.0)
        yield lettered(words, (x + start, y), size, colour=INK if line.numbers else QUIET)
