"""Habits of sheets, of the United States and of ISO: numbers, dates, how a scale is said, margins and marks.

United States: sheet numbers of UDS Module 1, binding edge of ARCH sheets from memory. ISO: borders, centring marks and
grid of ISO 5457 and fields of ISO 7200, from memory; folds to A4, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime

from app.drawing.sheets.paper.scales import Scale

INCH = 25.4  # mm
_DISCIPLINE = "TY"  # telecommunications, security
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

Margins = tuple[float, float, float, float]  # left, top, right, bottom in mm
Size = tuple[float, float]  # width, height in mm


@dataclass(frozen=True)
class Captions:
    """What the rows of a title block are called."""

    designer: str
    revision: str
    date: str
    scale: str


@dataclass(frozen=True)
class Habit:
    """``key`` names it in a request, ``words`` to people; ``units`` are of its scales and of plans that follow it.

    ``number`` writes a sheet's number in the series, ``scale`` a scale, ``day`` a moment of ISO 8601; ``margins`` and
    ``folds`` (from the left, from the top) are for a paper's size in mm.
    """

    key: str
    words: str
    units: str
    paper: str
    captions: Captions
    number: Callable[[int], str]
    scale: Callable[[Scale], str]
    day: Callable[[str], str]
    margins: Callable[[Size], Margins]
    folds: Callable[[Size], tuple[list[float], list[float]]]
    marks_border: bool = False


def _american_day(moment: str) -> str:
    """Such as Mar 5, 2026 10:20: a day that no reader takes for a month."""
    try:
        at = datetime.fromisoformat(moment)
    except ValueError:
        return moment
    time = f" {at:%H:%M}" if "T" in moment else ""
    return f"{_MONTHS[at.month - 1]} {at.day}, {at.year}{time}"


def _american_margins(size: Size) -> Margins:
    """Even on papers of an office printer; half an inch on ARCH sheets, an inch and a half along the bound edge."""
    if max(size) > 20 * INCH:
        return (1.5 * INCH, 0.5 * INCH, 0.5 * INCH, 0.5 * INCH)
    edge = 7.5 if max(size) < 14 * INCH else 8.1
    return (edge, edge, edge, edge)


def _iso_day(moment: str) -> str:
    return moment[:16].replace("T", " ")


def _iso_margins(_: Size) -> Margins:
    """Twenty millimetres to file by, ten on the other sides."""
    return (20.0, 10.0, 10.0, 10.0)


def _folds_to_a4(size: Size) -> tuple[list[float], list[float]]:
    """An accordion from the right that leaves the title block in front and the filing margin free on the left."""
    wide, high = size
    if wide < 400:
        return [], []
    down = [high - 297.0] if high > 300 else []
    between = wide - 210.0 - 190.0
    if between < 100:
        return [wide - 295.0, wide - 190.0], down
    count = 2
    while between / count > 190.0:
        count += 2
    return [210.0 + between / count * index for index in range(count + 1)], down


def _no_folds(_: Size) -> tuple[list[float], list[float]]:
    return [], []


UNITED_STATES = Habit(
    "us",
    "United States",
    "imperial",
    "letter",
    Captions("Designer", "Revision", "Date", "Scale"),
    number=lambda series: f"{_DISCIPLINE}-{series:03d}",
    scale=lambda scale: scale.words,
    day=_american_day,
    margins=_american_margins,
    folds=_no_folds,
)
ISO = Habit(
    "iso",
    "ISO",
    "metric",
    "a4",
    Captions("Created by", "Revision", "Date of issue", "Scale"),
    number=lambda series: f"{series:03d}",
    scale=lambda scale: f"1:{scale.ratio:g}",
    day=_iso_day,
    margins=_iso_margins,
    folds=_folds_to_a4,
    marks_border=True,
)
HABITS: Mapping[str, Habit] = {habit.key: habit for habit in (UNITED_STATES, ISO)}


def habit_for(units: str) -> Habit:
    """The habit of a plan in some units, where none is chosen."""
    return next(habit for habit in HABITS.values() if habit.units == units)
