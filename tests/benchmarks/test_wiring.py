"""How fast the cable is: all of M and L, a dragged can at M, boxes of 200 pulls. By hand:

``python -m pytest -o addopts="" tests/benchmarks/test_wiring.py``
"""

import random

import pytest

from app.geometry.scene import compile_level
from app.plan.reading import plan_from
from app.wiring.answer import wiring_answer
from app.wiring.boxes.packing import pack_boxes
from app.wiring.judgements import wiring_findings
from app.wiring.pulls import compile_pulls
from app.wiring.wiring import Wiring

ROOM = 12.0  # ft


def big_house(walls, windows, way="overhead", can=None):
    """A square grid of rooms of about so many walls, a window and its contact in each outer wall while they last,
    and for every four rooms a motion and a glass break.
    """
    side = round((walls / 2) ** 0.5)
    lines = [((n, m), (n + 1, m)) for n in range(side) for m in range(side + 1)]
    lines += [((n, m), (n, m + 1)) for n in range(side + 1) for m in range(side)]
    wall_values, openings, devices = [], [], []
    for number, (a, b) in enumerate(lines):
        a, b = [ROOM * v for v in a], [ROOM * v for v in b]
        wall_values.append({"id": f"w{number}", "a": a, "b": b})
        if number % max(1, len(lines) // windows) == 0 and len(openings) < windows:
            kind = "window" if len(openings) % 5 else "door"
            openings.append(
                {"id": f"o{number}", "wall": f"w{number}", "kind": kind, "offset": 4, "width": 3, "sill": 0}
            )
            middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
            devices.append({"id": f"c{number}", "kind": f"{kind}_contact", "at": middle, "serves": [f"o{number}"]})
    rooms = [(n, m) for n in range(side) for m in range(side)]
    for number, (n, m) in enumerate(rooms):
        at = [ROOM * n + 6.3, ROOM * m + 5.7]
        if number % 4 == 0:
            devices.append({"id": f"gb{number}", "kind": "glass_break", "at": at})
            devices.append({"id": f"md{number}", "kind": "motion", "at": [at[0] - 5, at[1] - 5], "facing": 45})
        if number % 25 == 0:
            devices.append({"id": f"kp{number}", "kind": "keypad", "at": at})
            devices.append({"id": f"sr{number}", "kind": "siren", "at": at})
    middle = ROOM * side / 2
    devices.append({"id": "can", "kind": "can", "at": can or [middle + 1, middle + 2]})
    named = [
        {"id": f"r{number}", "name": f"Room {number}", "use": "other", "at": [ROOM * n + 6, ROOM * m + 6]}
        for number, (n, m) in enumerate(rooms)
    ]
    level = {"id": "L0", "name": "One", "walls": wall_values, "openings": openings, "rooms": named, "devices": devices}
    practice = {"cable.way": way}
    return plan_from({"format": "studbay-plan/1", "name": "Big", "levels": [level], "practice": practice})


def everything(plan):
    wiring = Wiring(plan)
    return wiring_answer(wiring), wiring_findings(wiring)


@pytest.mark.parametrize("way", ["overhead", "in_walls"])
def test_all_of_medium_under_200_ms(benchmark, way):
    plan = big_house(200, 80, way)
    value, _ = benchmark(everything, plan)
    assert all(pull["route"] for pull in value["pulls"])
    assert benchmark.stats.stats.median < 0.2


@pytest.mark.parametrize("way", ["overhead", "in_walls"])
def test_all_of_large_under_5_s(benchmark, way):
    plan = big_house(2000, 800, way)
    benchmark.pedantic(everything, (plan,), rounds=2)
    assert benchmark.stats.stats.median < 5


@pytest.mark.parametrize("way", ["overhead", "in_walls"])
def test_dragged_can_measures_medium_again_under_50_ms(benchmark, way):
    plans = [big_house(200, 80, way, can=[40.0 + n, 31.0]) for n in range(8)]
    scenes = {"L0": compile_level(plans[0].levels[0])}
    turns = iter(plans * 1000)
    benchmark(lambda: compile_pulls(next(turns), scenes))
    assert benchmark.stats.stats.median < 0.05


CASES = {
    "house": (20, 180, (500, 1000)),
    "long runs": (60, 300, (500, 1000)),
    "four sizes": (30, 200, (250, 305, 500, 1000)),
    "two and three to a box": (120, 260, (500,)),
    "halves": (200, 480, (500, 1000)),
}


@pytest.mark.parametrize("seed", [1, 2])
@pytest.mark.parametrize("case", CASES)
def test_two_hundred_pulls_in_boxes_proven_under_2_s(benchmark, case, seed):
    low, high, sizes = CASES[case]
    chance = random.Random(seed)
    lengths = [chance.randint(low, high) for _ in range(200)]
    packing = benchmark.pedantic(pack_boxes, (lengths, sizes), rounds=1)
    assert packing.proven
    assert benchmark.stats.stats.median < 2
