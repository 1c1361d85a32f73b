"""The papers that a set can be printed on, laid broad, with the sizes of lettering that suit them.

Sizes: ANSI A and B, ANSI/ASME Y14.1; ARCH C and D, common practice; A4 and A3, ISO 216.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

INCH = 25.4  # mm


@dataclass(frozen=True)
class Paper:
    """``width`` and ``height`` in mm; ``lettering`` multiplies every size that people read; ``sizes`` as people say."""

    key: str
    name: str
    sizes: str
    width: float
    height: float
    lettering: float
    metric: bool = False

    @property
    def margin(self) -> float:
        """Bare paper about the frame, in mm: printers cannot print to the edge."""
        return 7.5 * min(self.lettering, 1.25)

    @property
    def title_width(self) -> float:
        """Width of the column with the title block, in mm."""
        return 52.0 * self.lettering


_LETTER = Paper("letter", "Letter", "8½ × 11 in", 11 * INCH, 8.5 * INCH, 1.0)

PAPERS: Mapping[str, Paper] = {
    paper.key: paper
    for paper in (
        _LETTER,
        Paper("tabloid", "Tabloid", "11 × 17 in", 17 * INCH, 11 * INCH, 1.08),
        Paper("arch_c", "ARCH C", "18 × 24 in", 24 * INCH, 18 * INCH, 1.2),
        Paper("arch_d", "ARCH D", "24 × 36 in", 36 * INCH, 24 * INCH, 1.35),
        Paper("a4", "A4", "210 × 297 mm", 297.0, 210.0, 1.0, metric=True),
        Paper("a3", "A3", "297 × 420 mm", 420.0, 297.0, 1.08, metric=True),
    )
}
