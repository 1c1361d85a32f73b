"""Rows that have several things each, laid out one after the other in flat arrays, and lots of such rows."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from app.geometry.bodies import IntArray


def counted(count: IntArray) -> tuple[IntArray, IntArray]:
    """For ``count`` (p,) things a row, the row of each thing and its number within the row."""
    row = np.repeat(np.arange(len(count)), count)
    return row, np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)


def lots(count: IntArray, most: int) -> list[slice]:
    """Slices of rows whose counts add up to about ``most``: they stay in the processor's cache, and memory bounded."""
    if not len(count):
        return []
    if int(count.sum()) < most:  # all of them, as nearly always where one thing is asked for
        return [slice(0, len(count))]
    lot = np.cumsum(count) // most
    starts = np.flatnonzero(np.diff(lot, prepend=-1)).tolist()
    return [slice(start, stop) for start, stop in pairwise([*starts, len(count)])]
