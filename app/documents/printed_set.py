"""The printed set of a plan as a PDF: the very sheets that the page of the set shows, page for page."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.documents.pdf import PdfSheet, pdf_of
from app.drawing.sheet import sheet_context
from app.drawing.sheets.drawn_sheets import Told, not_told
from app.drawing.sheets.paper.papers import PAPERS
from app.plan.model import Plan

BINDING = "binding the file"


def printed_set(plan: Plan, check: Mapping[str, Any], **choices: Any) -> bytes:
    """The PDF of a plan's set; ``check`` is its ``check_plan``, ``choices`` are as in ``sheet_context``.

    Raises ``ValueError`` with a sentence that says which papers, scales, habits and sets there are.
    """
    return set_as_pdf(sheet_context(plan, check, **choices), told=choices.get("told", not_told))


def set_as_pdf(context: Mapping[str, Any], told: Told = not_told) -> bytes:
    """The PDF of the sheets that ``sheet_context`` gave."""
    page, sheets = PAPERS[context["paper"]], context["sheets"]
    told(len(sheets), len(sheets), BINDING)
    pages = [PdfSheet(f"{sheet['number']} {sheet['title']}", sheet["svg"], page.width, page.height) for sheet in sheets]
    return pdf_of(pages, title=f"{context['plan_name']}: security set")
