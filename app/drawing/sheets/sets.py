"""The sets that can be printed: which there are, for whom, and what compiles each.

The homeowner's set is the marked-up plan to approve; the crew's set is what a crew wires from; the documents accompany
the job from survey to log book; the guide is one page to hand out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.drawing.sheets.crew.crew_set import crew_set
from app.drawing.sheets.documents.documents_set import documents_set
from app.drawing.sheets.frame import Sheet
from app.drawing.sheets.guide.guide_set import guide_set
from app.drawing.sheets.homeowner.homeowner_set import homeowner_set
from app.drawing.sheets.order import Order

HOMEOWNER = "homeowner"
CREW = "crew"
DOCUMENTS = "documents"
GUIDE = "guide"


@dataclass(frozen=True)
class PrintedSet:
    """``words`` name the set; ``compile`` gives its sheets for an order."""

    words: str
    compile: Callable[[Order], list[Sheet]]


SETS: Mapping[str, PrintedSet] = {
    HOMEOWNER: PrintedSet("for the homeowner", homeowner_set),
    CREW: PrintedSet("for the crew", crew_set),
    DOCUMENTS: PrintedSet("documents, survey to log book", documents_set),
    GUIDE: PrintedSet("quick guide, one page", guide_set),
}
