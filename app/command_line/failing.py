"""How a command says that it cannot be done: lines for people on stderr, and exit code 2."""

from __future__ import annotations

from collections.abc import Iterable


class CannotDo(Exception):
    """Raised with the lines to print, one a fault."""

    def __init__(self, *lines: str) -> None:
        self.lines = lines
        super().__init__("\n".join(lines))

    @classmethod
    def over(cls, faults: Iterable[object]) -> CannotDo:
        """From the faults of a plan."""
        return cls(*map(str, faults))
