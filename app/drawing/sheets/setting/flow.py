"""Blocks of known height that flow down columns and on to further sheets; none is cut, none lies over another."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from app.drawing.view import Spot

_EVENNESS = 2.0  # mm

Draw = Callable[[Spot], Iterable[Any]]


@dataclass(frozen=True)
class Block:
    """Something ``height`` mm high, drawn from its upper left corner.

    ``keep`` holds it together with the block after it; ``header`` stands again above it where a column breaks before
    it; ``gap`` is space that falls away at the top of a column.
    """

    height: float
    draw: Draw
    keep: bool = False
    header: Block | None = None
    gap: bool = False


Column = list[tuple[float, Block]]


def columns_of(blocks: Sequence[Block], height: float) -> list[Column]:
    """Blocks set into as many columns of a height as they need, each with how far down it stands."""
    columns: list[Column] = [[]]
    used = 0.0
    for group in _groups(blocks):
        need = sum(block.height for block in group)
        if columns[-1] and used + need > height + 1e-6:
            columns.append([])
            used = 0.0
        for block in group:
            if not columns[-1]:
                if block.gap:
                    continue
                if block.header is not None:
                    columns[-1].append((used, block.header))
                    used += block.header.height
            elif used + block.height > height + 1e-6:
                columns.append([] if block.header is None else [(0.0, block.header)])
                used = 0.0 if block.header is None else block.header.height
            columns[-1].append((used, block))
            used += block.height
    return columns


def balanced(blocks: Sequence[Block], height: float, count: int) -> list[Column]:
    """The same, but where ``count`` columns hold it all, as short and so as even as they can be."""
    columns = columns_of(blocks, height)
    if len(columns) > count:
        return columns
    low, high = max((block.height for block in blocks), default=0.0), height
    while high - low > _EVENNESS:
        middle = (low + high) / 2
        tried = columns_of(blocks, middle)
        fits = len(tried) <= count and all(down + block.height <= middle + 1e-6 for col in tried for down, block in col)
        low, high = (low, middle) if fits else (middle, high)
        columns = tried if fits else columns
    return columns


def _groups(blocks: Iterable[Block]) -> Iterable[list[Block]]:
    """Runs of blocks that stay together."""
    group: list[Block] = []
    for block in blocks:
        group.append(block)
        if not block.keep:
            yield group
            group = []
    if group:
        yield group
