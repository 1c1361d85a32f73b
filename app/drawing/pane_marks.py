"""The marks of the proof on glass: a check for covered, a triangle for partly, a cross for not covered.

Shapes stand in a box from -1 to 1 with y downward; the overlay, the sheet and the legend draw the same ones.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from app.drawing.view import Spot, line_through

_MARKS: Mapping[str, tuple[tuple[Spot, ...], ...]] = {
    "covered": (((-0.9, 0.05), (-0.25, 0.75), (0.95, -0.85)),),
    "partial": (((0.0, -0.9), (0.95, 0.8), (-0.95, 0.8), (0.0, -0.9)), ((0.0, -0.35), (0.0, 0.45))),
    "uncovered": (((-0.8, -0.8), (0.8, 0.8)), ((-0.8, 0.8), (0.8, -0.8))),
}

STATUS_WORDS: Mapping[str, str] = {"covered": "covered", "partial": "partly covered", "uncovered": "not covered"}


def mark_path(status: str, at: Spot, size: float) -> str:
    """Path data of a status's mark of half width ``size`` about a place of the picture."""
    return "".join(line_through((at[0] + size * x, at[1] + size * y) for x, y in stroke) for stroke in _MARKS[status])


def covered_spans(stretches: Iterable[Sequence[float]], length: float) -> list[tuple[float, float]]:
    """The stretches of a pane that are covered in full height: what its uncovered ``stretches`` leave over."""
    spans, here = [], 0.0
    for low, high in stretches:
        if low > here + 1e-4:
            spans.append((here, low))
        here = max(here, high)
    if here < length - 1e-4:
        spans.append((here, length))
    return spans
