"""The drag call over HTTP, run by hand: one person at M, then fifty people dragging at once on an ordinary house.

    python -m pytest tests/benchmarks/test_http_trial.py --benchmark-disable -s

A person's page sends its newest position when the last answer is painted, at most ``POSITIONS_A_SECOND``. Fifty
clients share the server's two cores here as they would not in life, so they speak HTTP by hand, which is cheap.
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
TARGET_MS = 15  # p95 of the whole call on M, its overlay drawn
PEOPLE, SECONDS, POSITIONS_A_SECOND = 50, 10.0, 4
CROWD_MS = 100
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


@pytest.mark.parametrize("path", ["trial", "trial/touched"])
def test_one_person_at_m(address: str, path: str) -> None:
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
    assert told(f"one person, 199 walls, 80 windows: {path}", taken) <= TARGET_MS


def test_fifty_people_at_once_on_an_ordinary_house(address: str) -> None:
    house = json.loads(min(SAMPLES.glob("*.json")).read_text())
    level = house["levels"][0]
    detector = next(device for device in level["devices"] if device["kind"] == "glass_break")

    async def drag(plan_id: str, taken: list[float], place: random.Random) -> None:
        x, y = detector["at"]
        page = await Wire.to(address)
        await asyncio.sleep(place.random() / POSITIONS_A_SECOND)
        until = time.perf_counter() + SECONDS
        while (begun := time.perf_counter()) < until:
            device = detector | {"at": [x + place.uniform(-4, 4), y + place.uniform(-4, 4)]}
            status = await page.post(f"/api/plans/{plan_id}/trial/touched", {"level": level["id"], "device": device})
            taken.append(time.perf_counter() - begun)
            assert status == 200
            await asyncio.sleep(max(0.0, 1 / POSITIONS_A_SECOND - taken[-1]))
        page.close()

    async def everyone() -> list[float]:
        taken: list[float] = []
        await asyncio.gather(*(drag(ids[number % len(ids)], taken, random.Random(number)) for number in range(PEOPLE)))
        return taken

    with httpx.Client(base_url=address, timeout=60) as client:
        ids = [client.post("/api/plans", json=house).json()["id"] for _ in range(5)]
        for plan_id in ids:
            client.get(f"/api/plans/{plan_id}/check")
    taken = asyncio.run(everyone())
    print(f"\n{len(taken) / SECONDS:.0f} answers a second")
    assert told(f"{PEOPLE} people, {POSITIONS_A_SECOND} positions a second each", taken) <= CROWD_MS


class Wire:
    """One connection to the server, kept open, that posts JSON and reads the whole answer."""

    def __init__(self, host: str, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self._host, self._reader, self._writer = host, reader, writer

    @classmethod
    async def to(cls, address: str) -> Wire:
        host = address.removeprefix("http://")
        name, port = host.split(":")
        return cls(host, *await asyncio.open_connection(name, int(port)))

    async def post(self, path: str, value: Value) -> int:
        """The status of the answer, once all of it has come."""
        body = json.dumps(value).encode()
        head = f"POST {path} HTTP/1.1\r\nHost: {self._host}\r\nContent-Type: application/json\r\n"
        self._writer.write(f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + body)
        lines = (await self._reader.readuntil(b"\r\n\r\n")).decode().lower().split("\r\n")
        length = next(int(line.split(":")[1]) for line in lines if line.startswith("content-length:"))
        await self._reader.readexactly(length)
        return int(lines[0].split()[1])

    def close(self) -> None:
        self._writer.close()
