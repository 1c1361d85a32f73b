"""A board on which words are placed so that none lies over another, over a symbol or over a wall.

Places are tried in the order given; the first free one is taken, else the one that lies over least.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from app.drawing.view import Spot
from app.geometry.bodies import BoolArray, FloatArray

Box = tuple[float, float, float, float]
_ON_SOLID = 0.6  # how much an overlap with a wall weighs beside one with words


class Board:
    """Boxes (left, top, right, bottom) already taken, in the picture's unit, and the ``solids`` that stand there."""

    def __init__(self, solids: NDArray[np.object_], limits: Box) -> None:
        self._solids = solids
        self._tree = shapely.STRtree(solids)
        self._limits = limits
        self._taken: FloatArray = np.empty((256, 4))
        self._count = 0

    @property
    def taken(self) -> FloatArray:
        """Every box taken so far (n, 4)."""
        return self._taken[: self._count]

    def holds(self, spot: Spot) -> bool:
        """Whether a place lies within the limits."""
        left, top, right, bottom = self._limits
        return left <= spot[0] <= right and top <= spot[1] <= bottom

    def take(self, box: Box) -> None:
        """Take a box, whatever lies there."""
        if self._count == len(self._taken):
            self._taken = np.concatenate([self._taken, np.empty_like(self._taken)])
        self._taken[self._count] = box
        self._count += 1

    def cost(self, box: Box) -> float:
        """Area of a box that lies over what is taken, over a wall or past the limits; 0 where it is free."""
        left, top, right, bottom = box
        taken = self.taken
        wide = np.minimum(taken[:, 2], right) - np.maximum(taken[:, 0], left)
        high = np.minimum(taken[:, 3], bottom) - np.maximum(taken[:, 1], top)
        over = float(np.sum(np.clip(wide, 0, None) * np.clip(high, 0, None)))
        area = (right - left) * (bottom - top)
        low_x, low_y, high_x, high_y = self._limits
        inside = max(0.0, min(right, high_x) - max(left, low_x)) * max(0.0, min(bottom, high_y) - max(top, low_y))
        over += 4 * (area - inside)
        shape = shapely.box(*box)
        under = self._solids[self._tree.query(shape)]
        return over + _ON_SOLID * float(shapely.area(shapely.intersection(under, shape)).sum())

    def free(self, boxes: FloatArray) -> BoolArray:
        """For each box (n, 4) whether it lies over nothing that is taken, over no wall, and within the limits."""
        left, top, right, bottom = boxes.T
        low_x, low_y, high_x, high_y = self._limits
        free: BoolArray = (left >= low_x) & (top >= low_y) & (right <= high_x) & (bottom <= high_y)
        taken = self.taken
        over = (np.minimum(taken[:, 2], right[:, None]) > np.maximum(taken[:, 0], left[:, None])) & (
            np.minimum(taken[:, 3], bottom[:, None]) > np.maximum(taken[:, 1], top[:, None])
        )
        free &= ~over.any(axis=1)
        clear = np.flatnonzero(free)
        on_solid, _ = self._tree.query(shapely.box(*boxes[clear].T), predicate="intersects")
        free[clear[on_solid]] = False
        return free

    def place(self, boxes: Sequence[Box], *, at_most: float = float("inf")) -> int | None:
        """Take the first free box, else the one that lies over least, if that is no more than ``at_most``; gives back
        its index, or None.
        """
        if not boxes:
            return None
        free = self.free(np.array(boxes))
        if free.any():
            index = int(np.argmax(free))
        else:
            costs = [self.cost(box) for box in boxes]
            index = int(np.argmin(costs))
            if costs[index] > at_most:
                return None
        self.take(boxes[index])
        return index

    def place_run(self, runs: Sequence[Sequence[Box]]) -> int:
        """Take the first run of boxes that is free, else the one that lies over least; gives back its index."""
        index = next((index for index, run in enumerate(runs) if self.free(np.array(run)).all()), None)
        if index is None:
            index = int(np.argmin([sum(map(self.cost, run)) for run in runs]))
        for box in runs[index]:
            self.take(box)
        return index


def around(at: Spot, clear: float, width: float, height: float) -> Sequence[Box]:
    """Boxes of a size about a place, ``clear`` from it: right, left, above, below, the corners, then farther out."""
    boxes: list[Box] = []
    for away in (clear, clear * 1.6, clear * 2.6, clear * 4, clear * 5.5):
        for dx, dy in ((1, 0), (-1, 0), (0, -1), (0, 1), (1, -1), (1, 1), (-1, -1), (-1, 1)):
            reach = away * (0.75 if dx and dy else 1.0)
            x, y = at[0] + dx * (reach + width / 2), at[1] + dy * (reach + height / 2)
            boxes.append((x - width / 2, y - height / 2, x + width / 2, y + height / 2))
    return boxes
