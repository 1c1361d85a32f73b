"""The sets that can be printed: which there are, for whom, and what compiles each.

The homeowner's set is the marked-up plan to approve; the crew's set is what a crew wires from; the documents accompany
the job from survey to log book; the guide is one page to hand out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.drawing.sheets.crew.crew_set import crew_set
from app.drawing.sheets.documents.documents_set import documents_set
from app.drawing.sheets.guide.guide_set import guide_set
from app.drawing.sheets.homeowner.homeowner_set import homeowner_set
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import Sheet

HOMEOWNER = "homeowner"
CREW = "crew"
DOCUMENTS = "documents"
GUIDE = "guide"


@dataclass(frozen=True)
class PrintedSet:
    """``words`` name the set, ``about`` says what it is for; ``compile`` gives its sheets for an order."""

    words: str
    about: str
    compile: Callable[[Order], list[Sheet]]


SETS: Mapping[str, PrintedSet] = {
    HOMEOWNER: PrintedSet(
        "for the homeowner",
        "To understand and approve: cover, plans with their proof, what stay and away protect, each opening, choices "
        "still to be made, cautions and sign-off.",
        homeowner_set,
    ),
    CREW: PrintedSet(
        "for the crew",
        "To wire from: device plans with heights, cable plans, pulls and boxes, labels, drilling, zones, power and the "
        "test sheet.",
        crew_set,
    ),
    DOCUMENTS: PrintedSet(
        "documents, survey to log book",
        "To accompany the job: forms of the published list, filled in as far as the plan knows, blanks for the rest.",
        documents_set,
    ),
    GUIDE: PrintedSet(
        "quick guide, one page",
        "To hand out: what is usually wired to each kind of place, from this plan's practice.",
        guide_set,
    ),
}
