"""PDF sets in the making: each tells how far it is, can be stopped, and gives its file only when it is whole.

They are kept in memory, the newest few; a set that was stopped or failed leaves nothing behind.
"""

from __future__ import annotations

import asyncio
import contextlib
import secrets
from collections import OrderedDict
from collections.abc import Callable, Coroutine
from dataclasses import dataclass, field
from typing import Any, Literal

from app.plan.faults import PlanRefused
from app.web.problems import Refusal
from app.web.workshop.pool import WorkRefused

State = Literal["under way", "done", "stopped", "failed"]
Progress = dict[str, Any]
Work = Callable[[Callable[[Progress], None]], Coroutine[Any, Any, bytes]]
_MOST_KEPT = 8
_MOST_UNDER_WAY = 4


@dataclass
class Print:
    """One set: ``done`` of ``count`` sheets are drawn, ``words`` say what is drawn now or why it failed."""

    id: str
    file_name: str
    state: State = "under way"
    done: int = 0
    count: int = 0
    words: str = "waiting"
    lacking: list[str] = field(default_factory=list)
    pdf: bytes = b""
    task: asyncio.Task[None] | None = None

    def take(self, progress: Progress) -> None:
        """Take what the bench tells on the way."""
        self.done, self.count, self.words = progress["done"], progress["count"], progress["words"]
        self.lacking = progress.get("lacking", self.lacking)


class Prints:
    """The sets that were asked for last."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, Print] = OrderedDict()

    def start(self, file_name: str, work: Work) -> Print:
        """Begin a set; refused with 503 where too many are under way."""
        under_way = sum(each.state == "under way" for each in self._kept.values())
        if under_way >= _MOST_UNDER_WAY:
            raise Refusal(503, "other sets are being made; stop one or try again later", headers={"Retry-After": "5"})
        started = Print(secrets.token_urlsafe(12), file_name)
        started.task = asyncio.create_task(_made(started, work))
        self._kept[started.id] = started
        for each in [each for each in self._kept.values() if each.state != "under way"][:-_MOST_KEPT]:
            del self._kept[each.id]
        return started

    def of(self, print_id: str) -> Print:
        """A set by its id; refused with 404 where there is none or it has given way to newer ones."""
        found = self._kept.get(print_id)
        if found is None:
            raise Refusal(404, "there is no such set, or newer ones have taken its place; make it again")
        return found

    async def stop(self, print_id: str) -> Print:
        """Stop a set, or put away what was made."""
        found = self.of(print_id)
        if found.task is not None and not found.task.done():
            found.task.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await found.task
        found.pdf = b""
        found.state = "stopped"
        return found

    async def close(self) -> None:
        """Stop every set."""
        for print_id in list(self._kept):
            await self.stop(print_id)


async def _made(made: Print, work: Work) -> None:
    try:
        made.pdf = await work(made.take)
        made.state, made.words = "done", ""
    except asyncio.CancelledError:
        made.state, made.words = "stopped", "stopped"
        raise
    except (WorkRefused, PlanRefused, Refusal) as refused:
        made.state, made.words = "failed", str(refused)
    except Exception:
        made.state, made.words = "failed", "Studbay made a mistake of its own; nothing was written. Please report it"
        raise
