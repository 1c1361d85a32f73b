"""The way a device looks, as a word of the compass; north is up on every plan."""

from __future__ import annotations

from app.wiring.electric.sides import COMPASS

_SHORT = {"north": "N", "east": "E", "south": "S", "west": "W"}


def compass_word(degrees: float) -> str:
    """The nearest of eight words for an angle counter-clockwise from east."""
    return COMPASS[round(degrees / 45) % 8]


def compass_letters(degrees: float) -> str:
    """The same as N, NE and so on."""
    return "".join(_SHORT[part] for part in compass_word(degrees).split("-"))
