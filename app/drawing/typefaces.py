"""The typefaces that sheets are lettered in: which letters each has, and how wide they are.

They are bundled, so that a sheet looks alike on every computer. Liberation Sans has Latin, Greek, Cyrillic and Hebrew
letters at the widths of Arial and Helvetica; Noto Sans has those of further scripts. All are under the SIL Open Font
License.
"""

from __future__ import annotations

import struct
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).with_name("fonts")
_EM = 1000
_UNICODE = {(3, 10): 12, (0, 4): 12, (3, 1): 4, (0, 3): 4}  # (platform, encoding) of a map of letters: its format


@dataclass(frozen=True)
class Typeface:
    """A family by the name in its font files, which are ``stem``-Regular.ttf and ``stem``-Bold.ttf."""

    family: str
    stem: str

    def widths(self, bold: bool) -> Mapping[str, int]:
        """The width of every letter that it has, in thousandths of an em."""
        return _widths(self.stem, bold)


USUAL = Typeface("Liberation Sans", "LiberationSans")
FURTHER = (
    Typeface("Noto Sans Arabic", "NotoSansArabic"),
    Typeface("Noto Sans Devanagari", "NotoSansDevanagari"),
    Typeface("Noto Sans Thai", "NotoSansThai"),
)
TYPEFACES = (USUAL, *FURTHER)


@cache
def _widths(stem: str, bold: bool) -> Mapping[str, int]:
    """The letters of a font file with their widths; OpenType tables cmap, head, hhea and hmtx."""
    data = (FOLDER / f"{stem}-{'Bold' if bold else 'Regular'}.ttf").read_bytes()
    count = struct.unpack_from(">H", data, 4)[0]
    tables = {}
    for index in range(count):
        tag, _, offset, _ = struct.unpack_from(">4sIII", data, 12 + 16 * index)
        tables[tag] = offset
    em = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    held = struct.unpack_from(">H", data, tables[b"hhea"] + 34)[0]
    advances = struct.unpack_from(f">{2 * held}H", data, tables[b"hmtx"])[::2]
    return {
        chr(letter): round(advances[min(glyph, held - 1)] * _EM / em)
        for letter, glyph in _glyphs(data, tables[b"cmap"]).items()
    }


def _glyphs(data: bytes, cmap: int) -> dict[int, int]:
    """The glyph of every letter, from the fullest map that the file has."""
    subtables = {}
    for index in range(struct.unpack_from(">H", data, cmap + 2)[0]):
        platform, encoding, offset = struct.unpack_from(">HHI", data, cmap + 4 + 8 * index)
        subtables[platform, encoding] = cmap + offset
    kind = next(kind for kind in _UNICODE if kind in subtables)
    at = subtables[kind]
    return _by_ranges(data, at) if _UNICODE[kind] == 12 else _by_segments(data, at)


def _by_ranges(data: bytes, at: int) -> dict[int, int]:
    """Format 12: ranges of letters whose glyphs follow one another."""
    glyphs: dict[int, int] = {}
    for index in range(struct.unpack_from(">I", data, at + 12)[0]):
        first, last, glyph = struct.unpack_from(">III", data, at + 16 + 12 * index)
        glyphs.update(zip(range(first, last + 1), range(glyph, glyph + last - first + 1), strict=True))
    return glyphs


def _by_segments(data: bytes, at: int) -> dict[int, int]:
    """Format 4: segments of letters, each with a step to its glyphs or a place where they are listed."""
    count = struct.unpack_from(">H", data, at + 6)[0] // 2
    ends, starts, steps, places = (
        struct.unpack_from(f">{count}{form}", data, at + 14 + 2 * count * row + (2 if row else 0))
        for row, form in enumerate("HHhH")
    )
    glyphs = {}
    for index, (first, last, step, place) in enumerate(zip(starts, ends, steps, places, strict=True)):
        listed = at + 16 + 2 * (3 * count + index) + place
        for letter in range(first, min(last, 0xFFFE) + 1):
            glyph = letter
            if place:
                glyph = struct.unpack_from(">H", data, listed + 2 * (letter - first))[0]
                if glyph == 0:
                    continue
            glyph = (glyph + step) & 0xFFFF
            if glyph:
                glyphs[letter] = glyph
    return glyphs
