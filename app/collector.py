"""How often Python looks for garbage in cycles: rarely, since answers are large trees that die without any."""

from __future__ import annotations

import gc

ALLOCATIONS = 50_000


def collect_rarely() -> None:
    """Called where a process of the program begins: a check of a large plan spends a tenth less."""
    gc.set_threshold(ALLOCATIONS, 20, 50)
