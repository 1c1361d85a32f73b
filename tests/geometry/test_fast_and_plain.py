"""The fast path of panes and of floor against the plain statement of the same, body by body."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.geometry.eye import Eye, clear_eye
from app.geometry.floor_view import floor_view, plain_view
from app.geometry.pane_views import pane_views, plain_fraction, seen_region
from app.geometry.scene import compile_level
from app.plan.reading import plan_from
from tests.houses import random_house


def scene_of(seed, doors_open=False):
    return compile_level(plan_from(random_house(seed)).levels[0], doors_open=doors_open)


def eyes_in(scene, spots):
    """Eyes of the house that are clear of bodies: shares of its width, depth and height."""
    x0, y0, x1, y1 = shapely.total_bounds(scene.bodies.footprints)
    for east, north, up in spots:
        eye = Eye(x0 + east * (x1 - x0), y0 + north * (y1 - y0), up * scene.level.ceiling)
        clear = clear_eye(scene.bodies, eye, scene.level.ceiling)
        if clear is not None:
            yield clear


SHARE = st.floats(0, 1)
SPOTS = st.lists(st.tuples(SHARE, SHARE, st.sampled_from([0.02, 0.3, 0.6, 0.95, 1.0])), min_size=3, max_size=3)


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), spots=SPOTS, reach=st.sampled_from([6.0, 15.0, 25.0]), doors_open=st.booleans())
def test_panes_fast_as_plain(seed, spots, reach, doors_open):
    scene = scene_of(seed, doors_open)
    for eye in eyes_in(scene, spots):
        fast = {view.pane: view for view in pane_views(scene.panes, scene.bodies, eye, reach)}
        for pane in range(len(scene.panes)):
            told = fast[pane].fraction if pane in fast else 0.0
            assert told == pytest.approx(plain_fraction(scene.panes, scene.bodies, pane, eye, reach), abs=1e-6)


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), spots=SPOTS, reach=st.sampled_from([6.0, 15.0, 25.0]))
def test_the_region_that_is_drawn_has_the_share_that_is_told(seed, spots, reach):
    scene = scene_of(seed)
    panes = scene.panes
    for eye in eyes_in(scene, spots):
        for view in pane_views(panes, scene.bodies, eye, reach):
            width, sill, head = (float(side[view.pane]) for side in (panes.width, panes.sill, panes.head))
            share = seen_region(view, width, sill, head).area / (width * (head - sill))
            # The range is drawn as a polygon of 256 corners inside its circle: short of it by 1e-4 of the disc at most.
            disc = 0.0 if view.disc is None else 1.1e-4 * 3.2 * view.disc[2] ** 2 / (width * (head - sill))
            assert view.fraction - disc - 1e-6 <= share <= view.fraction + 1e-6


@settings(max_examples=25, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    spots=SPOTS,
    facing=st.floats(-720, 720),
    angle=st.sampled_from([40.0, 90.0, 180.0, 270.0, 360.0]),
    reach=st.sampled_from([9.0, 40.0]),
    target=st.sampled_from([0.0, 3.0, 5.0]),
)
def test_floor_fast_as_plain(seed, spots, facing, angle, reach, target):
    scene = scene_of(seed)
    for eye in eyes_in(scene, spots):
        fast = floor_view(scene.bodies, eye, reach, facing, angle, target)
        plain = plain_view(scene.bodies, eye, reach, facing, angle, target)
        assert fast.is_valid
        # Both draw arcs as chords, cut at different places: 1e-5 of the whole disc.
        assert shapely.symmetric_difference(fast, plain).area <= 2e-5 * reach**2 * 3.2
