"""Reads a sent DXF or IFC file in a process of its own, one file at a time, within seconds and memory."""

from __future__ import annotations

import hashlib
from typing import Any

from app.intake.kinds import kind_of
from app.intake.refused import DrawingRefused
from app.plan.faults import Fault
from app.web.problems import Refusal
from app.web.workshop.bench_process import BenchProcess, Lost, TooSlow
from app.web.workshop.orders import Order, Work

_SECONDS = 40.0  # of the processor
_KEPT, _WAITING = 2, 6
_SMALLER = "save only the floor plan's layers"


class DrawingReader:
    """Gives files to the process; many at a time are refused."""

    def __init__(self, seconds: float = _SECONDS) -> None:
        self._process = BenchProcess(seconds, _KEPT, "app.web.workshop.drawings")

    async def close(self) -> None:
        """End the process."""
        await self._process.stop()

    async def survey(self, source: bytes) -> bytes:
        """What a file holds to choose from, as JSON; raises ``Refusal``."""
        return await self._done("survey", source, {})

    async def drawn_plan(self, source: bytes, choices: dict[str, Any]) -> bytes:
        """The plan that choices give, as JSON; raises ``Refusal``."""
        return await self._done("drawn_plan", source, choices)

    async def _done(self, work: Work, source: bytes, choices: dict[str, Any]) -> bytes:
        try:
            kind_of(source)  # the usual mistakes are told at once, even while another file is being read
        except DrawingRefused as refused:
            raise _refused(413 if refused.too_large else 422, str(refused)) from None
        if self._process.waiting >= _WAITING:
            raise Refusal(503, "too many drawings are being read; try again in a moment", headers={"Retry-After": "5"})
        order = Order(work, hashlib.sha256(source).hexdigest(), choices)
        try:
            outcome, answer = await self._process.do(order)
            if outcome == "plan wanted":
                outcome, answer = await self._process.do(order, source)
        except TooSlow:
            raise _refused(422, f"the file takes too long to read; {_SMALLER}") from None
        except Lost:
            raise _refused(422, f"the file takes more memory to read than it may; {_SMALLER}") from None
        if outcome == "done":
            return answer
        if outcome == "drawing refused":
            raise _refused(422, answer.decode())
        if outcome == "out of memory":
            raise _refused(422, f"the file takes more memory to read than it may; {_SMALLER}")
        raise Refusal(500, "Studbay made a mistake of its own; nothing was changed. Please report what you did")


def _refused(status: int, words: str) -> Refusal:
    return Refusal(status, words, [Fault("", words)])
