"""Time of the rules and the states: M < 50 ms, XL < 10 s; run by hand with ``--benchmark-enable``."""

import pytest

from app.coverage.arming import opening_watches, room_watches
from app.plan.reading import plan_from
from app.review.check import findings_of
from app.review.house import House
from app.review.protection import protection, watched
from tests.benchmarks.wings import SIZES, wings_plan


def proven_house(size):
    """A house with its coverage proven already: rules and states are timed alone."""
    house = House(plan_from(wings_plan(*SIZES[size])))
    for storey in house:
        assert storey.verdicts
        assert storey.motions
        assert storey.scene.sides
    return house


def rules_and_states(house):
    findings = findings_of(house)
    for storey in house:
        level = watched(house, storey)
        room_watches(level, opening_watches(level))
    return findings


@pytest.mark.parametrize(("size", "most"), [("S", 0.02), ("M", 0.05), ("L", 0.8), ("XL", 10.0)])
def test_rules_and_states(benchmark, size, most):
    found = benchmark.pedantic(
        rules_and_states, setup=lambda: ((proven_house(size),), {}), rounds=3 if size in "SM" else 1
    )
    assert found
    if benchmark.enabled:
        assert benchmark.stats.stats.min < most


@pytest.mark.parametrize(("size", "most"), [("S", 0.1), ("M", 0.5), ("L", 15.0)])
def test_ways_in_and_sound(benchmark, size, most):
    answer = benchmark.pedantic(protection, setup=lambda: ((proven_house(size),), {}), rounds=1)
    assert answer["ways_in"]
    if benchmark.enabled:
        assert benchmark.stats.stats.min < most
