"""Words in sentences: counts of one thing or many, names cut to a length, ways on the drawing."""

from __future__ import annotations

from app.plan.measures import length_text


def told(count: int, one: str, many: str) -> str:
    """``1 gap is``, ``2 gaps are``: the count with the words that fit it."""
    return f"{count} {one if count == 1 else many}"


def shortened(text: str, most: int = 60) -> str:
    """The text, cut with a mark where it is longer than ``most``."""
    return text if len(text) <= most else text[: most - 1] + "…"


def way_told(east: float, north: float, units: str) -> str:
    """A shift in feet as the parts of a sentence: ``4'-0" east and 12'-6" south``; nothing where it is none."""
    parts = [
        f"{length_text(abs(value), units)} {there if value > 0 else back}"
        for value, there, back in ((east, "east", "west"), (north, "north", "south"))
        if abs(value) >= 0.005
    ]
    return " and ".join(parts)
