"""The fewest places that cover every row: an exact set cover by HiGHS, with the bound that proves it.

Knows nothing of glass or plans: rows are numbers, a place is the set of rows that it covers and what it costs in
unloved qualities. Fewest places come first; among covers of that size the least penalty is sought.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np
from highspy import cb

from app.wiring.quiet_solver import QuietSolver


@dataclass(frozen=True)
class Cover:
    """The chosen columns; no cover has fewer than ``bound`` of them."""

    chosen: tuple[int, ...]
    bound: int

    @property
    def optimal(self) -> bool:
        """Whether it is proven that no cover has fewer columns."""
        return len(self.chosen) <= self.bound


def fewest_cover(
    columns: Sequence[frozenset[int]],
    penalties: Sequence[int],
    *,
    bound: int,
    seconds: float,
    stop: Callable[[], bool],
) -> Cover:
    """A cover of all rows that the columns hold together, as small as is found within ``seconds``.

    ``bound`` is a lower bound already known. Where the greedy cover meets it, no solver is asked for the number.
    """
    rows = sorted(frozenset().union(*columns)) if columns else []
    if not rows:
        return Cover((), 0)
    best = _without_spares(columns, penalties, _greedy(columns, penalties, rows))
    bound = max(bound, 1)
    if len(best) > bound and not stop():
        found, proven = _solve(columns, [1.0] * len(columns), rows, best, None, seconds, stop)
        if math.isfinite(proven):  # in no time nothing is proven
            bound = max(bound, min(len(best), math.ceil(proven - 1e-6)))
        if len(found) < len(best):
            best = found
    if any(penalties[column] for column in best) and not stop():
        costs = [float(penalty) for penalty in penalties]
        kinder, _ = _solve(columns, costs, rows, best, len(best), seconds / 4, stop)
        if sum(costs[column] for column in kinder) < sum(costs[column] for column in best):
            best = kinder
    return Cover(tuple(sorted(best)), bound)


def apart(columns: Sequence[frozenset[int]]) -> int:
    """A lower bound: rows picked one after another so that no column covers two of them, the least shared first."""
    together: dict[int, set[int]] = {}
    for column in columns:
        for row in column:
            together.setdefault(row, set()).update(column)
    free = set(together)
    picked = 0
    for row in sorted(together, key=lambda row: (len(together[row]), row)):
        if row in free:
            picked += 1
            free -= together[row]
    return picked


def _greedy(columns: Sequence[frozenset[int]], penalties: Sequence[int], rows: Sequence[int]) -> list[int]:
    holders: dict[int, list[int]] = {}
    for index, column in enumerate(columns):
        for row in column:
            holders.setdefault(row, []).append(index)
    gain = np.array([len(column) for column in columns])
    burden = np.asarray(penalties)
    left = set(rows)
    chosen: list[int] = []
    while left:
        most = np.flatnonzero(gain == gain.max())
        pick = int(most[np.argmin(burden[most])])
        chosen.append(pick)
        for row in columns[pick] & left:
            left.discard(row)
            gain[holders[row]] -= 1
    return chosen


def _without_spares(
    columns: Sequence[frozenset[int]], penalties: Sequence[int], chosen: Sequence[int]
) -> tuple[int, ...]:
    """The chosen columns less those that the others make needless, the least loved first."""
    kept = list(chosen)
    for index in sorted(chosen, key=lambda column: (-penalties[column], len(columns[column]), column)):
        others = frozenset().union(*(columns[other] for other in kept if other != index))
        if columns[index] <= others:
            kept.remove(index)
    return tuple(kept)


def _solve(
    columns: Sequence[frozenset[int]],
    costs: Sequence[float],
    rows: Sequence[int],
    start: Sequence[int],
    most: int | None,
    seconds: float,
    stop: Callable[[], bool],
) -> tuple[tuple[int, ...], float]:
    """The cheapest cover found and the proven lower bound on its cost; at most ``most`` columns where given."""
    model = _model(columns, costs, rows, most)
    for begun in (start, None):
        solver = _solver(seconds, stop)
        solver.passModel(model)
        if begun is not None:
            solution = highspy.HighsSolution()
            picked = np.zeros(len(columns))
            picked[list(begun)] = 1.0
            solution.col_value = picked.tolist()
            solver.setSolution(solution)
        solver.run()
        info = solver.getInfo()
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return tuple(start), float(info.mip_dual_bound)
        values = np.asarray(solver.getSolution().col_value)
        found = tuple(int(column) for column in np.flatnonzero(values > 0.5))
        # HiGHS 1.16 leaves out of its objective and its bound what presolve fixed, where that solves all from a start.
        if abs(sum(costs[column] for column in found) - info.objective_function_value) < 0.5:
            return found, float(info.mip_dual_bound)
    return tuple(start), -math.inf


def _solver(seconds: float, stop: Callable[[], bool]) -> QuietSolver:
    solver = QuietSolver()
    for option, value in (
        ("mip_rel_gap", 0.0),
        ("mip_abs_gap", 0.999),  # costs are whole numbers
        ("time_limit", seconds),
        ("random_seed", 1),
    ):
        solver.setOptionValue(option, value)

    def heed(_kind: Any, _message: str, _out: Any, into: Any, _data: Any) -> None:
        if stop():
            into.user_interrupt = True

    solver.setCallback(heed, None)
    solver.startCallback(cb.HighsCallbackType.kCallbackMipInterrupt)
    return solver


def _model(
    columns: Sequence[frozenset[int]], costs: Sequence[float], rows: Sequence[int], most: int | None
) -> highspy.HighsLp:
    place = {row: number for number, row in enumerate(rows)}
    held: list[list[int]] = [[] for _ in rows]
    for index, column in enumerate(columns):
        for row in column:
            held[place[row]].append(index)
    lower, upper = [1.0] * len(rows), [highspy.kHighsInf] * len(rows)
    if most is not None:
        held.append(list(range(len(columns))))
        lower.append(0.0)
        upper.append(float(most))
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(columns), len(held)
    lp.col_cost_ = np.array(costs)
    lp.col_lower_, lp.col_upper_ = np.zeros(len(columns)), np.ones(len(columns))
    lp.row_lower_, lp.row_upper_ = np.array(lower), np.array(upper)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.cumsum([0, *map(len, held)]).astype(np.int32)
    lp.a_matrix_.index_ = np.array([index for row in held for index in row], dtype=np.int32)
    lp.a_matrix_.value_ = np.ones(sum(map(len, held)))
    lp.integrality_ = [highspy.HighsVarType.kInteger] * len(columns)
    return lp
