"""Where heavy work is done, so that others go on being served: a few threads, each plan's bench by its content."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

from app.storage.plans import PlanStore
from app.web.workbench import KeptBench, Workbench

_AT_ONCE = 2


class Workshop:
    """Takes orders on plans and gives the answers' bytes."""

    def __init__(self, store: PlanStore) -> None:
        self._store = store
        self._workbench = Workbench()
        self._places = asyncio.Semaphore(_AT_ONCE)

    async def stored(self, plan_id: str, work: Callable[[KeptBench], bytes]) -> tuple[int, bytes]:
        """The revision in force of a stored plan, and what the work gives on it; raises ``PlanMissing``."""
        head = await asyncio.to_thread(self._store.head, plan_id)
        if not self._workbench.has(head.digest):
            kept = await asyncio.to_thread(self._store.revision, plan_id, head.revision)
            await asyncio.to_thread(self._workbench.put, head.digest, kept.content)
        async with self._places:
            return head.revision, await asyncio.to_thread(work, self._workbench.of(head.digest))

    async def loose(self, content: bytes, work: Callable[[KeptBench], bytes]) -> bytes:
        """What the work gives on a plan that is not stored; raises ``PlanRefused``."""
        workbench = Workbench(most=1)
        async with self._places:
            await asyncio.to_thread(workbench.put, "loose", content)
            return await asyncio.to_thread(work, workbench.of("loose"))
