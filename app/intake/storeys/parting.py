"""A sheet parted into its drawings: every stroke, arc and word goes with the drawing that it stands in or beside."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from app.intake.report import Unread
from app.intake.roles import Role
from app.intake.storeys.found import Found
from app.intake.strokes import Arc, Sheet, Spot, Stroke, Words
from app.intake.wording import shortened

_BESIDE = 8.0  # ft: steps and swings outside the walls

_NOWHERE = 0


@dataclass(frozen=True)
class Parts:
    """The sheet with, for each stroke, arc and word, the number of the drawing it is of; 0: of none."""

    sheet: Sheet
    strokes: Sequence[int]
    arcs: Sequence[int]
    words: Sequence[int]

    def of(self, numbers: Sequence[int]) -> Sheet:
        """The sheet with only what is of some drawings."""
        return replace(
            self.sheet,
            strokes=[one for one, number in zip(self.sheet.strokes, self.strokes, strict=True) if number in numbers],
            arcs=[one for one, number in zip(self.sheet.arcs, self.arcs, strict=True) if number in numbers],
            words=[one for one, number in zip(self.sheet.words, self.words, strict=True) if number in numbers],
        )


def parted(sheet: Sheet, drawn: Sequence[int], drawings: Sequence[Found]) -> Parts:
    """Part a sheet in feet; ``drawn`` are the indices of the strokes that the drawings were found by."""
    plans = [one for one in drawings if not one.why.startswith("is a frame")] or list(drawings)
    strokes = _nearest([_middle(one) for one in sheet.strokes], plans)
    for one in drawings:
        for index in one.strokes:
            if index < len(drawn):  # beyond are chords of arcs
                strokes[drawn[index]] = one.number
    arcs = _nearest([one.centre for one in sheet.arcs], plans)
    words = _nearest([one.at for one in sheet.words], plans)
    return Parts(sheet, strokes, arcs, words)


def left_out(parts: Parts, drawings: Sequence[Found], taken: set[int], roles: Mapping[str, Role]) -> Unread:
    """What of the layers that have a role stands in drawings that are no level, or in none; titles count as read."""
    titles = {one.title.text for one in drawings if one.title is not None}
    by_number = {one.number: one for one in drawings}
    unread = Unread()
    for one, kind, number in _things(parts):
        if number in taken or roles.get(one.layer, "ignore") == "ignore":
            continue
        if isinstance(one, Words) and (one.text in titles or roles[one.layer] != "names"):
            continue
        drawing = by_number.get(number)
        titled = f" ({shortened(drawing.title.text)})" if drawing is not None and drawing.title is not None else ""
        reason = f"stands in drawing {number}{titled}, which is left out"
        unread.add(one.layer, kind, reason if drawing is not None else "stands in no drawing of the sheet")
    return unread


def _things(parts: Parts) -> Iterator[tuple[Stroke | Arc | Words, str, int]]:
    sheet = parts.sheet
    yield from ((one, "stroke", number) for one, number in zip(sheet.strokes, parts.strokes, strict=True))
    yield from ((one, "arc", number) for one, number in zip(sheet.arcs, parts.arcs, strict=True))
    yield from ((one, "text", number) for one, number in zip(sheet.words, parts.words, strict=True))


def _middle(stroke: Stroke) -> Spot:
    return (stroke.a[0] + stroke.b[0]) / 2, (stroke.a[1] + stroke.b[1]) / 2


def _nearest(spots: Sequence[Spot], drawings: Sequence[Found]) -> list[int]:
    if not spots or not drawings:
        return [_NOWHERE] * len(spots)
    points = shapely.points(np.array(spots))
    far = np.array([shapely.distance(one.hull, points) for one in drawings])
    best = far.argmin(axis=0)
    near = far[best, np.arange(len(spots))] <= _BESIDE
    return [drawings[which].number if close else _NOWHERE for which, close in zip(best.tolist(), near, strict=True)]
