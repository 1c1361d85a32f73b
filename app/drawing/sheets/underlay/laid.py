"""What lies under a level: a picture's bytes and its placement; where its pixels fall on a sheet.

The same meaning as the page's: pixel (u, v) lies at origin + scale · turned (u, −v).
"""

from __future__ import annotations

import io
import math
from dataclasses import dataclass
from functools import cached_property

from PIL import Image

from app.drawing.house.board import Box
from app.drawing.view import Spot, View
from app.plan.faults import Fault, PlanRefused
from app.plan.placement import Placement

_FORMS = ("PNG", "JPEG", "WEBP")
Matrix = tuple[float, float, float, float, float, float]
Cut = tuple[int, int, int, int]  # left, top, right and bottom in pixels


@dataclass(frozen=True)
class Laid:
    """A picture under the level of an id, as it is kept."""

    level: str
    content: bytes
    placement: Placement

    @cached_property
    def image(self) -> Image.Image:
        """Its pixels in grey or colour, on white where they were see-through; raises ``PlanRefused``."""
        try:
            with Image.open(io.BytesIO(self.content), formats=_FORMS) as image:
                return _opaque(image)
        except MemoryError:
            raise
        except Exception:
            # A broken file fails in as many ways as there are places in it.
            words = "the picture under it cannot be read; lay its file again, or print without pictures"
            raise PlanRefused([Fault(f"levels {self.level}", words)]) from None

    def matrix(self, view: View) -> Matrix:
        """From its pixels to millimetres of the sheet, as SVG's ``matrix`` takes it."""
        k, turn = view.scale * self.placement.scale, math.radians(self.placement.turn)
        cos, sin = k * math.cos(turn), k * math.sin(turn)
        return (cos, -sin, sin, cos, *view.spot(self.placement.origin))

    def cut(self, view: View, window: Box) -> Cut | None:
        """The upright part of the picture that a window of the sheet (in mm) shows; None where it shows nothing."""
        a, b, c, d, e, f = self.matrix(view)
        of_all, left, top, right, bottom = a * d - b * c, *window

        def pixel(spot: Spot) -> Spot:
            x, y = spot[0] - e, spot[1] - f
            return ((d * x - c * y) / of_all, (a * y - b * x) / of_all)

        corners = [pixel(spot) for spot in ((left, top), (right, top), (right, bottom), (left, bottom))]
        (west, east), (low, high) = ((min(axis), max(axis)) for axis in zip(*corners, strict=True))
        wide, tall = self.image.size
        first = (max(0, math.floor(west)), max(0, math.floor(low)))
        part = (*first, min(wide, math.ceil(east)), min(tall, math.ceil(high)))
        return part if part[0] < part[2] and part[1] < part[3] else None


def _opaque(image: Image.Image) -> Image.Image:
    if image.mode in ("1", "L"):
        return image.convert("L")
    if image.mode in ("LA", "PA", "RGBA") or "transparency" in image.info:
        whole = image.convert("RGBA")
        white = Image.new("RGB", whole.size, "white")
        white.paste(whole, mask=whole.getchannel("A"))
        return white
    return image.convert("RGB")
