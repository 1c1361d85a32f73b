"""A server killed in the middle of saving loses no save that it had answered."""

from __future__ import annotations

import random
import subprocess
from pathlib import Path

import httpx
import pytest

from app.storage.opening import open_folder
from tests.command_line.running import served
from tests.web.plan_values import den


@pytest.mark.parametrize("seed", range(2))
def test_answered_saves_outlive_a_kill(tmp_path: Path, seed: int) -> None:
    folder = tmp_path / "data"
    answered = {}
    with served("--data", str(folder)) as (server, address), httpx.Client(base_url=address, timeout=60) as client:
        plan_id = client.post("/api/plans", json=den("0")).json()["id"]
        answered[1] = "0"
        last = random.Random(seed).randint(20, 40)
        try:
            for number in range(1, 1000):
                if number == last:
                    _kill_soon(server, random.Random(seed).random() * 0.02)
                headers = {"If-Match": f'"{number}"'}
                answer = client.put(f"/api/plans/{plan_id}", json=den(str(number)), headers=headers)
                assert answer.status_code == 200
                answered[number + 1] = str(number)
        except httpx.TransportError:
            pass
        server.wait(timeout=60)
    assert len(answered) >= last
    store = open_folder(folder)
    kept = {entry.number: entry.name for entry in store.revisions(plan_id)}
    assert answered.items() <= kept.items()
    assert store.newest(plan_id).revision in (max(answered), max(answered) + 1)
    store.close()


def _kill_soon(server: subprocess.Popen[str], seconds: float) -> None:
    """Kill -9 the server from a process of its own, so that it falls in the middle of a call."""
    subprocess.Popen(["sh", "-c", f"sleep {seconds:.4f}; kill -9 {server.pid}"])
