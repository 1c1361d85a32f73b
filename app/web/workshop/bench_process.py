"""One bench process as the server sees it: started when needed, given one order at a time, stopped when too slow."""

from __future__ import annotations

import asyncio
import os
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from app.web.workshop.orders import LENGTHS, Order, Outcome, packed, reply_from

_TOP = Path(__file__).resolve().parents[3]
_START_SECONDS = 60.0
_PATIENCE = 5  # seconds on the wall for each of the processor, on a machine that is busy with other things
_ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}


Told = Callable[[bytes], None]


class TooSlow(Exception):
    """The order took longer than its time and was broken off."""


class Lost(Exception):
    """The process ended in the middle of an order."""


class BenchProcess:
    """Gives orders to a process; ``waiting`` is how many are given and not yet answered."""

    def __init__(self, seconds: float, plans_kept: int, module: str = "app.web.workshop.process") -> None:
        self.waiting = 0
        self._seconds = seconds
        self._plans_kept = plans_kept
        self._module = module
        self._turn = asyncio.Lock()
        self._process: Process | None = None

    async def do(self, order: Order, content: bytes | None = None, told: Told | None = None) -> tuple[Outcome, bytes]:
        """The outcome of an order and its answer; raises ``TooSlow`` or ``Lost``.

        ``told`` is given every reply on the way; cancelled, the order ends with its process.
        """
        self.waiting += 1
        try:
            async with self._turn:
                return await self._exchange(order, content, told)
        finally:
            self.waiting -= 1

    async def ready(self) -> None:
        """Start the process if it does not run."""
        async with self._turn:
            await self._running()

    async def stop(self) -> None:
        """End the process; the next order starts another."""
        process, self._process = self._process, None
        if process is not None and process.returncode is None:
            process.kill()
            await process.wait()

    async def _exchange(self, order: Order, content: bytes | None, told: Told | None) -> tuple[Outcome, bytes]:
        """Send and receive; whatever goes wrong leaves no half message behind, since the process is stopped."""
        try:
            process = await self._running()
            assert process.stdin is not None
            async with asyncio.timeout(_PATIENCE * self._seconds):
                if content is not None or told is not None:
                    order = replace(order, has_plan=content is not None, is_followed=told is not None)
                process.stdin.write(packed(order, content or b""))
                await process.stdin.drain()
                outcome, answer = await _received(process)
                while outcome == "under way":
                    if told is not None:
                        told(answer)
                    outcome, answer = await _received(process)
        except TimeoutError:
            await self.stop()
            raise TooSlow from None
        except (asyncio.IncompleteReadError, ConnectionError):
            await self.stop()
            raise Lost from None
        except BaseException:
            await self.stop()
            raise
        if outcome == "out of time":
            raise TooSlow
        return outcome, answer

    async def _running(self) -> Process:
        if self._process is None or self._process.returncode is not None:
            environment = os.environ | _ONE_THREAD | {"PYTHONPATH": os.pathsep.join([str(_TOP), *sys.path])}
            self._process = await asyncio.create_subprocess_exec(
                *(sys.executable, "-m", self._module, str(self._plans_kept), str(self._seconds)),
                stdin=PIPE,
                stdout=PIPE,
                env=environment,
                limit=2**20,
                start_new_session=True,  # Ctrl-C is for the server; this process ends when its input is closed
            )
            async with asyncio.timeout(_START_SECONDS):
                await _received(self._process)
        return self._process


async def _received(process: Process) -> tuple[Outcome, bytes]:
    assert process.stdout is not None
    head, body = LENGTHS.unpack(await process.stdout.readexactly(LENGTHS.size))
    reply = reply_from(await process.stdout.readexactly(head))
    return reply.outcome, await process.stdout.readexactly(body)
