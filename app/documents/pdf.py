"""Sheets to one PDF file: each sheet's SVG on a page of its exact size, with bookmarks and embedded fonts.

Set by typst from memory: nothing is read but the bundled typefaces, and nothing is written.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass

import typst

from app.documents.lifted import Line, lifted
from app.drawing.typefaces import FOLDER, TYPEFACES

_FAMILIES = json.dumps([typeface.family for typeface in TYPEFACES]).replace("[", "(").replace("]", ",)")
_UNKERNED = '<svg style="font-kerning:none" '  # lines are measured so; kerned, their letters would be stretched
_BROAD = 2000  # mm: a line is set into a box so wide that it never breaks
_SIDES = {"start": ("left", 0.0), "middle": ("center", 0.5), "end": ("right", 1.0)}


@dataclass(frozen=True)
class PdfSheet:
    """One page: ``svg`` text drawn ``width`` × ``height`` mm, and the ``title`` of its bookmark."""

    title: str
    svg: str
    width: float
    height: float


def pdf_of(sheets: Sequence[PdfSheet], *, title: str) -> bytes:
    """The PDF of some sheets, at true size; the same sheets give the same bytes."""
    files: dict[str, bytes] = {}
    pages = []
    for index, sheet in enumerate(sheets):
        picture, lines = lifted(sheet.svg.replace("<svg ", _UNKERNED, 1))
        files[f"{index}.svg"] = picture.encode()
        pages.append(_page(index, sheet, lines))
    # Text goes through json, whose strings typst reads as its own, so that no name is ever taken as markup.
    head = f"#set document(title: {_text(title)}, date: none)\n#set text(font: {_FAMILIES})\n"
    files["main"] = (head + "\n".join(pages)).encode()
    try:
        # A dict of files is what typst takes for a document in memory; its stubs know paths and bytes only.
        pdf: bytes = typst.compile(files, font_paths=[str(FOLDER)], ignore_system_fonts=True)  # type: ignore[call-overload]
    except BaseException as broken:
        if type(broken).__name__ == "PanicException":  # its own, and no Exception: it would end the whole program
            raise RuntimeError(f"the PDF could not be set: {broken}") from None
        raise
    return pdf


def _page(index: int, sheet: PdfSheet, lines: Sequence[Line]) -> str:
    bookmark = f"#place(hide(heading(level: 1, bookmarked: true, outlined: true, text(1pt, {_text(sheet.title)}))))"
    image = f'#image("{index}.svg", width: {sheet.width:g}mm, height: {sheet.height:g}mm, alt: {_text(sheet.title)})'
    over = "".join(map(_placed, lines))
    return f"#page(width: {sheet.width:g}mm, height: {sheet.height:g}mm, margin: 0mm)[{bookmark}{image}{over}]"


def _placed(line: Line) -> str:
    """A lifted line at its place, turned about the anchor of its baseline."""
    side, share = _SIDES[line.anchor]
    weight, way = "bold" if line.bold else "regular", "rtl" if line.from_right else "ltr"
    look = f'size: {line.size:g}mm, weight: "{weight}", dir: {way}, top-edge: "baseline", bottom-edge: "baseline"'
    words = f'text({look}, fill: rgb("{line.colour}"), {_text(line.text)})'
    box = f"box(width: {_BROAD}mm, align({side}, {words}))"
    turned = f"rotate({line.turn:g}deg, origin: {side} + top, {box})" if line.turn else box
    return f"#place(top + left, dx: {line.x - share * _BROAD:.3f}mm, dy: {line.y:.3f}mm, {turned})"


def _text(words: str) -> str:
    """A typst string: JSON's escapes for quotes and backslashes are typst's too; other letters stand as they are."""
    return json.dumps(" ".join(words.split()), ensure_ascii=False)
