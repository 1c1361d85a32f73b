"""Reads a sent picture or PDF in a process of its own (``app.intake.picture.process``), a few at a time."""

from __future__ import annotations

import asyncio
import os
import sys
from asyncio.subprocess import DEVNULL, PIPE
from pathlib import Path
from typing import Any

from pydantic_core import from_json

from app.plan.faults import Fault
from app.web.problems import Refusal

_TOP = Path(__file__).resolve().parents[2]
_SECONDS = 120.0  # on the wall, on a machine that is busy with other things
_AT_ONCE, _WAITING = 2, 8


class PictureReader:
    """Gives files to processes; more than a few at a time wait, many are refused."""

    def __init__(self) -> None:
        self._turns = asyncio.Semaphore(_AT_ONCE)
        self._asked = 0

    async def pages(self, source: bytes) -> list[dict[str, Any]]:
        """The pages of a PDF; raises ``Refusal``."""
        head, _ = await self._read(source, "pages")
        pages: list[dict[str, Any]] = head["pages"]
        return pages

    async def picture(self, source: bytes, page: int) -> tuple[dict[str, Any], bytes]:
        """A picture, or a page of a PDF, made anew: what is known of it, and its bytes; raises ``Refusal``."""
        return await self._read(source, "picture", str(page))

    async def _read(self, source: bytes, *arguments: str) -> tuple[dict[str, Any], bytes]:
        if self._asked >= _WAITING:
            raise Refusal(503, "too many pictures are being read; try again in a moment", headers={"Retry-After": "5"})
        self._asked += 1
        try:
            async with self._turns:
                return await _answer_of(source, arguments)
        finally:
            self._asked -= 1


async def _answer_of(source: bytes, arguments: tuple[str, ...]) -> tuple[dict[str, Any], bytes]:
    process = await asyncio.create_subprocess_exec(
        *(sys.executable, "-m", "app.intake.picture.process", *arguments),
        stdin=PIPE,
        stdout=PIPE,
        stderr=DEVNULL,
        env=os.environ | {"PYTHONPATH": os.pathsep.join([str(_TOP), *sys.path])},
        start_new_session=True,
    )
    try:
        async with asyncio.timeout(_SECONDS):
            answer, _ = await process.communicate(source)
    except TimeoutError:
        raise _refused("the file takes too long to read; save it simpler or smaller", 422) from None
    finally:
        if process.returncode is None:
            process.kill()
            await process.wait()
    line, _, body = answer.partition(b"\n")
    if process.returncode or not line:
        raise _refused("the file takes more time or memory to read than it may; save it simpler or smaller", 422)
    head: dict[str, Any] = from_json(line)
    if "refused" in head:
        raise _refused(head["refused"], head["status"])
    return head, body


def _refused(words: str, status: int) -> Refusal:
    return Refusal(status, words, [Fault("", words)])
