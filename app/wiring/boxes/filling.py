"""Filling boxes by hand: each box takes its longest pull, then the set of others that fills it best.

Quick and mostly optimal; what it finds is proved or improved by the bound and the exact model.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from random import Random

from app.wiring.boxes.sizes import BoxSize, Catalogue

Filled = tuple[BoxSize, tuple[int, ...]]  # a box and the indices of the pulls that it holds
TRIES = 4


def fill_mix(lengths: Sequence[int], mix: Sequence[BoxSize]) -> list[Filled] | None:
    """Put all pulls in exactly the boxes of a mix, or None where the tries find no way."""
    if sum(lengths) > sum(size.capacity for size in mix):
        return None
    for boxes, chance in _orders(mix):
        if (filled := _fill_in_turn(lengths, boxes, chance)) is not None:
            return filled
    return None


def _orders(mix: Sequence[BoxSize]) -> Iterator[tuple[list[BoxSize], Random | None]]:
    """Orders in which to fill the boxes of a mix: large first, small first, then shuffled the same way every time."""
    yield sorted(mix, key=lambda size: -size.units), None
    yield sorted(mix, key=lambda size: size.units), None
    for seed in range(TRIES):
        chance = Random(seed)
        boxes = list(mix)
        chance.shuffle(boxes)
        yield boxes, chance


def _fill_in_turn(lengths: Sequence[int], boxes: Sequence[BoxSize], chance: Random | None) -> list[Filled] | None:
    waiting = sorted(range(len(lengths)), key=lambda pull: (-lengths[pull], pull))
    filled: list[Filled] = []
    for size in boxes:
        if chance is not None and len(waiting) > 2:
            _stir(waiting, lengths, chance)
        taken = best_set(lengths, waiting, size.capacity)
        held = set(taken)
        waiting = [pull for pull in waiting if pull not in held]
        filled.append((size, tuple(taken)))
    return None if waiting else filled


def _stir(waiting: list[int], lengths: Sequence[int], chance: Random) -> None:
    """Change the order of pulls a little, longer ones still mostly first."""
    key = {pull: lengths[pull] * chance.uniform(0.8, 1.2) for pull in waiting}
    waiting.sort(key=lambda pull: (-key[pull], pull))


def best_set(lengths: Sequence[int], waiting: Sequence[int], capacity: int) -> list[int]:
    """The first pull that fits and, of the rest, a set that leaves least of ``capacity``, earlier pulls preferred.

    Subset sums as the bits of one whole number: bit s is set when some set of pulls is s feet long.
    """
    first = next((pull for pull in waiting if lengths[pull] <= capacity), None)
    if first is None:
        return []
    room = capacity - lengths[first]
    others = [pull for pull in waiting if pull != first and lengths[pull] <= room]
    mask, sums, history = (1 << (room + 1)) - 1, 1, [1]
    for pull in others:
        sums |= (sums << lengths[pull]) & mask
        history.append(sums)
        if sums >> room & 1:
            break
    reach = sums.bit_length() - 1
    taken = [first]
    for number in range(len(history) - 1, 0, -1):
        if not history[number - 1] >> reach & 1:
            taken.append(others[number - 1])
            reach -= lengths[others[number - 1]]
    return taken


def fill_greedily(lengths: Sequence[int], catalogue: Catalogue) -> list[Filled]:
    """A plan that always exists: the largest boxes filled in turn, each then exchanged for the smallest that does.

    A filling is repeated while there are pulls of its lengths, so that the work does not grow with their number.
    """
    room = catalogue.largest.capacity
    waiting: dict[int, list[int]] = {}
    for pull in sorted(range(len(lengths)), key=lambda pull: (-lengths[pull], pull)):
        waiting.setdefault(lengths[pull], []).append(pull)
    filled: list[Filled] = []
    while waiting:
        offered = [length for length, pulls in waiting.items() for _ in range(min(len(pulls), room // max(length, 1)))]
        held = Counter(offered[number] for number in best_set(offered, range(len(offered)), room))
        size = catalogue.smallest_for(sum(held.elements()))
        times = min(len(waiting[length]) // count for length, count in held.items())
        filled += [(size, tuple(waiting[length].pop(0) for length in held.elements())) for _ in range(times)]
        waiting = {length: pulls for length, pulls in waiting.items() if pulls}
    return filled


def merge(filled: Sequence[Filled], catalogue: Catalogue) -> list[Filled]:
    """The same feet in fewer boxes: boxes that together are as long as a larger one become that one."""
    boxes = list(filled)
    for size in reversed(catalogue.sizes):
        while (group := _adding_up_to(boxes, size)) is not None:
            pulls = tuple(pull for number in group for pull in boxes[number][1])
            boxes = [box for number, box in enumerate(boxes) if number not in group]
            boxes.append((size, pulls))
    return boxes


def _adding_up_to(boxes: Sequence[Filled], size: BoxSize) -> set[int] | None:
    """Two or more boxes, all smaller than a size, whose units add up to it."""
    made: dict[int, tuple[int, ...]] = {0: ()}
    for number, (other, _) in enumerate(boxes):
        if other.units < size.units:
            for units, group in list(made.items()):
                if units + other.units <= size.units:
                    made.setdefault(units + other.units, (*group, number))
            if size.units in made:
                return set(made[size.units])
    return None


def level_out(lengths: Sequence[int], filled: Sequence[Filled]) -> list[Filled]:
    """The same boxes with their rests evened out, so that none is planned to the last foot while others have plenty.

    The box with the least left gives a pull to the one with the most, while that leaves the poorer of both better off.
    """
    boxes = [(size, list(pulls)) for size, pulls in filled]
    left = [size.capacity - sum(lengths[pull] for pull in pulls) for size, pulls in boxes]
    for _ in range(2 * len(lengths)):
        poor, rich = left.index(min(left)), left.index(max(left))
        gains = [(min(left[poor] + lengths[pull], left[rich] - lengths[pull]), -pull) for pull in boxes[poor][1]]
        best, pull = max(gains, default=(0, 0))
        if best <= left[poor] or len(gains) < 2:
            break
        boxes[poor][1].remove(-pull)
        boxes[rich][1].append(-pull)
        left[poor] += lengths[-pull]
        left[rich] -= lengths[-pull]
    return [(size, tuple(pulls)) for size, pulls in boxes]
