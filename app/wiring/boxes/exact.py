"""The exact model of the boxes: pulls laid end to end as arcs from 0 to the end of a box, a flow that lays them all.

Prices from the relaxation first rule out every arc that no better plan can use, which leaves a small integer programme
(arc flow: J. M. Valério de Carvalho, Annals of Operations Research 86 (1999) 629, from memory).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import highspy
import numpy as np

from app.geometry.bodies import FloatArray
from app.wiring.boxes.bound import Demand, Pattern, Relaxation
from app.wiring.boxes.sizes import BoxSize, Catalogue
from app.wiring.quiet_solver import QuietSolver

MOST_ARCS = 30_000
MOST_NODES = 20_000
MOST_SECONDS = 3.0
NONE = -np.inf


@dataclass(frozen=True)
class Answer:
    """What an integer programme gave: the patterns of a better plan, if any, and a cost that no plan goes below."""

    patterns: list[Pattern] | None
    bound: float


def choose_patterns(demand: Demand, choice: Catalogue, patterns: Sequence[Pattern], best: int) -> list[Pattern] | None:
    """The cheapest plan of whole patterns out of some, where it costs less than ``best``; it may hold a pull twice."""
    model = _Programme(best - 1)
    rows = [model.row(float(count), highspy.kHighsInf) for count in demand.counts]
    for pattern in patterns:
        held = [(rows[kind], float(count)) for kind, count in enumerate(pattern.counts) if count]
        model.column(choice.cost_of(pattern.size), held)
    flows, _ = model.solve(nodes=200, seconds=1.0)
    if flows is None:
        return None
    return [pattern for pattern, times in zip(patterns, flows, strict=True) for _ in range(times)]


def solve_exactly(demand: Demand, choice: Catalogue, relaxation: Relaxation, best: int) -> Answer:
    """A plan cheaper than ``best``, or the proof that there is none, as far as the limits on the search allow."""
    slack = best - 1 - relaxation.bound
    arcs = list(_useful_arcs(demand, choice, relaxation, slack))
    if len(arcs) > MOST_ARCS:
        return Answer(None, relaxation.bound)
    model = _Programme(best - 1)
    laid = [model.row(float(count), float(count)) for count in demand.counts]
    held = {
        size: [(model.row(0.0, float(most)), 1.0)]
        for size in choice.sizes
        if (most := choice.most_of(size)) is not None
    }
    meets: dict[int, int] = {}

    def meeting(position: int) -> int:
        if position not in meets:
            meets[position] = model.row(0.0, 0.0)
        return meets[position]

    for kind, start in arcs:
        ends = [(meeting(start + demand.lengths[kind]), 1.0), (laid[kind], 1.0)]
        model.column(0.0, [*ends, (meeting(start), -1.0)] if start else ends)
    closes: list[tuple[int, BoxSize]] = []
    for position in sorted(meets):
        # A box that some smaller box could stand for is never closed here: it costs more for the same pulls.
        size = choice.smallest_for(position) if position <= choice.largest.capacity else None
        if size is not None:
            closes.append((position, size))
            model.column(choice.cost_of(size), [(meets[position], -1.0), *held.get(size, [])])
    flows, bound = model.solve(nodes=MOST_NODES, seconds=MOST_SECONDS)
    bound = max(bound, relaxation.bound)
    if flows is None:
        return Answer(None, bound)
    return Answer(_walk(demand, arcs, closes, flows), bound)


def _useful_arcs(demand: Demand, choice: Catalogue, relaxation: Relaxation, slack: float) -> Iterator[tuple[int, int]]:
    """Each (length, start) that some box worth having may hold, pulls laid longest first.

    A box is worth having when what it costs, toll included, beyond the prices of its pulls is at most ``slack``; the
    best box through an arc is the best set before it and the best set after it.
    """
    copies = [
        kind
        for kind, (length, count) in enumerate(zip(demand.lengths, demand.counts, strict=True))
        for _ in range(min(count, choice.largest.capacity // length))
    ]
    room, prices = choice.largest.capacity, relaxation.prices
    before = np.full((len(copies) + 1, room + 1), NONE)
    before[0, 0] = 0.0
    after = np.zeros((len(copies) + 1, room + 1))
    for number, kind in enumerate(copies):
        before[number + 1] = before[number]
        _offer(before[number + 1], before[number], demand.lengths[kind], prices[kind])
    for number in range(len(copies) - 1, -1, -1):
        after[number] = after[number + 1]
        _offer(after[number], after[number + 1], demand.lengths[copies[number]], prices[copies[number]])
    useful: dict[int, set[int]] = defaultdict(set)
    for number, kind in enumerate(copies):
        length = demand.lengths[kind]
        best = np.full(room + 1, NONE)
        for size in choice.sizes:
            last = size.capacity - length  # the latest start in this size
            if last >= 0:
                cost = choice.cost_of(size) + relaxation.tolls[size]
                worth = before[number, : last + 1] + prices[kind] + after[number + 1, last::-1] - cost
                np.maximum(best[: last + 1], worth, out=best[: last + 1])
        useful[kind].update(np.flatnonzero(best >= -slack - 1e-6).tolist())
    for kind in sorted(useful):
        for start in sorted(useful[kind]):
            yield kind, start


def _offer(table: FloatArray, without: FloatArray, length: int, price: float) -> None:
    """Let each entry of a table be reached by one more pull of ``length``."""
    np.maximum(table[length:], without[:-length] + price, out=table[length:])


def _walk(
    demand: Demand, arcs: Sequence[tuple[int, int]], closes: Sequence[tuple[int, BoxSize]], flows: Sequence[int]
) -> list[Pattern]:
    """The boxes of a flow, taken apart path by path."""
    leaving: dict[int, list[list[int]]] = defaultdict(list)  # position: [[length's kind, times], …]
    for (kind, start), times in zip(arcs, flows, strict=False):
        if times:
            leaving[start].append([kind, times])
    sizes = dict(closes)
    closing = {position: times for (position, _), times in zip(closes, flows[len(arcs) :], strict=True)}
    patterns: list[Pattern] = []
    while leaving[0]:
        position, counts = 0, [0] * len(demand.lengths)
        while position == 0 or not closing.get(position, 0):
            step = leaving[position][-1]
            step[1] -= 1
            if not step[1]:
                leaving[position].pop()
            counts[step[0]] += 1
            position += demand.lengths[step[0]]
        closing[position] -= 1
        patterns.append(Pattern(sizes[position], tuple(counts)))
    return patterns


class _Programme:
    """An integer programme built column by column, whose cost may be no more than ``most``."""

    def __init__(self, most: float) -> None:
        self._rows: list[tuple[float, float]] = []
        self._costs: list[float] = []
        self._starts: list[int] = []
        self._index: list[int] = []
        self._value: list[float] = []
        self._cap = self.row(-highspy.kHighsInf, most + 0.5)

    def row(self, low: float, high: float) -> int:
        """A new row between two bounds."""
        self._rows.append((low, high))
        return len(self._rows) - 1

    def column(self, cost: float, entries: Sequence[tuple[int, float]]) -> None:
        """A new whole number with its cost and its entries in the rows."""
        self._starts.append(len(self._index))
        self._costs.append(cost)
        for row, value in [*entries, (self._cap, cost)] if cost else entries:
            self._index.append(row)
            self._value.append(value)

    def solve(self, nodes: int, seconds: float) -> tuple[list[int] | None, float]:
        """The whole numbers of the best solution found, or None, and the bound; infinite where none can exist."""
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self._costs), len(self._rows)
        lp.col_cost_ = np.array(self._costs)
        lp.col_lower_ = np.zeros(lp.num_col_)
        lp.col_upper_ = np.full(lp.num_col_, highspy.kHighsInf)
        lp.row_lower_, lp.row_upper_ = np.array(self._rows).T
        lp.a_matrix_.format_ = highspy.MatrixFormat.kColwise
        lp.a_matrix_.start_ = np.array([*self._starts, len(self._index)], dtype=np.int32)
        lp.a_matrix_.index_ = np.array(self._index, dtype=np.int32)
        lp.a_matrix_.value_ = np.array(self._value)
        lp.integrality_ = [highspy.HighsVarType.kInteger] * lp.num_col_
        solver = QuietSolver()
        for option, value in (
            ("mip_rel_gap", 0.0),
            ("mip_abs_gap", 0.9),
            ("mip_max_nodes", nodes),
            ("time_limit", seconds),
            ("random_seed", 1),
        ):
            solver.setOptionValue(option, value)
        solver.passModel(lp)
        solver.run()
        status, info = solver.getModelStatus(), solver.getInfo()
        if status == highspy.HighsModelStatus.kInfeasible:
            return None, np.inf
        bound = float(info.mip_dual_bound)
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return None, bound
        return [round(value) for value in solver.getSolution().col_value], bound
