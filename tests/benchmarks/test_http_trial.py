"""The drag call over HTTP, run by hand: one person at M, then fifty people dragging at once on an ordinary house.

    python -m pytest tests/benchmarks/test_http_trial.py --benchmark-disable -s

A person's page sends its newest position when the last answer is painted, at most ``POSITIONS_A_SECOND``.
"""

from __future__ import annotations

import asyncio
import json
import random
import statistics
import time
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from tests.command_line.running import served
from tests.web.plan_values import Value, grid

TRIALS = 300
PEOPLE, SECONDS, POSITIONS_A_SECOND = 50, 10.0, 4
SAMPLES = Path(__file__).resolve().parents[2] / "sample_plans"


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    with served("--data", str(tmp_path_factory.mktemp("data"))) as (_, address):
        httpx.post(f"{address}/api/check", json=m_size(), timeout=60)  # the bench processes are up
        yield address


def told(words: str, seconds: list[float]) -> float:
    """Print median and p95 in milliseconds; the p95."""
    ordered = sorted(1000 * each for each in seconds)
    p95 = ordered[int(0.95 * len(ordered))]
    print(f"\n{words}: median {statistics.median(ordered):.1f} ms, p95 {p95:.1f} ms, most {ordered[-1]:.1f} ms")
    return p95


def m_size() -> Value:
    """199 walls and 80 windows, a glass break in every sixth room."""
    value = grid(9, 10, windows=80, detectors=90)
    level = value["levels"][0]
    level["devices"] = level["devices"][::6]
    return value


@pytest.mark.parametrize(("path", "target"), [("trial", 12), ("trial/touched", 6)])
def test_one_person_at_m(address: str, path: str, target: float) -> None:
    place = random.Random(1)
    taken = []
    with httpx.Client(base_url=address, timeout=30) as client:
        plan_id = client.post("/api/plans", json=m_size()).json()["id"]
        for number in range(TRIALS + 20):
            device = {"id": "g6", "kind": "glass_break", "at": [place.uniform(1, 107), place.uniform(1, 119)]}
            begun = time.perf_counter()
            answer = client.post(f"/api/plans/{plan_id}/{path}", json={"level": "L1", "device": device})
            if number >= 20:
                taken.append(time.perf_counter() - begun)
            assert answer.status_code == 200
            assert path == "trial/touched" or len(answer.json()["panes"]) == 80
    assert told(f"one person, 199 walls, 80 windows: {path}", taken) <= target


def test_fifty_people_at_once_on_an_ordinary_house(address: str) -> None:
    house = json.loads(min(SAMPLES.glob("*.json")).read_text())
    level = house["levels"][0]
    detector = next(device for device in level["devices"] if device["kind"] == "glass_break")

    async def drag(client: httpx.AsyncClient, plan_id: str, taken: list[float], place: random.Random) -> None:
        x, y = detector["at"]
        await asyncio.sleep(place.random() / POSITIONS_A_SECOND)
        until = time.perf_counter() + SECONDS
        while (begun := time.perf_counter()) < until:
            device = detector | {"at": [x + place.uniform(-4, 4), y + place.uniform(-4, 4)]}
            answer = await client.post(f"/api/plans/{plan_id}/trial", json={"level": level["id"], "device": device})
            taken.append(time.perf_counter() - begun)
            assert answer.status_code == 200
            await asyncio.sleep(max(0.0, 1 / POSITIONS_A_SECOND - taken[-1]))

    async def everyone() -> list[float]:
        taken: list[float] = []
        limits = httpx.Limits(max_connections=PEOPLE, max_keepalive_connections=PEOPLE)
        async with httpx.AsyncClient(base_url=address, limits=limits, timeout=30) as client:
            ids = [(await client.post("/api/plans", json=house)).json()["id"] for _ in range(5)]
            await asyncio.gather(*(client.get(f"/api/plans/{plan_id}/check") for plan_id in ids))
            await asyncio.gather(
                *(drag(client, ids[number % len(ids)], taken, random.Random(number)) for number in range(PEOPLE))
            )
        return taken

    taken = asyncio.run(everyone())
    print(f"\n{len(taken) / SECONDS:.0f} answers a second")
    assert told(f"{PEOPLE} people, {POSITIONS_A_SECOND} positions a second each", taken) <= 100
