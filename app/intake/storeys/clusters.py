"""Strokes that hang together: clusters with a gap between them, as the drawings on one sheet stand apart.

Strokes are strewn on a grid and neighbouring cells joined, so that a sheet of any size takes time in proportion to
what is drawn on it. Lengths are feet.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.geometry.joined import Joined
from app.geometry.rows import counted
from app.intake.strokes import Stroke

APART = 4.0
"""Strokes farther apart than this hang together only by others between them."""

_CELL = APART / 2
_MOST_SPOTS = 2_000  # a stroke: what is longer than 2,000 ft is strewn more thinly
_AROUND = ((1, 0), (0, 1), (1, 1), (1, -1))


def clusters_of(strokes: Sequence[Stroke]) -> list[list[int]]:
    """The indices of strokes by cluster, the largest cluster first."""
    if not strokes:
        return []
    ends = np.array([(*one.a, *one.b) for one in strokes])
    length = np.hypot(ends[:, 2] - ends[:, 0], ends[:, 3] - ends[:, 1])
    spots = np.clip(np.ceil(2 * length / _CELL), 1, _MOST_SPOTS).astype(np.int64) + 1
    owner, step = counted(spots)
    share = (step / np.repeat(spots - 1, spots))[:, None]
    cells = np.floor((ends[owner, :2] * (1 - share) + ends[owner, 2:] * share) / _CELL).astype(np.int64)
    filled, which = np.unique(cells, axis=0, return_inverse=True)
    which = which.reshape(-1)
    groups = Joined(len(filled))
    place = {tuple(cell): index for index, cell in enumerate(filled.tolist())}
    for (column, row), index in place.items():
        for right, up in _AROUND:
            beside = place.get((column + right, row + up))
            if beside is not None:
                groups.join(index, beside)
    members: dict[int, list[int]] = {}
    for index, cell in enumerate(which[np.cumsum(spots) - spots].tolist()):
        members.setdefault(groups.root(cell), []).append(index)
    return sorted(members.values(), key=lambda group: (-len(group), group[0]))
