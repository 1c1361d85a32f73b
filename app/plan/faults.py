"""What is wrong with a plan file, said so that a person can mend it.

A fault names its place in the file and how to mend it; all faults of a file are raised together.
"""

from __future__ import annotations

from dataclasses import dataclass

MOST_FAULTS = 100


@dataclass(frozen=True)
class Fault:
    """One thing that keeps a plan from being used: ``at`` is its path (``levels[0].walls[3].b``)."""

    at: str
    message: str

    def __str__(self) -> str:
        return f"{self.at}: {self.message}" if self.at else self.message


class PlanRefused(ValueError):
    """Raised with every fault found in a plan (at most ``MOST_FAULTS`` of them, and how many more there are)."""

    def __init__(self, faults: list[Fault], *, too_large: bool = False, untold: int = 0) -> None:
        kept = faults[:MOST_FAULTS]
        if more := len(faults) - len(kept) + untold:
            kept.append(Fault("", f"… and {more} more faults; mend these first"))
        self.faults: tuple[Fault, ...] = tuple(kept)
        self.too_large = too_large
        super().__init__("\n".join(map(str, kept)))


def shown(text: str) -> str:
    """Text fit for a terminal and for JSON: lone surrogates and control characters spelled out, long text cut."""
    safe = "".join(
        letter if letter.isprintable() else letter.encode("unicode_escape", "surrogatepass").decode() for letter in text
    )
    safe = safe.encode("utf-8", "backslashreplace").decode()
    return safe if len(safe) <= 200 else safe[:199] + "…"
