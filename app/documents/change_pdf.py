"""The change sheets of two revisions as a PDF: the very sheets that their page shows, page for page."""

from __future__ import annotations

from typing import Any

from app.documents.pdf import PdfSheet, pdf_of
from app.drawing.sheets.paper.papers import PAPERS


def change_pdf(context: dict[str, Any]) -> bytes:
    """The PDF of what ``change_context`` gave."""
    page = PAPERS[context["paper"]]
    sheets = [
        PdfSheet(f"{sheet['number']} {sheet['title']}", sheet["svg"], page.width, page.height)
        for sheet in context["sheets"]
    ]
    return pdf_of(sheets, title=f"{context['plan_name']}: changes, {context['new']} against {context['old']}")
