"""Regions that see a whole pane, held against what single eyes see, and many asks at once against one by one."""

import numpy as np
import pytest
import shapely

from app.geometry.eye import Eye
from app.geometry.pane_views import plain_fraction
from app.geometry.scene import compile_level
from app.geometry.vantage import Ask, vantage_region, vantage_regions
from app.plan.reading import plan_from
from tests.houses import random_house

REACH = 15.0
APART = 0.05  # ft: how far a spot must lie from the region's edge to be told


def asks_of(seed, z):
    """A scene, and for each pane of it the room that it opens to, as an ask."""
    scene = compile_level(plan_from(random_house(seed)).levels[0])
    faces = scene.rooms_overlooked
    return scene, [
        Ask(pane, z, REACH, scene.faces.floors[faces[pane]]) for pane in range(len(scene.panes)) if faces[pane] >= 0
    ]


@pytest.mark.parametrize(("seed", "z"), [(1, 9.0), (2, 9.0), (3, 7.0), (4, 5.0), (5, 8.5), (6, 9.0)])
def test_a_spot_is_in_the_region_exactly_when_it_sees_the_whole_pane(seed, z):
    scene, asks = asks_of(seed, z)
    dice, told = np.random.default_rng(seed), {True: 0, False: 0}
    for ask, region in zip(asks, vantage_regions(scene, asks), strict=True):
        west, south, east, north = ask.within.bounds
        for x, y in dice.uniform((west, south), (east, north), (25, 2)):
            spot = shapely.Point(x, y)
            if not ask.within.contains(spot) or shapely.boundary(region).distance(spot) < APART:
                continue
            if (scene.bodies.top[scene.bodies.tree.query(spot, predicate="intersects")] > z).any():
                continue
            seen = plain_fraction(scene.panes, scene.bodies, ask.pane, Eye(float(x), float(y), z), REACH)
            assert region.contains(spot) == (seen > 1 - 1e-6)
            told[region.contains(spot)] += 1
    assert min(told.values()) > 10


def test_many_asks_at_once_say_what_each_says_alone():
    scene, asks = asks_of(7, 9.0)
    together = vantage_regions(scene, asks)
    alone = [vantage_region(scene, *ask) for ask in asks]
    assert any(not region.is_empty for region in alone)
    for one, other in zip(together, alone, strict=True):
        assert shapely.symmetric_difference(one, other).area < 1e-9


def test_no_ask_has_no_answer():
    scene, _ = asks_of(1, 9.0)
    assert vantage_regions(scene, []) == []
