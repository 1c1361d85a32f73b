"""What is written on the tape at both ends of a pull.

Every cable is labelled at the can and at the device (alarm association code of practice; wiring tutorial).
"""

from __future__ import annotations

from app.plan.measures import length_text
from app.wiring.pulls import Pull


def tag_at_device(pull: Pull) -> str:
    """The label for the device's end: which pull, which cable, and the can that it comes from."""
    return " · ".join([pull.label, pull.cable, f"from {pull.can}" if pull.can else "no can reached"])


def tag_at_can(pull: Pull) -> str:
    """The label for the can's end: which pull, which cable, and what stands at the other end."""
    return " · ".join(part for part in (pull.label, pull.cable, pull.name, pull.level.name) if part)


def length_words(feet: float | None, units: str) -> str:
    """A measured length as people write it, to the inch, or what stands there when there is none."""
    return "—" if feet is None else length_text(feet, units, sixteenths=1)
