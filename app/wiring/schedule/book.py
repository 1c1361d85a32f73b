"""The cable schedule as a spreadsheet workbook: a sheet each for pulls, boxes and totals."""

from __future__ import annotations

import io
from collections.abc import Sequence

import xlsxwriter

from app.wiring.schedule.rows import (
    BOX_HEADINGS,
    PULL_HEADINGS,
    TOTAL_HEADINGS,
    Cell,
    box_rows,
    pull_rows,
    total_rows,
)
from app.wiring.schedule.schedule import Schedule

WIDEST = 48


def schedule_xlsx(schedule: Schedule) -> bytes:
    """The workbook's bytes; every text is written as text, so none is run as a formula or followed as a link."""
    out = io.BytesIO()
    options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    with xlsxwriter.Workbook(out, options) as book:
        bold = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
        for name, headings, rows in (
            ("Pulls", PULL_HEADINGS, pull_rows(schedule)),
            ("Boxes", BOX_HEADINGS, box_rows(schedule)),
            ("Totals", TOTAL_HEADINGS, total_rows(schedule)),
        ):
            _write(book.add_worksheet(name), headings, rows, bold)
    return out.getvalue()


def _write(
    sheet: xlsxwriter.worksheet.Worksheet,
    headings: Sequence[str],
    rows: Sequence[Sequence[Cell]],
    bold: xlsxwriter.format.Format,
) -> None:
    for column, heading in enumerate(headings):
        sheet.write_string(0, column, heading, bold)
        widest = max([len(heading), *(len(str(row[column] or "")) for row in rows)])
        sheet.set_column(column, column, min(widest + 2, WIDEST))
    for number, row in enumerate(rows, start=1):
        for column, cell in enumerate(row):
            if isinstance(cell, str):
                sheet.write_string(number, column, cell)
            elif cell is not None:
                sheet.write_number(number, column, cell)
    sheet.freeze_panes(1, 1)
    sheet.set_landscape()
    sheet.repeat_rows(0)
    sheet.fit_to_pages(1, 0)
    if rows:
        sheet.autofilter(0, 0, len(rows), len(headings) - 1)
