"""The pixels of a picture as they are printed: cut to the sheet, faded into white, few enough for paper.

Fading is done in the pixels, so that no printer is asked for see-through ink.
"""

from __future__ import annotations

import io
import math

from PIL import Image

from app.drawing.sheets.underlay.laid import Cut

PER_INCH = 200.0  # pixels an inch of paper: a scan's thin lines stay whole, faded they need no more
MOST_PIXELS = 8_000_000  # on one sheet
MOST_BYTES = 2 * 2**20  # on one sheet
LEAST_FADE = 0.6  # walls, marks and words of the plan are to be read over it, also where the page shows it darker
_QUALITY = 82
_STEP = 0.7  # by which a picture that is still too large is reduced


def printed_pixels(image: Image.Image, cut: Cut, per_mm: float, fade: float) -> tuple[str, bytes]:
    """The media type and bytes of a part of a picture whose pixels lie ``per_mm`` to a millimetre of paper."""
    size = (cut[2] - cut[0], cut[3] - cut[1])
    share = min(1.0, PER_INCH / 25.4 / per_mm, math.sqrt(MOST_PIXELS / (size[0] * size[1])))
    while True:
        reduced = (max(1, round(size[0] * share)), max(1, round(size[1] * share)))
        part = image.crop(cut) if share == 1.0 else image.resize(reduced, Image.Resampling.BILINEAR, cut, 2.0)
        faded = part.point(_faded(fade) * len(part.getbands()))
        for media, form, settings in (
            ("image/png", "PNG", {"compress_level": 7}),
            ("image/jpeg", "JPEG", {"quality": _QUALITY}),
        ):
            content = _saved(faded, form, settings)
            if len(content) <= MOST_BYTES:
                return media, content
        share *= _STEP


def _faded(fade: float) -> list[int]:
    strength = 1.0 - max(LEAST_FADE, fade)
    return [round(255 - (255 - value) * strength) for value in range(256)]


def _saved(image: Image.Image, form: str, settings: dict[str, int]) -> bytes:
    held = io.BytesIO()
    image.save(held, form, **settings)
    return held.getvalue()
