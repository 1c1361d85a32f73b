"""The numbers of changes, in reading order: level by level, place by place, so that one place's numbers are one run."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import shapely

from app.review.comparison.changes import Change

NEAR = 1.5  # ft about a change; places that touch are one
_ROW = 6.0  # ft: places whose tops differ by less are read from left to right
_FAMILIES = ("levels", "walls", "openings", "fixtures", "rooms", "devices", "risers", "plan", "practice")


def numbered(changes: Iterable[Change], levels: Sequence[str]) -> tuple[Change, ...]:
    """The changes in reading order, numbered from 1; ``levels`` are the ids of levels from first to last.

    What no drawing shows (levels, words, design values) comes last.
    """
    turn = {level: len(levels) - place for place, level in enumerate(reversed(levels))}
    shown: dict[str, list[Change]] = {}
    others: list[Change] = []
    for change in changes:
        if change.place is not None and change.shown_on is not None:
            shown.setdefault(change.shown_on, []).append(change)
        else:
            others.append(change)
    ordered = [
        change
        for level in sorted(shown, key=lambda level: (turn.get(level, len(levels)), level))
        for place in places_of(shown[level])
        for change in sorted(place, key=_by_family)
    ]
    ordered += sorted(others, key=_by_family)
    return tuple(replace(change, number=number) for number, change in enumerate(ordered, start=1))


def places_of(changes: Sequence[Change]) -> list[list[Change]]:
    """Changes of one level, those that lie near each other together; places from the upper left."""
    spots = np.array([change.place for change in changes])
    merged = shapely.get_parts(shapely.union_all(shapely.buffer(spots, NEAR)))
    within = shapely.STRtree(merged).query(shapely.point_on_surface(spots), predicate="within")
    places: dict[int, list[Change]] = {}
    for index, home in within.T.tolist():
        places.setdefault(home, []).append(changes[index])
    return [places[home] for home in sorted(places, key=lambda home: _reading(merged[home].bounds))]


def _reading(bounds: Sequence[float]) -> tuple[Any, ...]:
    west, _, _, north = bounds
    return (-round(north / _ROW), west, -north)


def _by_family(change: Change) -> tuple[Any, ...]:
    return (_FAMILIES.index(change.family), change.shown_on or "", change.id)
