"""Lettering of known width: what a text measures, where it breaks, and the SVG that keeps it to that width.

Widths are those of the typefaces that are bundled. Every text of plain letters carries its ``textLength``, so that a
computer with another font squeezes it rather than let it run over its neighbour.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any

from app.drawing.maker import SVG
from app.drawing.palette import INK, PAPER
from app.drawing.typefaces import FURTHER, TYPEFACES, USUAL
from app.drawing.view import Spot

FONTS = ", ".join([*(f"'{typeface.family}'" for typeface in TYPEFACES), "Arial", "Helvetica", "sans-serif"])
POINT = 25.4 / 72  # mm
SMALLEST = 6.2 * POINT  # mm: nothing on a sheet is lettered smaller
CAP_HEIGHT = 0.72  # of the font's size
_WIDE, _UNKNOWN = 1000, 640  # thousandths of an em for broad letters and others that no typeface here has


class _Widths(dict[str, int]):
    """The width of every letter in thousandths of an em; a letter that the usual typeface lacks is looked up once."""

    def __init__(self, bold: bool) -> None:
        super().__init__(USUAL.widths(bold))
        self._bold = bold

    def __missing__(self, letter: str) -> int:
        """Another typeface's width, or a guess that is rather too broad."""
        others = (typeface.widths(self._bold).get(letter) for typeface in FURTHER)
        guess = _WIDE if unicodedata.east_asian_width(letter) in "WF" else _UNKNOWN
        self[letter] = next((width for width in others if width is not None), guess)
        return self[letter]


@cache
def _widths(bold: bool) -> _Widths:
    return _Widths(bold)


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of a line of text in the unit of ``size``, its font's size."""
    return sum(map(_widths(bold).__getitem__, text)) * size / 1000


def _is_known(text: str, bold: bool) -> bool:
    """Whether the width of a text is the sum of its letters': no letter joins, stacks or turns the line about."""
    widths = USUAL.widths(bold)
    return text.isascii() or all(
        letter in widths and unicodedata.bidirectional(letter) not in ("R", "AL", "NSM") for letter in text
    )


def wrapped(text: str, size: float, width: float, *, bold: bool = False) -> list[str]:
    """A text broken into lines no wider than ``width``; a word that is wider by itself is broken within."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in _fitting_words(paragraph.split(), size, width, bold):
            longer = f"{line} {word}" if line else word
            if line and text_width(longer, size, bold=bold) > width:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return lines


def _fitting_words(words: Iterable[str], size: float, width: float, bold: bool) -> Iterable[str]:
    for word in words:
        while len(word) > 1 and text_width(word, size, bold=bold) > width:
            share = max(1, int(len(word) * width / text_width(word, size, bold=bold)))
            while share > 1 and text_width(word[:share], size, bold=bold) > width:
                share -= 1
            yield word[:share]
            word = word[share:]
        yield word


def shortened(text: str, size: float, width: float, *, bold: bool = False) -> str:
    """A text that fits in ``width``, its end left out with an ellipsis where it must be."""
    if text_width(text, size, bold=bold) <= width:
        return text
    room, used, kept = width - text_width("…", size, bold=bold), 0.0, 0
    for letter in text:
        used += text_width(letter, size, bold=bold)
        if used > room:
            break
        kept += 1
    return f"{text[:kept].rstrip()}…"


def lettered(
    text: str,
    at: Spot,
    size: float,
    *,
    bold: bool = False,
    anchor: str = "start",
    turn: float = 0.0,
    halo: bool = False,
    colour: str = INK,
) -> Any:
    """One line of text with its baseline at a place of the picture; ``turn`` in degrees clockwise about it."""
    x, y = round(at[0], 3), round(at[1], 3)
    element = SVG.text(text, (x, y), font_size=round(size, 3), fill=colour)
    if text.strip() and _is_known(text, bold):
        element["textLength"] = round(text_width(text, size, bold=bold), 3)
        element["lengthAdjust"] = "spacingAndGlyphs"
    if bold:
        element["font-weight"] = "bold"
    if anchor != "start":
        element["text-anchor"] = anchor
    if turn:
        element["transform"] = f"rotate({turn:.3f} {x} {y})"
    if halo:
        element.attribs.update(
            {
                "stroke": PAPER,
                "stroke-width": round(size * 0.28, 3),
                "paint-order": "stroke",
                "stroke-linejoin": "round",
            }
        )
    return element


def word_box(element: Any) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a line of text that ``lettered`` made, level or upright."""
    attribs = element.attribs
    x, y, size = float(attribs["x"]), float(attribs["y"]), float(attribs["font-size"])
    wide = float(attribs.get("textLength", 0.0))
    before = {"middle": wide / 2, "end": wide}.get(attribs.get("text-anchor", "start"), 0.0)
    rise = CAP_HEIGHT * size
    if abs(_turn_of(attribs.get("transform", ""))) > 45:
        return (x - rise, y + before - wide, x, y + before)
    return (x - before, y - rise, x - before + wide, y)


def _turn_of(transform: str) -> float:
    return float(transform[len("rotate(") :].split()[0]) if transform.startswith("rotate(") else 0.0


def paragraph(lines: Sequence[str], at: Spot, size: float, leading: float, **look: Any) -> list[Any]:
    """Lines of text one under another; ``at`` is the first one's baseline, ``leading`` from one to the next."""
    return [lettered(line, (at[0], at[1] + leading * index), size, **look) for index, line in enumerate(lines)]
