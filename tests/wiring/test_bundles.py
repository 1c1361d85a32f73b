"""Bundles: every stretch of every home run lies in exactly one bundle, counted with those beside it."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.wiring.wiring import Wiring
from tests.wiring.houses import device, level, plan, riser, turned, value

CAN = device("can", "can", (35, 6))
spots = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 24)), min_size=1, max_size=12)


def test_runs_that_meet_are_counted_together():
    made = Wiring(plan([level(0, [CAN, device("a", "motion", (5, 6)), device("b", "siren", (20, 6))])])).bundles
    assert [(bundle.start[0], bundle.end[0], bundle.count) for bundle in made] == [(5, 20, 1), (20, 35, 2)]
    assert made[1].cables == (("18/2", 1), ("22/4", 1))


def test_runs_from_both_sides_are_not_counted_together():
    made = Wiring(plan([level(0, [CAN, device("a", "motion", (30, 6)), device("b", "motion", (40, 6))])])).bundles
    assert [bundle.count for bundle in made] == [1, 1]


def test_bundles_are_of_the_level_at_whose_run_height_they_lie():
    house = plan([level(0, [CAN]), level(1, [device("a", "motion", (5, 5))])], [riser("r", (20, 6), "L0", "L1")])
    assert {bundle.level for bundle in Wiring(house).bundles} == {"L0", "L1"}


@given(spots, st.sampled_from([0.0, 17.0, 45.0, 90.0]))
@settings(max_examples=40, deadline=None)
def test_cable_feet_in_bundles_are_the_level_feet_of_the_runs(places, degrees):
    given = value([level(0, [CAN, *(device(f"d{n}", "motion", at) for n, at in enumerate(places))])])
    made = Wiring(turned(given, degrees))
    level_feet = sum(
        math.dist(here, there)
        for pull in made.pulls
        for here, there in zip(pull.way.corners, pull.way.corners[1:], strict=False)
        if here[2] == there[2]
    )
    laid = sum(math.dist(bundle.start, bundle.end) * bundle.count for bundle in made.bundles)
    assert laid == pytest.approx(level_feet, abs=0.01)
