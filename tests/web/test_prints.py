"""Sets in the making, without a server: how many at once, what is left of a stopped or failed one."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

import pytest

from app.web.prints import Print, Prints
from app.web.problems import Refusal
from app.web.workshop.pool import WorkRefused


async def endless(told: Callable[[dict[str, Any]], None]) -> bytes:
    told({"done": 3, "count": 12, "words": "TY-104 Security plan"})
    await asyncio.sleep(60)
    return b"never"


async def quick(told: Callable[[dict[str, Any]], None]) -> bytes:
    return b"%PDF"


async def refused(told: Callable[[dict[str, Any]], None]) -> bytes:
    raise WorkRefused(503, "this set takes longer than 120 seconds")


async def ended(started: Print) -> None:
    while started.state == "under way":
        await asyncio.sleep(0)


def test_a_set_tells_how_far_it_is_and_is_stopped() -> None:
    async def play() -> None:
        prints = Prints()
        started = prints.start("set.pdf", endless)
        await asyncio.sleep(0.01)
        assert (started.done, started.count, started.words) == (3, 12, "TY-104 Security plan")
        stopped = await prints.stop(started.id)
        assert (stopped.state, stopped.pdf) == ("stopped", b"")
        assert stopped.task is not None
        assert stopped.task.cancelled()

    asyncio.run(play())


def test_no_more_than_a_few_are_made_at_once() -> None:
    async def play() -> None:
        prints = Prints()
        started = [prints.start("set.pdf", endless) for _ in range(4)]
        with pytest.raises(Refusal) as refusal:
            prints.start("set.pdf", quick)
        assert refusal.value.status == 503
        await prints.stop(started[0].id)
        await ended(prints.start("set.pdf", quick))
        await prints.close()
        assert {each.state for each in started} == {"stopped"}

    asyncio.run(play())


def test_the_newest_are_kept() -> None:
    async def play() -> None:
        prints = Prints()
        first = prints.start("set.pdf", quick)
        await ended(first)
        for _ in range(9):
            await ended(prints.start("set.pdf", quick))
        with pytest.raises(Refusal) as refusal:
            prints.of(first.id)
        assert refusal.value.status == 404

    asyncio.run(play())


def test_a_failed_set_says_why_and_has_no_file() -> None:
    async def play() -> None:
        prints = Prints()
        started = prints.start("set.pdf", refused)
        await ended(started)
        assert (started.state, started.pdf) == ("failed", b"")
        assert "120 seconds" in started.words

    asyncio.run(play())
