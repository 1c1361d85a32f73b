"""The papers that a set can be printed on, laid broad, with the sizes of lettering that suit them.

Sizes: ANSI A and B, ANSI/ASME Y14.1; ARCH C and D, common practice; A4 to A1, ISO 216.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.drawing.sheets.paper.habits import INCH, UNITED_STATES, Habit


@dataclass(frozen=True)
class Paper:
    """``width`` and ``height`` in mm; ``lettering`` multiplies every size that people read; ``sizes`` as people say.

    ``habit`` is how sheets are set up on it.
    """

    key: str
    name: str
    sizes: str
    width: float
    height: float
    lettering: float
    habit: Habit = UNITED_STATES

    def by(self, habit: Habit) -> Paper:
        """The same paper set up by a habit."""
        return replace(self, habit=habit)

    @property
    def frame(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of the frame in mm; printers cannot print to the edge."""
        left, top, right, bottom = self.habit.margins((self.width, self.height))
        return (left, top, self.width - right, self.height - bottom)

    @property
    def title_width(self) -> float:
        """Width of the column with the title block, in mm."""
        return 52.0 * self.lettering


PAPERS: Mapping[str, Paper] = {
    paper.key: paper
    for paper in (
        Paper("letter", "Letter", "8½ × 11 in", 11 * INCH, 8.5 * INCH, 1.0),
        Paper("tabloid", "Tabloid", "11 × 17 in", 17 * INCH, 11 * INCH, 1.08),
        Paper("arch_c", "ARCH C", "18 × 24 in", 24 * INCH, 18 * INCH, 1.2),
        Paper("arch_d", "ARCH D", "24 × 36 in", 36 * INCH, 24 * INCH, 1.35),
        Paper("a4", "A4", "210 × 297 mm", 297.0, 210.0, 1.0),
        Paper("a3", "A3", "297 × 420 mm", 420.0, 297.0, 1.08),
        Paper("a2", "A2", "420 × 594 mm", 594.0, 420.0, 1.2),
        Paper("a1", "A1", "594 × 841 mm", 841.0, 594.0, 1.35),
    )
}
