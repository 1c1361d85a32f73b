"""Sets of numbers that are joined two by two: what hangs together through neighbours of neighbours."""

from __future__ import annotations


class Joined:
    """The numbers from 0 on, each a set of its own until it is joined."""

    def __init__(self, count: int) -> None:
        self._above = list(range(count))

    def root(self, index: int) -> int:
        """The least number of an element's set, which stands for the set."""
        while self._above[index] != index:
            self._above[index] = self._above[self._above[index]]
            index = self._above[index]
        return index

    def join(self, one: int, two: int) -> None:
        """Make two sets one."""
        roots = self.root(one), self.root(two)
        self._above[max(roots)] = min(roots)
