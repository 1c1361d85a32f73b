"""The fast path of a drag, eye after eye, against the arrays that weigh many at once: the same to the last digit."""

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.geometry.eye import Eye, clear_eye
from app.geometry.pane_views import pane_views
from app.geometry.scene import compile_level
from app.geometry.vicinity import CELL, Vicinities
from app.plan.reading import plan_from
from tests.houses import random_house

SHARE = st.floats(-0.2, 1.2)
HEIGHT = st.sampled_from([0.02, 0.3, 0.6, 0.95, 1.0])


def scene_of(seed, doors_open=False):
    return compile_level(plan_from(random_house(seed)).levels[0], doors_open=doors_open)


def told(views):
    """What views say, in plain values."""
    return [
        (
            view.pane,
            view.fraction,
            view.farthest,
            view.hidden,
            [veil.tolist() for veil in view.veils],
            view.disc,
            view.edge_on,
        )
        for view in views
    ]


def assert_same(scene, eye, reach):
    ceiling = scene.level.ceiling
    clear, seen = clear_eye(scene.bodies, eye, ceiling), scene.vicinities.views(eye, reach, ceiling)
    if clear is None:
        assert seen is None
        return
    assert seen is not None
    assert seen[0] == clear
    assert told(seen[1]) == told(pane_views(scene.panes, scene.bodies, clear, reach))


@settings(max_examples=40, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    spots=st.lists(st.tuples(SHARE, SHARE, HEIGHT), min_size=4, max_size=4),
    reach=st.sampled_from([6.0, 15.0, 25.0]),
    doors_open=st.booleans(),
)
def test_one_eye_after_the_other_sees_what_all_at_once_see(seed, spots, reach, doors_open):
    scene = scene_of(seed, doors_open)
    x0, y0, x1, y1 = shapely.total_bounds(scene.bodies.footprints)
    for east, north, up in spots:
        assert_same(scene, Eye(x0 + east * (x1 - x0), y0 + north * (y1 - y0), up * scene.level.ceiling), reach)


@settings(max_examples=20, deadline=None)
@given(seed=st.integers(0, 10**6), number=st.integers(0, 10**6), along=st.floats(-1, 2), height=HEIGHT)
def test_eyes_in_corners_and_in_the_plane_of_glass(seed, number, along, height):
    scene = scene_of(seed)
    z = height * scene.level.ceiling
    corners = scene.bodies.corners.reshape(-1, 2)
    assert_same(scene, Eye(*corners[number % len(corners)].tolist(), z), 15.0)
    one, other = scene.panes.ends[number % len(scene.panes)]
    assert_same(scene, Eye(*(one + along * (other - one)).tolist(), z), 15.0)


def test_eyes_on_the_edge_of_a_cell():
    scene = scene_of(7)
    for step in range(-3, 9):
        for off in (-1e-9, 0.0, 1e-9):
            assert_same(scene, Eye(step * CELL + off, 6.0, 7.0), 15.0)


def test_about_a_place_of_many_walls_and_panes_arrays_see_the_same(monkeypatch):
    scene = scene_of(11)
    eye = Eye(*scene.panes.ends.mean(axis=(0, 1)).tolist(), 7.0)
    few = scene.vicinities.views(eye, 25.0, scene.level.ceiling)
    monkeypatch.setattr("app.geometry.vicinity._MOST_PAIRS", 0)
    many = Vicinities(scene.panes, scene.bodies).views(eye, 25.0, scene.level.ceiling)
    assert few is not None
    assert many is not None
    assert few[0] == many[0]
    assert told(few[1]) == told(many[1]) != []
