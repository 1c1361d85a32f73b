"""Tables as a spreadsheet workbook: a sheet each, with numbers that are numbers and text that stays text."""

from __future__ import annotations

import io
from collections.abc import Sequence

import xlsxwriter

from app.documents.tables.measure import Measure
from app.documents.tables.table import Table

_NARROWEST, _WIDEST = 8, 54  # characters
_BLACK_ON_GREY = {"bold": True, "bottom": 1, "text_wrap": True, "valign": "vcenter", "bg_color": "#E8EBE6"}
_OPTIONS = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}


def workbook_of(tables: Sequence[Table], *, title: str, words: str) -> bytes:
    """The workbook's bytes; ``title`` and ``words`` stand in its properties and at the foot of each printed page.

    Every text is written as text, so that none is run as a formula or followed as a link.
    """
    out = io.BytesIO()
    with xlsxwriter.Workbook(out, _OPTIONS) as book:
        book.set_properties({"title": title, "comments": words, "created": None})
        formats = _Formats(book)
        for table in tables:
            _write(book.add_worksheet(_sheet_name(table)), table, formats, f"{title} · {words}")
    return out.getvalue()


class _Formats:
    """The formats of a book, each made once."""

    def __init__(self, book: xlsxwriter.Workbook) -> None:
        self._book = book
        self.heading = book.add_format(_BLACK_ON_GREY)
        self.text = book.add_format({"text_wrap": True, "valign": "top"})
        self._numbers: dict[int, xlsxwriter.format.Format] = {}

    def number(self, decimals: int) -> xlsxwriter.format.Format:
        """How a number with so many decimals is shown."""
        if decimals not in self._numbers:
            shown = "0" if decimals == 0 else f"0.{'0' * min(decimals, 2)}{'#' * (decimals - 2)}"
            self._numbers[decimals] = self._book.add_format({"num_format": shown, "valign": "top"})
        return self._numbers[decimals]


def _sheet_name(table: Table) -> str:
    """At most 31 letters, none of those that no sheet's name may have."""
    return table.key.replace("-", " ").capitalize()[:31]


def _write(sheet: xlsxwriter.worksheet.Worksheet, table: Table, formats: _Formats, foot: str) -> None:
    headings, rows = table.headings, [table.values(row) for row in table.rows]
    for place, heading in enumerate(headings):
        sheet.write_string(0, place, heading, formats.heading)
        sheet.set_column(place, place, _width(heading, [row[place] for row in rows]))
    for number, row in enumerate(rows, start=1):
        for place, cell in enumerate(row):
            if isinstance(cell, str):
                sheet.write_string(number, place, cell, formats.text)
            elif cell is not None:
                sheet.write_number(number, place, cell, formats.number(_decimals(table.columns[place].measure)))
    sheet.set_row(0, 32)
    sheet.freeze_panes(1, 1)
    sheet.set_landscape()
    sheet.repeat_rows(0)
    sheet.fit_to_pages(1, 0)
    # An ampersand in a footer is a code of the format's own; two of them print one.
    sheet.set_footer(f"&L&8{_no_codes(foot)}&R&8{table.title}, &P of &N"[:255])
    if rows:
        sheet.autofilter(0, 0, len(rows), len(headings) - 1)


def _no_codes(text: str) -> str:
    return " ".join(text.split())[:150].replace("&", "&&")


def _width(heading: str, cells: Sequence[object]) -> int:
    """As wide as the longest cell or the heading's longer half, which may go on a second line."""
    longest = max((len(str(cell)) for cell in cells if cell is not None), default=0)
    return min(max(_NARROWEST, longest + 1, len(heading) * 2 // 3 + 4), _WIDEST)


def _decimals(measure: Measure | None) -> int:
    return 3 if measure is None else measure.decimals
