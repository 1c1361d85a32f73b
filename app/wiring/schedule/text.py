"""The cable schedule as text for a terminal, and as CSV for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

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

SETS_OFF_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def schedule_text(schedule: Schedule) -> str:
    """The schedule as three aligned tables: pulls, boxes, totals."""
    shown = [row[:10] for row in pull_rows(schedule)]
    parts = [
        f"Cable schedule: {schedule.plan.name}",
        _table(PULL_HEADINGS[:10], shown) if shown else "No device of this plan needs cable.",
        _table(BOX_HEADINGS, box_rows(schedule)),
        _table(TOTAL_HEADINGS, total_rows(schedule)),
    ]
    parts += [f"{pull.label}: no can can be reached; add a can or a riser." for pull in schedule.unreached]
    parts += [f"{pull.label}: {pull.cut_ft} ft is longer than the largest box." for pull in schedule.too_long]
    return "\n\n".join(part for part in parts if part) + "\n"


def schedule_csv(schedule: Schedule) -> str:
    """The pulls as CSV (RFC 4180); a cell that a spreadsheet would take for a formula comes out as text."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(PULL_HEADINGS)
    writer.writerows([harmless(cell) for cell in row] for row in pull_rows(schedule))
    return out.getvalue()


def harmless(cell: Cell) -> Cell:
    """A cell that no spreadsheet runs: text that would set off a formula gets an apostrophe before it."""
    if isinstance(cell, str) and cell.startswith(SETS_OFF_A_FORMULA):
        return f"'{cell}"
    return cell


def _table(headings: Sequence[str], rows: Sequence[Sequence[Cell]]) -> str:
    if not rows:
        return ""
    cells = [list(headings), *[["—" if cell is None else _shown(cell) for cell in row] for row in rows]]
    widths = [max(len(row[column]) for row in cells) for column in range(len(headings))]
    numeric = [all(isinstance(row[column], int | float | None) for row in rows) for column in range(len(headings))]
    lines = [
        "  ".join(
            cell.rjust(width) if right else cell.ljust(width)
            for cell, width, right in zip(row, widths, numeric, strict=True)
        ).rstrip()
        for row in cells
    ]
    return "\n".join([lines[0], "  ".join("-" * width for width in widths), *lines[1:]])


def _shown(cell: Cell) -> str:
    return f"{cell:g}" if isinstance(cell, float) else str(cell).replace("\n", " ").replace("\t", " ")
