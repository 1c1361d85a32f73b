"""The workshop: quick bench processes for the drag, one for large and slow plans, one that prints, and who gets what.

A plan that turns out slow is moved to the slow process, so that it holds up nobody but itself; there it has a
longer time, and is then refused.
"""

from __future__ import annotations

import asyncio
import hashlib
import os
from collections import OrderedDict
from collections.abc import Awaitable, Callable
from typing import Any

from pydantic_core import from_json

from app.plan.faults import Fault, PlanRefused
from app.web.workshop.bench_process import BenchProcess, Lost, TooSlow
from app.web.workshop.orders import Order, Outcome, Work

QUICK_SECONDS, SLOW_SECONDS, PRESS_SECONDS = 4.0, 40.0, 120.0
LARGE = 2**20  # bytes of a plan file; at 2,000 walls it is a third of that
_QUICK_PROCESSES = max(1, min(4, os.cpu_count() or 1))
_QUICK_PLANS, _SLOW_PLANS = 24, 3
_MOST_WAITING_SLOW = 6
_MOST_REMEMBERED = 1000
_LONG_WORKS = frozenset(("draft", "protection", "sheets", "pdf", "changes"))  # would hold up the drags of others


class WorkRefused(Exception):
    """The work is not done: ``status`` is what HTTP says of it, the text what people read."""

    def __init__(self, status: int, words: str) -> None:
        self.status = status
        super().__init__(words)


class Workshop:
    """Takes orders on plans and gives the answers' bytes."""

    def __init__(self, quick_seconds: float = QUICK_SECONDS, slow_seconds: float = SLOW_SECONDS) -> None:
        self._slow_seconds = slow_seconds
        self._quick = [BenchProcess(quick_seconds, _QUICK_PLANS) for _ in range(_QUICK_PROCESSES)]
        self._slow = BenchProcess(slow_seconds, _SLOW_PLANS)
        self._press = BenchProcess(PRESS_SECONDS, _SLOW_PLANS)
        self._slow_plans = _Remembered()
        self._too_slow = _Remembered()

    async def ready(self) -> None:
        """Start the quick processes, so that the first drag need not wait for them."""
        await asyncio.gather(*(process.ready() for process in self._quick))

    async def close(self) -> None:
        """End every process."""
        await asyncio.gather(*(process.stop() for process in (*self._quick, self._slow, self._press)))

    async def stored(
        self, work: Work, digest: str, content: Callable[[], Awaitable[bytes]], arguments: dict[str, Any] | None = None
    ) -> bytes:
        """The answer of some work on a plan; its content is fetched where no bench has it ready.

        Raises ``PlanRefused``, or ``WorkRefused`` where the work cannot be done.
        """
        order = Order(work, digest, arguments or {})
        outcome, answer = await self._given(order)
        if outcome == "plan wanted":
            fetched = await content()
            if len(fetched) > LARGE:
                self._slow_plans.add(digest)
            outcome, answer = await self._given(order, fetched)
            if outcome == "plan wanted":  # it was too slow for a quick process
                outcome, answer = await self._given_slow(order, fetched)
        return _answer_of(outcome, answer)

    async def loose(self, work: Work, content: bytes) -> bytes:
        """The answer of some work on a plan that is not stored; raises as ``stored`` does."""

        async def at_hand() -> bytes:
            return content

        return await self.stored(work, hashlib.sha256(content).hexdigest(), at_hand)

    async def printed(
        self,
        digest: str,
        content: Callable[[], Awaitable[bytes]],
        arguments: dict[str, Any],
        told: Callable[[dict[str, Any]], None],
    ) -> bytes:
        """A set as PDF, told of sheet by sheet; cancelled, it ends at once, and nobody else's work with it.

        Raises ``PlanRefused``, or ``WorkRefused`` where it cannot be made.
        """
        order = Order("pdf", digest, arguments)

        def heard(reply: bytes) -> None:
            told(from_json(reply))

        try:
            outcome, answer = await self._press.do(order, told=heard)
            if outcome == "plan wanted":
                outcome, answer = await self._press.do(order, await content(), heard)
        except TooSlow:
            words = f"this set takes longer than {PRESS_SECONDS:g} seconds; `studbay sheets` has no such limit"
            raise WorkRefused(503, words) from None
        except Lost:
            raise WorkRefused(503, "the work on this set broke off; nothing was written, try again") from None
        return _answer_of(outcome, answer)

    async def _given(self, order: Order, content: bytes | None = None) -> tuple[Outcome, bytes]:
        """Give an order to the process that is to have it."""
        if order.digest not in self._slow_plans and order.work not in _LONG_WORKS:
            try:
                return await self._chosen(order.digest).do(order, content)
            except TooSlow:
                self._slow_plans.add(order.digest)
                return "plan wanted", b""
            except Lost:
                raise WorkRefused(503, "the work on this plan broke off; nothing was changed, try again") from None
        return await self._given_slow(order, content)

    async def _given_slow(self, order: Order, content: bytes | None = None) -> tuple[Outcome, bytes]:
        if f"{order.work} {order.digest}" in self._too_slow:
            raise self._takes_too_long(order.work)
        if self._slow.waiting >= _MOST_WAITING_SLOW:
            raise WorkRefused(503, "too many large plans are being worked on; nothing was changed, try again later")
        try:
            return await self._slow.do(order, content)
        except TooSlow:
            self._too_slow.add(f"{order.work} {order.digest}")
            raise self._takes_too_long(order.work) from None
        except Lost:
            raise WorkRefused(503, "the work on this plan broke off; nothing was changed, try again") from None

    def _chosen(self, digest: str) -> BenchProcess:
        """The process that most likely has the plan ready, unless another has clearly less to do."""
        usual = self._quick[int(digest[:8], 16) % len(self._quick)]
        idlest = min(self._quick, key=lambda process: process.waiting)
        return usual if usual.waiting <= idlest.waiting + 1 else idlest

    def _takes_too_long(self, work: Work) -> WorkRefused:
        command = {"draft": "draft", "sheets": "sheets", "pdf": "sheets", "changes": "compare"}.get(work, "check")
        words = f"this plan takes longer than {self._slow_seconds:g} seconds; split it, or give its file to"
        return WorkRefused(503, f"{words} `studbay {command}`")


class _Remembered:
    """What was met last and turned out slow."""

    def __init__(self) -> None:
        self._names: OrderedDict[str, None] = OrderedDict()

    def __contains__(self, name: str) -> bool:
        return name in self._names

    def add(self, name: str) -> None:
        """Remember one more."""
        self._names[name] = None
        while len(self._names) > _MOST_REMEMBERED:
            self._names.popitem(last=False)


def _answer_of(outcome: Outcome, answer: bytes) -> bytes:
    if outcome == "done":
        return answer
    if outcome == "plan refused":
        raise PlanRefused([Fault(at, message) for at, message in from_json(answer)])
    if outcome == "level missing":
        raise WorkRefused(404, answer.decode())
    if outcome == "out of memory":
        raise WorkRefused(503, "this plan takes more memory than it may; split it")
    raise WorkRefused(500, "Studbay made a mistake of its own; nothing was changed. Please report what you did")
