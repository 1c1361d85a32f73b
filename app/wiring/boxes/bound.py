"""A bound on the boxes: the linear relaxation over all ways to fill a box, by column generation.

A plan of boxes is a sum of patterns, each a set of pulls that one box holds. The relaxation lets a pattern be bought
in part; its prices (duals) bound every plan from below and later rule out most of the exact model
(P. C. Gilmore and R. E. Gomory, Operations Research 9 (1961) 849; the bound at any prices: A. A. Farley, Operations
Research 38 (1990) 922, both from memory).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import highspy
import numpy as np

from app.geometry.bodies import FloatArray
from app.wiring.boxes.sizes import BoxSize, Catalogue
from app.wiring.quiet_solver import QuietSolver

MOST_ROUNDS = 600
HAIR = 1e-9
HELD_BACK = 0.5


@dataclass(frozen=True)
class Demand:
    """The different lengths among some pulls, longest first, and how many pulls have each."""

    lengths: tuple[int, ...]
    counts: tuple[int, ...]

    @staticmethod
    def of(lengths: Sequence[int]) -> Demand:
        """The demand of some pulls."""
        counted = sorted(Counter(lengths).items(), reverse=True)
        return Demand(tuple(length for length, _ in counted), tuple(count for _, count in counted))

    @property
    def total(self) -> int:
        """Feet of all pulls."""
        return sum(length * count for length, count in zip(self.lengths, self.counts, strict=True))


@dataclass(frozen=True)
class Pattern:
    """A box and how many pulls of each different length it holds."""

    size: BoxSize
    counts: tuple[int, ...]


@dataclass(frozen=True)
class Relaxation:
    """What the relaxation says.

    No best plan costs less than ``bound``, which ``prices`` of the lengths and ``tolls`` on the sizes prove; ``bought``
    is how much it buys of each of ``patterns``.
    """

    bound: float
    prices: FloatArray
    patterns: tuple[Pattern, ...]
    bought: FloatArray
    tolls: Mapping[BoxSize, float]


def relax(
    demand: Demand, choice: Catalogue, start: Iterable[Pattern], enough: int, rounds: int = MOST_ROUNDS
) -> Relaxation:
    """Solve the relaxation from some patterns that cover the demand, in at most some rounds.

    The prices asked at are held back towards the best so far, which keeps them from swinging (P. Wentges, International
    Transactions in Operational Research 4 (1997) 151, from memory). It stops early when the bound says that no plan
    costs less than ``enough``, the cost of one already at hand.
    """
    patterns = list(dict.fromkeys(start))
    master = _Master(demand, choice)
    for pattern in patterns:
        master.add(pattern)
    bound, best_prices = 0.0, _by_the_foot(demand, choice)
    best_tolls = dict.fromkeys(choice.sizes, 0.0)
    known = set(patterns)
    held_back = HELD_BACK
    for _ in range(rounds):
        prices, tolls = master.prices()
        asked = held_back * best_prices + (1 - held_back) * prices
        asked_tolls = {size: held_back * best_tolls[size] + (1 - held_back) * tolls[size] for size in choice.sizes}
        found, proved, safe = _price(demand, choice, asked, asked_tolls)
        if proved > bound:
            bound, best_prices, best_tolls = proved, safe, asked_tolls
            if next(choice.costs_from(bound * (1 - HAIR), demand.total)) >= enough:
                break
        fresh = [pattern for pattern in found if pattern not in known]
        if not fresh and not held_back:
            break
        held_back = HELD_BACK if fresh else 0.0
        for pattern in fresh:
            known.add(pattern)
            patterns.append(pattern)
            master.add(pattern)
    return Relaxation(bound * (1 - HAIR), best_prices, tuple(patterns), master.bought(len(patterns)), best_tolls)


def _by_the_foot(demand: Demand, choice: Catalogue) -> FloatArray:
    """Prices to set out from: each length by its feet, at the cheapest box's cost a foot."""
    a_foot = min(choice.cost_of(size) / size.capacity for size in choice.sizes)
    return a_foot * np.array(demand.lengths, dtype=float)


