"""A picture under a level as it stands on a sheet: in its place beneath the plan, cut off at the plan's window."""

from __future__ import annotations

import base64
from typing import Any

from app.drawing.house.board import Box
from app.drawing.maker import SVG, cut_to
from app.drawing.palette import QUIET
from app.drawing.sheets.underlay.laid import Laid
from app.drawing.sheets.underlay.pixels import printed_pixels
from app.drawing.view import Spot, View
from app.drawing.weights import FINE

WORDS = "Picture laid beneath, faded; what is drawn over it governs"
_PALE = "#C9C9C9"


def drawn_underlay(laid: Laid, view: View, window: Box) -> Any | None:
    """The picture within a window of the sheet (left, top, right, bottom in mm); None where none of it is there."""
    cut = laid.cut(view, window)
    if cut is None:
        return None
    media, content = printed_pixels(laid.image, cut, 1 / (view.scale * laid.placement.scale), laid.placement.fade)
    image = SVG.image(
        f"data:{media};base64,{base64.b64encode(content).decode()}",
        insert=cut[:2],
        size=(cut[2] - cut[0], cut[3] - cut[1]),
        preserveAspectRatio="none",
        transform=f"matrix({','.join(f'{value:.9g}' for value in laid.matrix(view))})",
    )
    image.attribs["href"] = image.attribs.pop("xlink:href")  # as SVG 2 and HTML have it, without a namespace
    shown = cut_to(window, class_="underlay")
    shown.add(image)
    return shown


def underlay_sign(at: Spot) -> Any:
    """Its sign in the legend: a pale drawing on its own sheet."""
    x, y = at
    group = SVG.g(fill="none", stroke=_PALE, stroke_width=0.5)
    group.add(SVG.rect((round(x - 4.5, 3), round(y - 1.6, 3)), (9.5, 3.2), stroke=QUIET, stroke_width=FINE))
    group.add(SVG.path(d=f"M{x - 3.2:.3f} {y + 0.9:.3f}v-1.8h4.2v1.8zM{x + 1:.3f} {y - 0.1:.3f}h2.6v1h-2.6"))
    return group
