"""The nearest of many ends by taxi distance, each end with feet of its own beyond it.

Few ends are compared with every place at once. Many are put in blocks first, and a block is looked at only while it may
still hold a nearer end than those found, so that a plan with thousands of cans or risers is answered as soon.
"""

from __future__ import annotations

import numpy as np

from app.geometry.bodies import FloatArray, IntArray

BLOCK = 64
PLACES = 256


def nearest_end(places: FloatArray, ends: FloatArray, beyond: FloatArray) -> tuple[FloatArray, IntArray]:
    """For each place (n, 2) the least |dx| + |dy| + ``beyond`` over the ends (m, 2), and the index of that end.

    Of ends as near the first is taken, up to rounding; infinite and −1 where there is no end.
    """
    feet, which = np.full(len(places), np.inf), np.full(len(places), -1, dtype=np.int64)
    if not len(ends):
        return feet, which
    blocks = _blocks(ends, BLOCK)
    low = np.array([ends[block].min(axis=0) for block in blocks])
    high = np.array([ends[block].max(axis=0) for block in blocks])
    least = np.array([beyond[block].min() for block in blocks])
    for part in _blocks(places, PLACES):
        near, far = places[part].min(axis=0), places[part].max(axis=0)
        bound = np.maximum(0.0, np.maximum(low - far, near - high)).sum(axis=1) + least
        for number in np.argsort(bound, kind="stable"):
            if bound[number] > feet[part].max():
                break
            _improve(places, ends, beyond, part, blocks[number], feet, which)
    return feet, which


def _improve(
    places: FloatArray,
    ends: FloatArray,
    beyond: FloatArray,
    part: IntArray,
    block: IntArray,
    feet: FloatArray,
    which: IntArray,
) -> None:
    """Take the ends of one block into account for some places."""
    apart = np.abs(places[part, None, :] - ends[None, block, :]).sum(axis=2) + beyond[block]
    best = apart.argmin(axis=1)
    found = apart[np.arange(len(part)), best]
    better = (found < feet[part]) | ((found == feet[part]) & (block[best] < which[part]))
    feet[part[better]] = found[better]
    which[part[better]] = block[best[better]]


def _blocks(points: FloatArray, size: int) -> list[IntArray]:
    """Indices of points in compact blocks of about a size: strips across, each cut along; a block's indices rise."""
    strips = max(1, round((len(points) / size) ** 0.5))
    across = np.argsort(points[:, 0], kind="stable")
    blocks: list[IntArray] = []
    for strip in np.array_split(across, strips):
        along = strip[np.argsort(points[strip, 1], kind="stable")]
        blocks += [np.sort(block) for block in np.array_split(along, max(1, -(-len(strip) // size))) if len(block)]
    return blocks
