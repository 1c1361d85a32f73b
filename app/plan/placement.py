"""How a picture lies under a level to be traced: its scale, place, turn and fade.

The plan's format is fixed, so nothing of this stands in the plan; it is kept beside it.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, StringConstraints

from app.plan.model import Angle, Part, Point

LEAST_SCALE, MOST_SCALE = 1e-5, 100.0

Digest = Annotated[str, StringConstraints(strict=True, pattern=r"^[0-9a-f]{64}$")]


class Placement(Part):
    """A picture's pixel (u, v), counted from its top left corner, lies at origin + scale · turned (u, −v).

    ``picture`` is its digest, ``scale`` feet a pixel, ``origin`` where its top left corner lies in feet, ``turn``
    degrees counter-clockwise about that corner, ``fade`` from 0 (as it is) to 1 (gone).
    """

    picture: Digest
    scale: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=LEAST_SCALE, le=MOST_SCALE)]
    origin: Point = (0.0, 0.0)
    turn: Angle = 0.0
    fade: Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=1)] = 0.4
    locked: Annotated[bool, Field(strict=True)] = False
    shown: Annotated[bool, Field(strict=True)] = True
