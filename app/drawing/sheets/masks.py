"""Bare paper behind the words of a plan, so that no line runs through them.

A halo about each letter would bite into the letter before it, where a program paints letter by letter.
"""

from __future__ import annotations

import html
import re

from app.drawing.lettering import CAP_HEIGHT, text_width
from app.drawing.palette import PAPER

_HALO = re.compile(r'<text\b(?=[^>]* paint-order="stroke")([^>]*)>([^<]*)</text>')
_OF_HALO = re.compile(r' (?:stroke|stroke-width|stroke-linejoin|paint-order)="[^"]*"')
_ATTRIBUTE = re.compile(r' ([\w-]+)="([^"]*)"')
_SIDE, _ABOVE, _BELOW = 0.14, 0.07, 0.12  # of the font's size, beyond the letters


def with_masks(svg: str) -> str:
    """The sheet with every halo turned into a mask behind its line of text."""
    return _HALO.sub(_masked, svg)


def _masked(found: re.Match[str]) -> str:
    look = dict(_ATTRIBUTE.findall(found[1]))
    x, y, size = float(look["x"]), float(look["y"]), float(look["font-size"])
    bold = look.get("font-weight") == "bold"
    wide = float(look.get("textLength") or text_width(html.unescape(found[2]), size, bold=bold))
    left = x - {"middle": wide / 2, "end": wide}.get(look.get("text-anchor", "start"), 0.0) - _SIDE * size
    top, high = y - (CAP_HEIGHT + _ABOVE) * size, (CAP_HEIGHT + _ABOVE + _BELOW) * size
    turn = f' transform="{look["transform"]}"' if "transform" in look else ""
    mask = (
        f'<rect class="mask" x="{left:.3f}" y="{top:.3f}" width="{wide + 2 * _SIDE * size:.3f}" height="{high:.3f}" '
        f'fill="{PAPER}"{turn}/>'
    )
    return f"{mask}<text{_OF_HALO.sub('', found[1])}>{found[2]}</text>"