class _Master:
    """The linear programme over the patterns found so far.

    Costs are told in those of the largest box, to keep the numbers near one; a row for each length asks for its count,
    and one for each size that a best plan has few of holds it to that.
    """

    def __init__(self, demand: Demand, choice: Catalogue) -> None:
        self._choice = choice
        self._unit = float(choice.cost_of(choice.largest))
        self._lengths = len(demand.lengths)
        self._solver = QuietSolver()
        for count in demand.counts:
            self._row(float(count), highspy.kHighsInf)
        self._held: dict[BoxSize, int] = {}
        for size in choice.sizes:
            most = choice.most_of(size)
            if most is not None:
                self._held[size] = self._lengths + len(self._held)
                self._row(-highspy.kHighsInf, float(most))

    def _row(self, low: float, high: float) -> None:
        self._solver.addRow(low, high, 0, np.array([], dtype=np.int32), np.array([]))

    def add(self, pattern: Pattern) -> None:
        """Let a pattern be bought."""
        rows = np.flatnonzero(pattern.counts)
        values = np.array(pattern.counts, dtype=float)[rows]
        if pattern.size in self._held:
            rows, values = np.append(rows, self._held[pattern.size]), np.append(values, 1.0)
        cost = self._choice.cost_of(pattern.size) / self._unit
        self._solver.addCol(cost, 0.0, highspy.kHighsInf, len(rows), rows.astype(np.int32), values)

    def prices(self) -> tuple[FloatArray, dict[BoxSize, float]]:
        """What each length is worth at the optimum, and the toll on each size that is held to its most."""
        self._solver.run()
        duals = self._unit * np.array(self._solver.getSolution().row_dual)
        tolls = {
            size: max(-float(duals[self._held[size]]), 0.0) if size in self._held else 0.0
            for size in self._choice.sizes
        }
        return np.maximum(duals[: self._lengths], 0.0), tolls

    def bought(self, patterns: int) -> FloatArray:
        """How much the last solution buys of each of the first ``patterns``; none of those added since."""
        values = np.array(self._solver.getSolution().col_value)
        return np.concatenate([values, np.zeros(patterns - len(values))])


def _price(
    demand: Demand, choice: Catalogue, prices: FloatArray, tolls: Mapping[BoxSize, float]
) -> tuple[list[Pattern], float, FloatArray]:
    """The patterns worth more than their box and its toll, the bound, and the prices lowered until none is.

    One table of the bounded knapsack serves every size. The bound is what all pulls are worth at the lowered prices,
    less the tolls on as many boxes as a best plan may have of each size.
    """
    pieces = list(_pieces(demand, choice.largest.capacity))
    worth = np.zeros(choice.largest.capacity + 1)
    taken = np.zeros((len(pieces), len(worth)), dtype=bool)
    for number, (kind, count, feet) in enumerate(pieces):
        offer = worth[:-feet] + count * prices[kind]
        np.greater(offer, worth[feet:] + HAIR, out=taken[number, feet:])
        np.maximum(worth[feet:], offer, out=worth[feet:])
    found, lower = [], 1.0
    for size in choice.sizes:
        value, cost = float(worth[size.capacity]), choice.cost_of(size) + tolls[size]
        if value > cost * (1 + HAIR):
            lower = min(lower, cost / value)
            found.append(Pattern(size, _read(demand, pieces, taken, size.capacity)))
    safe = prices * (lower * (1 - HAIR))
    paid = sum(toll * (choice.most_of(size) or 0) for size, toll in tolls.items())
    return found, float(safe @ np.array(demand.counts)) - paid, safe


def _pieces(demand: Demand, capacity: int) -> Iterable[tuple[int, int, int]]:
    """Each length's count split into powers of two: (which length, how many of it together, feet together)."""
    for kind, (length, count) in enumerate(zip(demand.lengths, demand.counts, strict=True)):
        left, together = min(count, capacity // length), 1
        while left > 0:
            part = min(together, left)
            yield kind, part, part * length
            left -= part
            together *= 2


def _read(
    demand: Demand,
    pieces: Sequence[tuple[int, int, int]],
    taken: np.ndarray[tuple[int, int], np.dtype[np.bool_]],
    room: int,
) -> tuple[int, ...]:
    """The pattern that the table's best value for a room stands for."""
    counts = [0] * len(demand.lengths)
    for number in range(len(pieces) - 1, -1, -1):
        if taken[number, room]:
            kind, count, feet = pieces[number]
            counts[kind] += count
            room -= feet
    return tuple(counts)
