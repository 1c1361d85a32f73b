"""The documents of the published list as a set: survey, proposal, as-fitted record, walk test, handover, log book."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import partial

from app.drawing.sheets.cover.cover_sheet import cover_sheet
from app.drawing.sheets.documents.as_fitted import as_fitted_blocks
from app.drawing.sheets.documents.handover import handover_blocks
from app.drawing.sheets.documents.key_figures import READING, key_figures
from app.drawing.sheets.documents.log_book import log_book_blocks
from app.drawing.sheets.documents.proposal import acceptance_blocks, circuit_blocks, proposal_blocks
from app.drawing.sheets.documents.survey import survey_blocks
from app.drawing.sheets.documents.walk_test import walk_test_blocks
from app.drawing.sheets.homeowner.proof_plans import proof_drawings
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import Sheet
from app.drawing.sheets.paper.papers import Paper
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.columns import WIDE, Section, filled_sheets, roomy_sheets, section_sheets
from app.drawing.sheets.setting.flow import Block

WORDS = "Documents of the system"
_Fill = Callable[[Order, Setter], Iterable[Block]]
_Sheets = Callable[[Sequence[Section], Paper, int], list[Sheet]]
# Each document begins a sheet of its own, as it is signed, copied and filed by itself: titles, what fills them, how it
# is set.
_DOCUMENTS: tuple[tuple[tuple[tuple[str, _Fill], ...], _Sheets], ...] = (
    ((("Site survey", survey_blocks),), roomy_sheets),
    ((("System design proposal", proposal_blocks), ("Acceptance", acceptance_blocks)), roomy_sheets),
    ((("Circuits", circuit_blocks),), partial(section_sheets, column=WIDE)),
    ((("As-fitted record", as_fitted_blocks),), filled_sheets),
    ((("Walk test", walk_test_blocks),), filled_sheets),
    ((("Handover and completion", handover_blocks),), roomy_sheets),
    ((("Log book", log_book_blocks),), filled_sheets),
)
_FIRST = 701  # sheet types 7 and 8 are the user's own (UDS Module 1)


def documents_set(order: Order) -> list[Sheet]:
    """A cover and the documents in the order of the job."""
    sheets: list[Sheet] = []
    for parts, set_as in _DOCUMENTS:
        sections = [Section(title, _filled(fill, order)) for title, fill in parts]
        sheets += set_as(sections, order.paper, _FIRST + len(sheets))
    cover = cover_sheet(order, 3, WORDS, key_figures(order), proof_drawings(order), sheets, READING)
    return [cover, *sheets]


def _filled(fill: _Fill, order: Order) -> Callable[[Setter], Iterable[Block]]:
    return lambda setter: fill(order, setter)
