"""The clouds of a comparison for the page's own drawing: one user unit a foot, y downward, as every overlay has it."""

from __future__ import annotations

from typing import Any

import shapely

from app.drawing.sheets.changes.clouds import clouds_about, places_of
from app.review.comparison.answer import Comparison

_PAD = 1.15  # ft that a cloud stands off what changed
_CHORD = 1.0  # ft: the width of its arcs
_ONE_CLOUD = 5.0  # ft: old and new place nearer than this stand in one cloud


def cloud_values(comparison: Comparison) -> list[dict[str, Any]]:
    """Each cloud: its level, its path, its changes' numbers, in words too, and where its triangle stands, in feet."""
    values = []
    for level in comparison.new.plan.levels:
        changes = [change for change in comparison.changes if change.shown_on == level.id and change.place is not None]
        places = places_of(changes, lambda shape: shapely.transform(shape, lambda points: points * [1, -1]), _ONE_CLOUD)
        for cloud in clouds_about(places, _PAD):
            west, north, east, _ = cloud.outline.bounds
            values.append(
                {
                    "level": level.id,
                    "path": cloud.path(_CHORD),
                    "numbers": list(cloud.numbers),
                    "words": cloud.words(),
                    "at": [round((west + east) / 2, 4), round(-north, 4)],
                }
            )
    return values
