"""Diving: a whole plan of boxes out of the relaxation, buying what it buys most of and relaxing the rest anew."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.geometry.bodies import FloatArray
from app.wiring.boxes.bound import Demand, Pattern, Relaxation, relax
from app.wiring.boxes.sizes import Catalogue

ROUNDS = 25  # of column generation before each purchase
SHARE = 6  # of the boxes still to buy, one in so many is bought at a time
SURE = 0.999


def dive(demand: Demand, choice: Catalogue, relaxation: Relaxation) -> list[Pattern]:
    """Whole patterns that hold every pull once; mostly as cheap as any."""
    left = list(demand.counts)
    chosen: list[Pattern] = []
    patterns, bought = relaxation.patterns, relaxation.bought
    while True:
        for pattern in _to_buy(patterns, bought, left):
            chosen.append(pattern)
            left = [count - held for count, held in zip(left, pattern.counts, strict=True)]
        if not any(left):
            return chosen
        rest = Demand(demand.lengths, tuple(left))
        useful = [*(pattern for pattern in patterns if _fits(pattern, left)), *singly(rest, choice)]
        relaxed = relax(rest, choice, useful, 1 << 60, ROUNDS)
        patterns, bought = relaxed.patterns, relaxed.bought


def _to_buy(patterns: Sequence[Pattern], bought: FloatArray, left: Sequence[int]) -> list[Pattern]:
    """The patterns bought next: what the relaxation buys whole, then the nearest to whole, each within what is left."""
    still = list(left)
    most = max(1, round(float(bought.sum()) / SHARE))
    buying: list[Pattern] = []
    for number in sorted(range(len(patterns)), key=lambda n: (-min(float(bought[n]), 1.0), n)):
        times = max(1, int(bought[number] + 1 - SURE))
        if bought[number] < SURE and len(buying) >= most:
            break
        for _ in range(times):
            if _fits(patterns[number], still):
                buying.append(patterns[number])
                still = [count - held for count, held in zip(still, patterns[number].counts, strict=True)]
    return buying


def _fits(pattern: Pattern, left: Sequence[int]) -> bool:
    return any(pattern.counts) and all(held <= count for held, count in zip(pattern.counts, left, strict=True))


def singly(demand: Demand, choice: Catalogue) -> list[Pattern]:
    """A box of the largest size for a pull of each length, so that there is always a plan."""
    unit = np.eye(len(demand.lengths), dtype=int)
    return [
        Pattern(choice.largest, tuple(int(one) for one in unit[kind]))
        for kind, count in enumerate(demand.counts)
        if count
    ]
