"""Which revision of a plan is in force, asked again and again while something is dragged: kept in memory.

What is kept holds while no other connection has written to the file, which SQLite counts (``PRAGMA data_version``):
that costs microseconds, a query and its thread a millisecond. For other databases nothing is kept.
"""

from __future__ import annotations

import asyncio
import sqlite3

from app.storage.engine import BUSY_SECONDS
from app.storage.plans import Head, PlanStore

_MOST_KEPT = 1000


class Heads:
    """The heads of a store's plans, for one event loop."""

    def __init__(self, store: PlanStore) -> None:
        self._store = store
        self._kept: dict[str, Head] = {}
        self._count = 0
        self._counter = _counter_of(store)

    def close(self) -> None:
        """Let go of the file."""
        if self._counter is not None:
            self._counter.close()

    async def of(self, plan_id: str) -> Head:
        """The revision in force; raises ``PlanMissing``."""
        count = self._counted()
        if count is not None and plan_id in self._kept:
            return self._kept[plan_id]
        head = await asyncio.to_thread(self._store.head, plan_id)
        # Read after the count was taken; where another call has seen it change meanwhile, nothing is kept.
        if count is not None and count == self._count:
            self._kept[plan_id] = head
            while len(self._kept) > _MOST_KEPT:
                self._kept.pop(next(iter(self._kept)))
        return head

    def _counted(self) -> int | None:
        """The count of others' writes, after which older heads are forgotten; None where nobody counts."""
        if self._counter is None:
            return None
        try:
            (count,) = self._counter.execute("PRAGMA data_version").fetchone()
        except sqlite3.Error:  # a file that cannot be read just now: the store says what is wrong with it
            self._kept.clear()
            return None
        if count != self._count:
            self._count = count
            self._kept.clear()
        return int(count)


def _counter_of(store: PlanStore) -> sqlite3.Connection | None:
    """A connection that never writes, so that every write is another's; None for databases of other kinds."""
    url = store.engine.url
    if url.get_backend_name() != "sqlite" or not url.database or url.database == ":memory:" or url.query:
        return None
    # The thread that asks is the event loop's, which need not be the one that puts the application together.
    return sqlite3.connect(url.database, timeout=BUSY_SECONDS, isolation_level=None, check_same_thread=False)
