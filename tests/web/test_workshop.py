"""A plan made to be slow is given up in time, and others go on being served."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Awaitable, Callable

import pytest

from app.plan.faults import PlanRefused
from app.web.workshop.pool import WorkRefused, Workshop
from tests.web.plan_values import Value, den, grid


def made_to_be_slow() -> bytes:
    """Ten thousand panes, each within the reach of each of a hundred detectors."""
    value: Value = grid(12, 12, windows=0, detectors=0)
    level = value["levels"][0]
    level["openings"] = [
        {"id": f"o{i}", "wall": wall["id"], "kind": "window", "offset": 1, "width": 10, "panes": 100}
        for i, wall in enumerate(level["walls"][:100])
    ]
    level["devices"] = [
        {"id": f"g{i}", "kind": "glass_break", "at": [1 + i * 1.4, 1 + i * 37 % 140], "range": 1000} for i in range(100)
    ]
    return json.dumps(value).encode()


def with_workshop(do: Callable[[Workshop], Awaitable[None]], **limits: float) -> None:
    async def run() -> None:
        workshop = Workshop(**limits)
        try:
            await workshop.ready()
            await do(workshop)
        finally:
            await workshop.close()

    asyncio.run(run())


def test_a_slow_plan_is_given_up_and_holds_up_nobody(monkeypatch: pytest.MonkeyPatch) -> None:
    async def do(workshop: Workshop) -> None:
        slow = asyncio.create_task(workshop.loose("check", made_to_be_slow()))
        for number in range(40):
            answer = json.loads(await workshop.loose("check", json.dumps(den(f"house {number}")).encode()))
            assert answer["summary"]["covered"] == 1
            await asyncio.sleep(0.05)
        with pytest.raises(WorkRefused, match="split it") as refused:
            await slow
        assert refused.value.status == 503
        monkeypatch.setattr(workshop._slow, "do", None)  # it is remembered: no process is asked again
        with pytest.raises(WorkRefused, match="split it"):
            await workshop.loose("check", made_to_be_slow())

    with_workshop(do, quick_seconds=3.0, slow_seconds=2.0)


def test_a_process_that_ends_is_started_again() -> None:
    async def do(workshop: Workshop) -> None:
        plan = json.dumps(den()).encode()
        first = await workshop.loose("check", plan)
        for process in workshop._quick:
            await process.stop()
        assert await workshop.loose("check", plan) == first

    with_workshop(do)


def test_a_refused_plan_keeps_its_faults_on_the_way() -> None:
    async def do(workshop: Workshop) -> None:
        with pytest.raises(PlanRefused) as refused:
            await workshop.loose("check", b"{}")
        assert [fault.at for fault in refused.value.faults] == ["format"]

    with_workshop(do)
