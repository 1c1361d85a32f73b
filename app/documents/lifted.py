"""Lines of a sheet that are set by typst itself, over the picture, rather than as text of the SVG.

Text of an SVG is shaped well in one typeface and from left to right alone; what mixes scripts, joins or stacks its
letters, or runs from the right, is lifted out.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from math import cos, radians, sin
from xml.etree import ElementTree

from app.drawing.sheets.setting.letters import runs_from_right
from app.drawing.typefaces import USUAL

_TEXT = "{http://www.w3.org/2000/svg}text"
_TURN = re.compile(r"rotate\((\S+)(?:[ ,]+(\S+)[ ,]+(\S+))?\)")
_UNSEEN = dict.fromkeys(map(ord, "\u202a\u202b\u202c\u2066\u2067\u2068\u2069"))


@dataclass(frozen=True)
class Line:
    """A line of text with its baseline at ``x``, ``y`` and its font's ``size`` in mm; ``turn`` in degrees clockwise."""

    text: str
    x: float
    y: float
    size: float
    turn: float
    bold: bool
    anchor: str
    colour: str

    @property
    def from_right(self) -> bool:
        """Whether it is read from right to left."""
        return runs_from_right(self.text)


def lifted(svg: str) -> tuple[str, list[Line]]:
    """The sheet without the lines that go over it, and those lines."""
    if set(svg) <= _plain():
        return svg, []
    root = ElementTree.fromstring(svg)
    lines = list(_lines(root, 0.0, (0.0, 0.0)))
    return ElementTree.tostring(root, encoding="unicode"), lines


@cache
def _plain() -> frozenset[str]:
    """Letters of the usual typeface that stand one beside another from left to right."""
    others = ("R", "AL", "AN", "NSM", "BN")
    return frozenset("\n").union(
        letter
        for letter in USUAL.widths(bold=False)
        if unicodedata.bidirectional(letter) not in others and unicodedata.category(letter) != "Cf"
    )


def _lines(part: ElementTree.Element, turn: float, about: tuple[float, float]) -> Iterator[Line]:
    """Takes the lines out of a part of the sheet; parts that turn their lines about a point are followed."""
    turn, about = _turned(part, turn, about)
    for child in list(part):
        if child.tag == _TEXT and not set(child.text or "") <= _plain():
            yield _line(child, *_turned(child, turn, about))
            part.remove(child)
        else:
            yield from _lines(child, turn, about)


def _turned(part: ElementTree.Element, turn: float, about: tuple[float, float]) -> tuple[float, tuple[float, float]]:
    found = _TURN.match(part.get("transform", ""))
    return (float(found[1]), (float(found[2] or 0), float(found[3] or 0))) if found else (turn, about)


def _line(text: ElementTree.Element, turn: float, about: tuple[float, float]) -> Line:
    x, y = float(text.get("x", "0")), float(text.get("y", "0"))
    dx, dy, angle = x - about[0], y - about[1], radians(turn)
    return Line(
        (text.text or "").translate(_UNSEEN),
        about[0] + dx * cos(angle) - dy * sin(angle) if turn else x,
        about[1] + dx * sin(angle) + dy * cos(angle) if turn else y,
        float(text.get("font-size", "2.5")),
        turn,
        text.get("font-weight") == "bold",
        text.get("text-anchor", "start"),
        text.get("fill", "#000"),
    )
