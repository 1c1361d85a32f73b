"""The speed of coverage as a table for the README, with the machine named and each figure held against its target.

By hand: ``python -m tests.benchmarks.coverage_table`` (all sizes, some minutes), or with the sizes wanted (``S M``).
Times are the process's own processor time, so that what else the machine does counts little.
"""

from __future__ import annotations

import gc
import os
import platform
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from app.collector import collect_rarely
from app.coverage.glass import judge_pane, prove_glass
from app.plan.model import Device
from app.plan.reading import plan_from
from app.review.check import check_plan
from app.review.house import House, Storey
from app.review.trial import TrialBench
from tests.houses import SIZES, sized_house
from tests.outside.rays import Caster, PaneSampler

MOVES = 300
GRID = 500  # rays along each side of a pane: an edge of sight is then known to 1/1000 of the pane
RATIO_MOVES = 5

Move = Callable[[Device], object]


def main(sizes: list[str]) -> None:
    collect_rarely()  # as the program's own processes do
    print(f"{_processor()}, {os.cpu_count()} cores, Python {platform.python_version()}; processor time\n")
    print(
        "| plan | walls | panes | compile ms | one detector moved, its panes: median / p95 ms "
        "| whole trial: median / p95 ms | full check s | peak MiB |"
    )
    print("| --- | --- | --- | --- | --- | --- | --- | --- |")
    moved = {size: row(size) for size in sizes}
    print()
    if "L" in moved:
        said("L, full check", moved["L"][2], 1.0, "s")
    if {"L", "XL"} <= moved.keys():
        said("full check, XL over L (10 times the walls)", moved["XL"][2] / moved["L"][2], 12.0, "×")
    if "XL" in moved:
        said("XL, peak memory", moved["XL"][3], 1024, "MiB")
    if "M" in moved:
        said("M, one detector moved, p95", moved["M"][1], 2.0, "ms")
    if {"S", "XL"} <= moved.keys():
        said("one detector moved, XL over S, median", ratio_of_moves("XL", "S"), 1.3, "×")
    if "M" in moved:
        print(f"embree at 1e-3 over this program, M: {embree_ratio():.0f} × slower (asked: at least 100 ×)")


def said(what: str, found: float, asked: float, unit: str) -> None:
    """One figure against its target."""
    print(f"{what}: {found:.2f} {unit} (asked: at most {asked:g} {unit}) {'met' if found <= asked else 'MISSED'}")


def row(size: str) -> tuple[float, float, float, float]:
    """Print one size's row; gives median and p95 of a move in milliseconds, a check's seconds, its peak in MiB."""
    plan = plan_from(sized_house(size))
    start = time.process_time()
    [storey] = House(plan)
    assert len(storey.scene.bodies.tree)
    assert len(storey.scene.panes.tree)
    compiled = (time.process_time() - start) * 1000
    path = drag(plan)

    [moves] = times((one_move_in(storey), path))
    bench = TrialBench(plan)
    [trials] = times((lambda device: bench.answer("ground", device), path))
    seconds, peak = check_alone(size)
    print(
        f"| {size} | {SIZES[size][2]:,} | {len(storey.scene.panes):,} | {compiled:.0f} | {spread(moves)} "
        f"| {spread(trials)} | {seconds:.2f} | {peak:.0f} |",
        flush=True,
    )
    return float(np.median(moves)), float(np.percentile(moves, 95)), seconds, peak


def one_move_in(storey: Storey) -> Move:
    """What proves one detector of a level and judges all its panes."""

    def move(device: Device) -> None:
        proof = prove_glass(storey.scene, device, storey.practice)
        for pane, view in proof.views.items():
            judge_pane(pane, {device.id: view}, 1.0)

    return move


def ratio_of_moves(size: str, reference: str) -> float:
    """How much longer one move takes at a size than at another, in turn: the machine is as quick for the one as for
    the other, which it is not from one minute to the next.
    """
    plans = [plan_from(sized_house(one)) for one in (size, reference)]
    found = times(*((one_move_in(storey), drag(plan)) for plan in plans for storey in House(plan)))
    return float(np.median(found[0]) / np.median(found[1]))


def drag(plan) -> list[Device]:
    """A detector of the middle of the house, dragged about its room: every size then sees an alike neighbourhood."""
    level = plan.levels[0]
    middle = np.array([wall.a for wall in level.walls]).mean(axis=0)
    device = min(
        (device for device in level.devices if device.kind == "glass_break"),
        key=lambda device: np.hypot(device.at[0] - middle[0], device.at[1] - middle[1]),
    )
    turns = np.linspace(0, 12 * np.pi, MOVES)
    spots = np.array(device.at) + (np.linspace(0.1, 3.0, MOVES) * [np.cos(turns), np.sin(turns)]).T
    return [device.model_copy(update={"at": (float(x), float(y))}) for x, y in spots]


def times(*drags: tuple[Move, list[Device]]) -> list[np.ndarray]:
    """Milliseconds of each move of some drags, made in turn: three times over, and each move's least time counts."""
    for move, path in drags:
        for device in path[:10]:
            move(device)
    gc.collect()
    found = np.empty((3, MOVES, len(drags)))
    for made in found:
        for index in range(MOVES):
            for which, (move, path) in enumerate(drags):
                start = time.process_time()
                move(path[index])
                made[index, which] = (time.process_time() - start) * 1000
    return list(found.min(axis=0).T)


def spread(found: np.ndarray) -> str:
    return f"{np.median(found):.2f} / {np.percentile(found, 95):.2f}"


def check_alone(size: str) -> tuple[float, float]:
    """Seconds of a full check and peak MiB, in a process of its own."""
    run = subprocess.run(
        [sys.executable, "-m", "tests.benchmarks.coverage_table", "check", size],
        capture_output=True,
        text=True,
        check=True,
    )
    seconds, peak = run.stdout.split()
    return float(seconds), float(peak)


def check(size: str) -> None:
    """Check one size three times, and print the least seconds and the peak memory in MiB."""
    plan = plan_from(sized_house(size))
    seconds = []
    for _ in range(3):
        start = time.process_time()
        check_plan(plan)
        seconds.append(time.process_time() - start)
    print(min(seconds), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)


def embree_ratio() -> float:
    """How many times longer embree takes to sample the same panes to 1e-3, building its scenes not counted."""
    value = sized_house("M")
    plan = plan_from(value)
    [storey] = House(plan)
    path = drag(plan)[:: MOVES // RATIO_MOVES]
    [moves] = times((lambda device: prove_glass(storey.scene, device, storey.practice), drag(plan)))
    ours = float(np.median(moves))
    sampler = PaneSampler(value, value["levels"][0], GRID)
    theirs = []
    for device in path:
        eye = np.array([*device.at, storey.level.ceiling])
        spent = 0.0
        for pane in prove_glass(storey.scene, device, storey.practice).views:
            glass = sampler.panes[pane]
            caster, points = Caster(sampler.near(glass, eye, 15.0), eye), glass.grid(GRID)
            start = time.process_time()
            caster.sees(points)
            spent += time.process_time() - start
        theirs.append(spent * 1000)
    return float(np.median(theirs)) / ours


def _processor() -> str:
    described = Path("/proc/cpuinfo")
    lines = described.read_text().splitlines() if described.exists() else []
    return next((line.split(":")[1].strip() for line in lines if line.startswith("model name")), platform.processor())


if __name__ == "__main__":
    if sys.argv[1:2] == ["check"]:
        check(sys.argv[2])
    else:
        main(sys.argv[1:] or list(SIZES))
