"""Letters of a finished sheet: lines that run from right to left, and letters that no typeface here has.

Those stand as a mark that the sheet explains, and are told of with the text that they belong to; none prints as an
empty box in silence.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from app.drawing.typefaces import TYPEFACES, USUAL

LACKING = "◊"
EXPLAINED = f"{LACKING}: letters that no typeface here has"
_TEXT = re.compile(r"(<text\b[^>]*>)([^<]*)(?=</text>)")
_NO_LETTERS = {code: None for code in (*range(0x20), 0x7F, 0xFFFE, 0xFFFF) if chr(code) not in "\t\n\r"}
_FROM_RIGHT, _END = "\u202b", "\u202c"  # a part set from right to left; invisible


@dataclass(frozen=True)
class SetSheet:
    """A sheet's ``svg``, and the ``letters`` that no typeface has by the text that they stand in."""

    svg: str
    letters: Mapping[str, str]


def with_letters(svg: str) -> SetSheet:
    """The sheet with its lines in reading order and a mark in place of each letter that is lacking."""
    if set(svg) <= _plain():
        return SetSheet(svg, {})
    svg = svg.translate(_NO_LETTERS)
    lacking: dict[str, str] = {}

    def mended(found: re.Match[str]) -> str:
        text = found[2]
        letters = "".join(dict.fromkeys(letter for letter in text if letter not in all_letters() and _shows(letter)))
        if letters:
            lacking[html.unescape(text)] = letters
            text = text.translate(dict.fromkeys(map(ord, letters), LACKING))
        if runs_from_right(text):
            text = f"{_FROM_RIGHT}{text}{_END}"
        return found[1] + text

    return SetSheet(_TEXT.sub(mended, svg), lacking)


def runs_from_right(text: str) -> bool:
    """Whether the first letter that has a direction runs from right to left (Unicode Annex 9, P2 and P3)."""
    for letter in text:
        way = unicodedata.bidirectional(letter)
        if way in ("L", "R", "AL"):
            return way != "L"
    return False


@cache
def all_letters() -> frozenset[str]:
    """Every letter that some typeface has."""
    return frozenset().union(*(typeface.widths(bold=False) for typeface in TYPEFACES))


@cache
def _plain() -> frozenset[str]:
    """The usual typeface's letters that need no more than to be written down."""
    letters = {"\n", *USUAL.widths(bold=False)}
    plain = (letter for letter in letters if unicodedata.bidirectional(letter) not in ("R", "AL"))
    return frozenset(plain) - {chr(code) for code in _NO_LETTERS}


def _shows(letter: str) -> bool:
    """Whether a letter has a shape of its own: joiners, selectors and marks of direction have none."""
    return unicodedata.category(letter) not in ("Cf", "Cc") and not 0xFE00 <= ord(letter) <= 0xFE0F
