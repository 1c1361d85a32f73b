"""Tables as CSV (RFC 4180): UTF-8 with a byte order mark, which spreadsheets need to read names beyond English.

Text that would set off a formula gets an apostrophe before it; numbers are plain numbers, negative ones too.
"""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Sequence

from app.documents.tables.table import Table
from app.wiring.schedule.text import harmless

_WHEN = (1980, 1, 1, 0, 0, 0)  # the earliest that the format knows: the same tables give the same bytes
_READ_ME = """{title}
{words}

One file a table, CSV by RFC 4180, UTF-8 with a byte order mark. The first row names the columns and their units.
A text that begins with = + - @ or a tab has an apostrophe before it, so that no spreadsheet runs it as a formula.
Numbers are plain numbers with a point.

{files}
"""


def csv_of(table: Table) -> bytes:
    """One table as CSV."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(table.headings)
    writer.writerows([harmless(cell) for cell in table.values(row)] for row in table.rows)
    return out.getvalue().encode("utf-8-sig")


def csv_zip(tables: Sequence[Table], *, title: str, words: str) -> bytes:
    """All tables as CSV files in one ZIP, with a text that says what they are."""
    files = "\n".join(f"{table.key}.csv: {table.title}" for table in tables)
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        read_me = _READ_ME.format(title=" ".join(title.split()), words=words, files=files)
        archive.writestr(zipfile.ZipInfo("READ-ME.txt", _WHEN), read_me.replace("\n", "\r\n"), zipfile.ZIP_DEFLATED)
        for table in tables:
            archive.writestr(zipfile.ZipInfo(f"{table.key}.csv", _WHEN), csv_of(table), zipfile.ZIP_DEFLATED)
    return out.getvalue()
