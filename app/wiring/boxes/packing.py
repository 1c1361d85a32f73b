"""Boxes of cable: which to buy and which pull comes from which, fewest feet bought, then fewest boxes.

Every pull comes whole from one box. Most jobs are settled by filling boxes by hand and a bound; the rest go to an exact
model, and where that runs out of its limits the bound is told.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from app.wiring.boxes.bound import Demand, Pattern, Relaxation, relax
from app.wiring.boxes.diving import dive, singly
from app.wiring.boxes.exact import choose_patterns, solve_exactly
from app.wiring.boxes.filling import Filled, fill_greedily, fill_mix, level_out, merge
from app.wiring.boxes.sizes import BoxSize, Catalogue, catalogue

MOST_COSTS = 3
MOST_MIXES = 4
MOST_PULLS = 2000  # for more of one cable only the bound by feet is told


@dataclass(frozen=True)
class Box:
    """A box to buy, and the indices of the pulls that come from it, in pulling order: the longest first."""

    size_ft: float
    pulls: tuple[int, ...]
    used_ft: int

    @property
    def left_ft(self) -> float:
        """What is left in the box when its pulls are pulled."""
        return self.size_ft - self.used_ft


@dataclass(frozen=True)
class Packing:
    """A plan of boxes for one cable.

    No plan buys fewer than ``bound_ft`` feet, nor, of plans that buy that many, fewer than ``bound_boxes`` boxes;
    ``proven`` when this plan buys just that. ``too_long`` are the pulls that no size holds whole.
    """

    boxes: tuple[Box, ...]
    too_long: tuple[int, ...]
    bound_ft: float
    bound_boxes: int
    proven: bool

    @property
    def bought_ft(self) -> float:
        """Feet of cable in all boxes."""
        return sum(box.size_ft for box in self.boxes)


def pack_boxes(lengths: Sequence[int], sizes: Sequence[float]) -> Packing:
    """The plan of boxes for pulls of some whole feet, from boxes of some sizes in feet."""
    choice = catalogue(sizes, len(lengths))
    fits = [pull for pull, length in enumerate(lengths) if length <= choice.largest.capacity]
    too_long = tuple(pull for pull, length in enumerate(lengths) if length > choice.largest.capacity)
    if not fits:
        return Packing((), too_long, 0.0, 0, True)
    lengths_that_fit = [lengths[pull] for pull in fits]
    filled, bound = _best(lengths_that_fit, choice)
    boxes = [_box(size, [fits[pull] for pull in pulls], lengths) for size, pulls in level_out(lengths_that_fit, filled)]
    boxes.sort(key=lambda box: (-box.size_ft, -box.used_ft, box.pulls))
    bound_ft, bound_boxes = choice.of_cost(bound)
    return Packing(tuple(boxes), too_long, bound_ft, bound_boxes, _cost(filled, choice) <= bound)


def _best(lengths: Sequence[int], choice: Catalogue) -> tuple[list[Filled], int]:
    """The best plan found, and a cost that no plan goes below."""
    total = sum(lengths)
    bound = next(choice.costs_from(0, total))
    filled = merge(_by_hand(lengths, choice), choice)
    if _cost(filled, choice) == bound:
        return filled, bound
    if len(lengths) > MOST_PULLS:
        return filled, bound
    demand = Demand.of(lengths)
    start = [_pattern(demand, lengths, size, pulls) for size, pulls in filled]
    relaxation = relax(demand, choice, start, _cost(filled, choice))
    bound = next(choice.costs_from(relaxation.bound, total))
    if bound < _cost(filled, choice):
        filled = _better(filled, dive(demand, choice, relaxation), lengths, choice)
    if bound < _cost(filled, choice):
        patterns = choose_patterns(demand, choice, relaxation.patterns, _cost(filled, choice))
        filled = _better(filled, patterns, lengths, choice)
    if bound < _cost(filled, choice):
        settle = _settle_by_mix if choice.nested else _settle
        filled, bound = settle(lengths, demand, choice, relaxation, filled)
    return filled, bound


def _settle(
    lengths: Sequence[int], demand: Demand, choice: Catalogue, relaxation: Relaxation, filled: list[Filled]
) -> tuple[list[Filled], int]:
    """The best plan and the bound by the exact model over all sizes at once."""
    answer = solve_exactly(demand, choice, relaxation, _cost(filled, choice))
    proved = min(answer.bound, _cost(filled, choice))
    filled = _better(filled, answer.patterns, lengths, choice)
    return filled, min(next(choice.costs_from(proved, sum(lengths))), _cost(filled, choice))


def _settle_by_mix(
    lengths: Sequence[int], demand: Demand, choice: Catalogue, relaxation: Relaxation, filled: list[Filled]
) -> tuple[list[Filled], int]:
    """The same for nested sizes, whose feet come in one mix of fewest boxes: each mix is refuted or filled in turn.

    Held to a mix, the relaxation is much tighter than over all sizes at once.
    """
    for cost in choice.costs_from(relaxation.bound, sum(lengths)):
        if cost >= _cost(filled, choice):
            break
        mix = next(choice.mixes(cost), None)
        if mix is None:
            return filled, cost
        held = choice.held_to(mix)
        relaxed = relax(demand, held, [*relaxation.patterns, *singly(demand, held)], cost + 1)
        if relaxed.bound > cost + 1e-6:
            continue
        filled = _better(filled, dive(demand, held, relaxed), lengths, choice)
        if _cost(filled, choice) > cost:
            answer = solve_exactly(demand, held, relaxed, cost + 1)
            filled = _better(filled, answer.patterns, lengths, choice)
            if answer.patterns is None and answer.bound <= cost:
                return filled, cost
    return filled, _cost(filled, choice)


def _by_hand(lengths: Sequence[int], choice: Catalogue) -> list[Filled]:
    """A plan by filling boxes in turn: the cheapest mixes of boxes are tried first."""
    filled = fill_greedily(lengths, choice)
    for cost in islice(choice.costs_from(0, sum(lengths)), MOST_COSTS):
        if cost >= _cost(filled, choice):
            break
        for mix in islice(choice.mixes(cost), MOST_MIXES):
            if (found := fill_mix(lengths, mix)) is not None:
                return found
    return filled


def _pattern(demand: Demand, lengths: Sequence[int], size: BoxSize, pulls: Sequence[int]) -> Pattern:
    held = Counter(lengths[pull] for pull in pulls)
    return Pattern(size, tuple(held[length] for length in demand.lengths))


def _better(
    filled: list[Filled], patterns: Sequence[Pattern] | None, lengths: Sequence[int], choice: Catalogue
) -> list[Filled]:
    """The plan of some patterns where it is cheaper: each takes its pulls, then the smallest box for them."""
    if patterns is None:
        return filled
    waiting: dict[int, list[int]] = {}
    for pull in range(len(lengths) - 1, -1, -1):
        waiting.setdefault(lengths[pull], []).append(pull)
    kinds = Demand.of(lengths).lengths
    other: list[Filled] = []
    for pattern in patterns:
        held = [
            waiting[length].pop()
            for length, count in zip(kinds, pattern.counts, strict=True)
            for _ in range(min(count, len(waiting[length])))
        ]
        if held:
            other.append((choice.smallest_for(sum(lengths[pull] for pull in held)), tuple(held)))
    other = merge(other, choice)
    return other if _cost(other, choice) < _cost(filled, choice) else filled


def _cost(filled: Sequence[Filled], choice: Catalogue) -> int:
    return sum(choice.cost_of(size) for size, _ in filled)


def _box(size: BoxSize, pulls: Sequence[int], lengths: Sequence[int]) -> Box:
    order = sorted(pulls, key=lambda pull: (-lengths[pull], pull))
    return Box(size.feet, tuple(order), sum(lengths[pull] for pull in pulls))
