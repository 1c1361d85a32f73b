"""Sheets to one PDF file: each sheet's SVG on a page of its exact size, with bookmarks and embedded fonts.

Set by typst from memory: nothing is read but the fonts beside this module, and nothing is written.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import typst

FONTS = Path(__file__).with_name("fonts")


@dataclass(frozen=True)
class PdfSheet:
    """One page: ``svg`` text drawn ``width`` × ``height`` mm, and the ``title`` of its bookmark."""

    title: str
    svg: str
    width: float
    height: float


def pdf_of(sheets: Sequence[PdfSheet], *, title: str) -> bytes:
    """The PDF of some sheets, at true size; the same sheets give the same bytes."""
    files = {f"{index}.svg": sheet.svg.encode() for index, sheet in enumerate(sheets)}
    pages = [_page(index, sheet) for index, sheet in enumerate(sheets)]
    # Text goes through json, whose strings typst reads as its own, so that no name is ever taken as markup.
    head = f'#set document(title: {_text(title)}, date: none)\n#set text(font: "Liberation Sans")\n'
    files["main"] = (head + "\n".join(pages)).encode()
    # A dict of files is what typst takes for a document in memory; its stubs know paths and bytes only.
    pdf: bytes = typst.compile(files, font_paths=[str(FONTS)], ignore_system_fonts=True)  # type: ignore[call-overload]
    return pdf


def _page(index: int, sheet: PdfSheet) -> str:
    bookmark = f"#place(hide(heading(level: 1, bookmarked: true, outlined: true, text(1pt, {_text(sheet.title)}))))"
    image = f'#image("{index}.svg", width: {sheet.width:g}mm, height: {sheet.height:g}mm, alt: {_text(sheet.title)})'
    return f"#page(width: {sheet.width:g}mm, height: {sheet.height:g}mm, margin: 0mm)[{bookmark}{image}]"


def _text(words: str) -> str:
    """A typst string: JSON's escapes for quotes and backslashes are typst's too; other letters stand as they are."""
    return json.dumps(" ".join(words.split()), ensure_ascii=False)
