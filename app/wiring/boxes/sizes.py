"""The boxes that can be bought, and how two plans of boxes compare: fewest feet in all, then fewest boxes.

The comparison is one whole number, ``units · (pulls + 1) + boxes``, so that an exact solver can minimise it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

UNITS_IN_A_FOOT = 1000
MOST_STEPS = 20_000  # of the search for mixes of boxes
MOST_UNITS = 2_000_000


@dataclass(frozen=True)
class BoxSize:
    """One size: feet, the whole feet that pulls can fill, and its share of the common unit of all sizes."""

    feet: float
    capacity: int
    units: int


@dataclass(frozen=True)
class Catalogue:
    """The sizes that may be bought, smallest first, for a number of pulls; ``feet_in_a_unit`` divides them all.

    ``held``, where given, is a mix: of each size but the largest no more may be bought than it has.
    """

    sizes: tuple[BoxSize, ...]
    feet_in_a_unit: float
    pulls: int
    held: tuple[BoxSize, ...] | None = None

    @property
    def largest(self) -> BoxSize:
        """The size that holds most."""
        return self.sizes[-1]

    def cost(self, units: int, boxes: int) -> int:
        """The number that plans of boxes are compared by."""
        return units * (self.pulls + 1) + boxes

    def cost_of(self, size: BoxSize) -> int:
        """What one box adds to that number."""
        return self.cost(size.units, 1)

    def of_cost(self, cost: int) -> tuple[float, int]:
        """Feet and boxes of a cost."""
        units, boxes = divmod(cost, self.pulls + 1)
        return units * self.feet_in_a_unit, boxes

    def smallest_for(self, length: int) -> BoxSize:
        """The smallest size that holds a length no longer than the largest box."""
        return next(size for size in self.sizes if size.capacity >= length)

    def most_of(self, size: BoxSize) -> int | None:
        """The most boxes of a size in a best plan, where that is known.

        As many as are together as long as a larger box would be exchanged for it: the same feet in fewer boxes.
        """
        if self.held is not None:
            return None if size == self.largest else self.held.count(size)
        exchanges = [large.units // size.units for large in self.sizes if large.units % size.units == 0]
        return min((together - 1 for together in exchanges if together > 1), default=None)

    @cached_property
    def nested(self) -> bool:
        """Whether each size divides the next.

        Then boxes of any plan can be exchanged for as many feet in the fewest boxes those feet come in: small boxes
        that together are as long as a larger one always can be found, and their pulls fit in it.
        """
        return all(large.units % small.units == 0 for small, large in pairwise(self.sizes))

    @cached_property
    def _fewest(self) -> list[float]:
        """Fewest boxes whose units add up to the index; infinite where none do. Grown as it is asked for."""
        return [0.0]

    def fewest_boxes(self, units: int) -> float:
        """Fewest boxes whose units are exactly ``units``, infinite where no boxes are."""
        fewest = self._fewest
        while len(fewest) <= units:
            here = len(fewest)
            fewest.append(
                min((fewest[here - size.units] + 1 for size in self.sizes if size.units <= here), default=math.inf)
            )
        return fewest[units]

    def costs_from(self, least: float, total: int) -> Iterator[int]:
        """The costs, in rising order, of plans of boxes that hold ``total`` feet and cost ``least`` or more.

        A cost may be given for which no mix of boxes has exactly that count, never the reverse: the first one is a
        lower bound.
        """
        units = max(math.ceil(total / self.feet_in_a_unit - 1e-9), int(max(least, 0)) // (self.pulls + 1) - 1, 1)
        while True:
            fewest = self.fewest_boxes(units)
            if fewest < math.inf:
                most = int(fewest) if self.nested else min(units // self.sizes[0].units, self.pulls)
                first = max(int(fewest), math.ceil(least - 1e-6) - units * (self.pulls + 1))
                yield from (self.cost(units, boxes) for boxes in range(first, most + 1))
            units += 1

    def held_to(self, mix: tuple[BoxSize, ...]) -> Catalogue:
        """The same sizes, no more of each but the largest than a mix has."""
        return replace(self, held=mix)

    def mixes(self, cost: int) -> Iterator[tuple[BoxSize, ...]]:
        """The mixes of boxes of exactly that cost, largest boxes first, as far as a bounded search finds them."""
        units, boxes = divmod(cost, self.pulls + 1)
        steps = [MOST_STEPS]

        def choose(left: int, count: int, top: int) -> Iterator[tuple[BoxSize, ...]]:
            steps[0] -= 1
            if count == 0:
                if left == 0:
                    yield ()
                return
            for index in range(top, -1, -1):
                size = self.sizes[index]
                if left > size.units * count or steps[0] < 0:
                    return
                if left >= size.units + self.sizes[0].units * (count - 1):
                    for rest in choose(left - size.units, count - 1, index):
                        yield (size, *rest)

        if boxes < 400:
            yield from choose(units, boxes, len(self.sizes) - 1)


def catalogue(sizes: Sequence[float], pulls: int) -> Catalogue:
    """The catalogue of some sizes in feet, each taken once."""
    scaled = sorted({round(size * UNITS_IN_A_FOOT) for size in sizes})
    divisor = math.gcd(*scaled)
    made = tuple(BoxSize(size / UNITS_IN_A_FOOT, size // UNITS_IN_A_FOOT, size // divisor) for size in scaled)
    return Catalogue(made, divisor / UNITS_IN_A_FOOT, pulls)
