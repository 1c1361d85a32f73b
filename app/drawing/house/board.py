"""A board on which words are placed so that none lies over another, over a symbol or over a wall.

Places are tried in the order given; the first free one is taken, else the first that lies over a wall alone, else the
one that lies over least.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from app.drawing.view import Spot
from app.geometry.bodies import BoolArray, FloatArray

Box = tuple[float, float, float, float]
_ON_SOLID = 0.6  # how much an overlap with a wall weighs beside one with words
_RINGS = (3.0, 5.0, 8.0, 12.0, 17.0, 23.0, 30.0, 40.0)  # mm
_WAYS = tuple((math.cos(turn * math.pi / 8), math.sin(turn * math.pi / 8)) for turn in range(16))


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
        free = self._bare(boxes)
        clear = np.flatnonzero(free)
        on_solid, _ = self._tree.query(shapely.box(*boxes[clear].T), predicate="intersects")
        free[clear[on_solid]] = False
        return free

    def _bare(self, boxes: FloatArray) -> BoolArray:
        """For each box (n, 4) whether it lies over nothing that is taken and within the limits, on a wall or not."""
        left, top, right, bottom = boxes.T
        low_x, low_y, high_x, high_y = self._limits
        free: BoolArray = (left >= low_x) & (top >= low_y) & (right <= high_x) & (bottom <= high_y)
        if not len(boxes):
            return free
        # Boxes tried together lie about one place: most of what is taken lies elsewhere.
        taken = self.taken
        taken = taken[
            (taken[:, 2] > left.min())
            & (taken[:, 0] < right.max())
            & (taken[:, 3] > top.min())
            & (taken[:, 1] < bottom.max())
        ]
        over = (np.minimum(taken[:, 2], right[:, None]) > np.maximum(taken[:, 0], left[:, None])) & (
            np.minimum(taken[:, 3], bottom[:, None]) > np.maximum(taken[:, 1], top[:, None])
        )
        free &= ~over.any(axis=1)
        return free

    def place(self, boxes: Sequence[Box], *, at_most: float = float("inf")) -> int | None:
        """Take the first free box, else the first that lies over a wall alone, else the one that lies over least, if
        that is no more than ``at_most``; gives back its index, or None.
        """
        if not boxes:
            return None
        there = np.array(boxes)
        free = self.free(there)
        if not free.any() and at_most == float("inf"):
            free = self._bare(there)
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
        """Take the first run of boxes that is free, else the first that lies over a wall alone, else the one that lies
        over least; gives back its index.
        """
        tried = [np.array(run) for run in runs]
        index = next((index for index, run in enumerate(tried) if self.free(run).all()), None)
        if index is None:
            index = next((index for index, run in enumerate(tried) if self._bare(run).all()), None)
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
            boxes.append(about((x, y), width, height))
    return boxes


def aside(at: Spot, width: float, height: float) -> Sequence[Box]:
    """Boxes of a size on rings about a place, nearest first, for words that found no room there and want a leader."""
    boxes: list[Box] = []
    for away in _RINGS:
        for dx, dy in _WAYS:
            boxes.append(about((at[0] + dx * (away + width / 2), at[1] + dy * (away + height / 2)), width, height))
    return boxes


def about(middle: Spot, width: float, height: float) -> Box:
    """The box of a size about its middle."""
    x, y = middle
    return (x - width / 2, y - height / 2, x + width / 2, y + height / 2)


def leader_end(at: Spot, box: Box) -> Spot:
    """The point of a box nearest to a place, where a leader from the place ends; the place itself within the box."""
    left, top, right, bottom = box
    return (min(max(at[0], left), right), min(max(at[1], top), bottom))
