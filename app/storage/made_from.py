"""What a change says it was made from: one revision, any of several, or whichever is in force (RFC 9110 §13.1.1).

The stores compare it within the transaction that makes the change.
"""

from __future__ import annotations

MadeFrom = int | frozenset[int] | None


def admits(made_from: MadeFrom, in_force: int) -> bool:
    """Whether a change made from that may be made on what is in force; None is content with whichever is."""
    if made_from is None or isinstance(made_from, int):
        return made_from is None or made_from == in_force
    return in_force in made_from
