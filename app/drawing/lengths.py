"""Lengths as drawings write them: to half an inch or a centimetre, which is as near as a tape on site is read.

Lengths that are typed and kept go through ``app.plan.measures``.
"""

from __future__ import annotations

from app.plan.measures import FEET_PER_METRE, feet_inches, metres


def drawn_length(feet: float, units: str) -> str:
    """A length to half an inch, or to a centimetre in a metric plan; one too small for that to a finer step."""
    if units == "metric":
        return f"{feet / FEET_PER_METRE:.2f} m" if abs(feet) > 0.005 * FEET_PER_METRE else metres(feet)
    return feet_inches(feet, 2 if abs(feet) > 1 / 48 else 16)
