"""The printed set of a plan as a PDF: the very sheets that the page of the set shows, page for page."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.documents.pdf import PdfSheet, pdf_of
from app.drawing.sheet import sheet_context
from app.drawing.sheets.papers import PAPERS
from app.drawing.sheets.sets import HOMEOWNER
from app.plan.model import Plan


def printed_set(
    plan: Plan,
    check: Mapping[str, Any],
    *,
    paper: str,
    scale: str,
    revision: int | str,
    saved_at: str,
    readers: str = HOMEOWNER,
) -> bytes:
    """The PDF of a plan's set; ``check`` is its ``check_plan``, ``readers`` who the set is for.

    Raises ``ValueError`` with a sentence that says which papers, scales and sets there are.
    """
    context = sheet_context(
        plan, check, paper=paper, scale=scale, revision=revision, saved_at=saved_at, readers=readers
    )
    page = PAPERS[paper]
    sheets = [
        PdfSheet(f"{sheet['number']} {sheet['title']}", sheet["svg"], page.width, page.height)
        for sheet in context["sheets"]
    ]
    return pdf_of(sheets, title=f"{plan.name}: security set")
