"""A foreign file that cannot be read, said in one line that names the reason and how to mend it."""

from __future__ import annotations


class DrawingRefused(Exception):
    """Raised with one line for people; ``too_large`` where the file is over a limit."""

    def __init__(self, words: str, *, too_large: bool = False) -> None:
        self.too_large = too_large
        super().__init__(words)
