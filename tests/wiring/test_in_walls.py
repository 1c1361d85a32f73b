"""Home runs along the walls, measured by hand and by scipy on a graph noded by shapely."""

import itertools
import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import dijkstra

from app.wiring.pulls import compile_pulls
from tests.wiring.houses import device, level, plan, riser, turned, value

CAN = device("can", "can", (40, 6))


def pull_of(house, label):
    return next(pull for pull in compile_pulls(house) if pull.label == label)


def in_walls(levels, risers=()):
    return plan(levels, risers, cable__way="in_walls")


def test_device_on_a_wall_follows_the_walls_round_the_corner():
    pull = pull_of(in_walls([level(0, [CAN, device("wc", "window_contact", (30, 0))])]), "wc")
    assert pull.measured_ft == pytest.approx(6.5 + 10 + 6 + 4.5)
    assert pull.way.corners == ((30, 0, 3), (30, 0, 9.5), (40, 0, 9.5), (40, 6, 9.5), (40, 6, 5))


def test_device_in_the_room_leaves_by_the_nearest_wall():
    # Nearest wall of (35, 10) is the cross wall at y = 12, two feet away; then 5 ft east and 6 ft south.
    pull = pull_of(in_walls([level(0, [CAN, device("gb", "glass_break", (35, 10))])]), "gb")
    assert pull.measured_ft == pytest.approx(0.5 + 2 + 5 + 6 + 4.5)


def test_way_turns_off_at_a_t_junction():
    # From the middle wall the cross wall is the short way, not the outline.
    pull = pull_of(in_walls([level(0, [CAN, device("wc", "window_contact", (20, 11))])]), "wc")
    assert pull.measured_ft == pytest.approx(6.5 + 1 + 20 + 6 + 4.5)


def test_device_as_near_to_two_walls_takes_the_shorter_way():
    # (38, 2) is two feet from the south and the east wall.
    pull = pull_of(in_walls([level(0, [CAN, device("md", "motion", (38, 2))])]), "md")
    assert pull.measured_ft == pytest.approx(2.5 + 2 + 4 + 4.5)


def test_walls_that_cross_without_ends_are_joined():
    walls = {"long": ((0, 0), (20, 0)), "over": ((10, -5), (10, 5))}
    house = in_walls([level(0, [device("can", "can", (10, 5)), device("wc", "window_contact", (0, 0))], walls=walls)])
    assert pull_of(house, "wc").measured_ft == pytest.approx(6.5 + 10 + 5 + 4.5)


def test_riser_is_reached_along_the_walls_and_never_cuts_a_room_across():
    # The riser hangs midway between the west and the middle wall: ten feet from both.
    house = in_walls(
        [level(0, [CAN]), level(1, [device("wc", "window_contact", (0, 12))])], [riser("r", (10, 12), "L0", "L1")]
    )
    # Upstairs 10 ft to the riser, 10 down, then by the middle wall's side 10 + 20 along the cross wall + 6 south.
    assert pull_of(house, "wc").measured_ft == pytest.approx(6.5 + 10 + 10 + 10 + 20 + 6 + 4.5)
    below = in_walls(
        [level(0, [CAN, device("wc", "window_contact", (0, 12))]), level(1, [])], [riser("r", (10, 12), "L0", "L1")]
    )
    # Along the outline, 12 + 40 + 6, where straight across the room by the riser's spot would be 46.
    assert pull_of(below, "wc").measured_ft == pytest.approx(6.5 + 12 + 40 + 6 + 4.5)


def test_risers_that_stand_on_one_another_are_climbed_without_a_wall_between():
    house = in_walls(
        [level(0, [CAN]), level(1, []), level(2, [device("wc", "window_contact", (20, 12))])],
        [riser("low", (22, 12), "L0", "L1"), riser("high", (22, 12), "L2", "L1")],
    )
    assert pull_of(house, "wc").measured_ft == pytest.approx(6.5 + 2 + 20 + 18 + 6 + 4.5)


def test_walls_that_do_not_meet_give_no_route():
    walls = {"one": ((0, 0), (10, 0)), "far": ((0, 5), (10, 5))}
    house = in_walls([level(0, [device("can", "can", (5, 0)), device("wc", "window_contact", (5, 5))], walls=walls)])
    assert pull_of(house, "wc").way is None


def test_level_without_walls_gives_no_route():
    house = in_walls([level(0, [device("can", "can", (5, 0)), device("wc", "window_contact", (5, 5))], walls={})])
    assert pull_of(house, "wc").way is None


def scipy_lengths(walls, can, spots, run=9.5, can_height=5.0, device_height=3.0):
    """Shortest lengths by scipy on walls noded by shapely, the spots' feet put in as nodes of their own."""
    lines = [shapely.LineString(wall) for wall in walls]
    noded = shapely.get_parts(shapely.node(shapely.MultiLineString(lines)))
    feet = [
        min(((line.distance(shapely.Point(at)), line) for line in noded), key=lambda e: e[0]) for at in (can, *spots)
    ]
    ends = [
        shapely.get_coordinates(line.interpolate(line.project(shapely.Point(at))))[0]
        for (_, line), at in zip(feet, (can, *spots), strict=True)
    ]
    nodes, edges = {}, []

    def node(point):
        return nodes.setdefault((round(point[0], 6), round(point[1], 6)), len(nodes))

    for line in noded:
        marks = [*line.coords, *(end for (_, of), end in zip(feet, ends, strict=True) if of is line)]
        marks.sort(key=lambda mark: line.project(shapely.Point(mark)))
        edges += [(node(a), node(b), math.dist(a, b)) for a, b in itertools.pairwise(marks)]
    edges = [edge for edge in edges if edge[0] != edge[1]]
    start, end, length = zip(*edges, strict=True)
    graph = coo_array((length, (start, end)), shape=(len(nodes), len(nodes))).tocsr()
    along = dijkstra(graph, directed=False, indices=node(ends[0]))
    return [
        (run - device_height) + feet[n + 1][0] + along[node(ends[n + 1])] + feet[0][0] + (run - can_height)
        for n in range(len(spots))
    ]


@st.composite
def floors(draw):
    """Walls on a grid of odd spacing with parts left out, so that ways wind; a can and devices off the tie lines."""
    xs, ys = (0.0, 11.0, 23.5, 41.0), (0.0, 9.0, 22.0)
    pieces = [((a, y), (b, y)) for y in ys for a, b in itertools.pairwise(xs)]
    pieces += [((x, a), (x, b)) for x in xs for a, b in itertools.pairwise(ys)]
    kept = draw(st.lists(st.sampled_from(pieces), min_size=4, max_size=len(pieces), unique=True))
    place = st.tuples(st.integers(1, 4000), st.integers(1, 2150)).map(
        lambda p: (p[0] / 100 + 0.0037, p[1] / 100 + 0.0013)
    )
    return kept, draw(place), draw(st.lists(place, min_size=1, max_size=5))


@given(floors())
@settings(max_examples=60, deadline=None)
def test_lengths_agree_with_scipy(floor):
    walls, can, spots = floor
    devices = [device("can", "can", can), *(device(f"d{n}", "window_contact", at) for n, at in enumerate(spots))]
    house = in_walls([level(0, devices, walls={f"w{n}": wall for n, wall in enumerate(walls)})])
    for pull, expected in zip(compile_pulls(house), scipy_lengths(walls, can, spots), strict=True):
        if np.isfinite(expected):
            assert pull.measured_ft == pytest.approx(expected, abs=1e-4)
        else:
            assert pull.way is None


@given(st.floats(-180, 180), st.tuples(st.floats(-500, 500), st.floats(-500, 500)))
@settings(max_examples=40, deadline=None)
def test_turned_houses_have_equal_lengths(degrees, move):
    given = value(
        [
            level(0, [CAN, device("md", "motion", (38, 2.5)), device("wc", "window_contact", (20, 11))]),
            level(1, [device("gb", "glass_break", (9, 12)), device("sr", "siren", (3, 20))]),
        ],
        [riser("r", (22, 12), "L0", "L1")],
        cable__way="in_walls",
    )
    straight = compile_pulls(plan(given["levels"], given["risers"], cable__way="in_walls"))
    for one, other in zip(straight, compile_pulls(turned(given, degrees, move)), strict=True):
        assert other.measured_ft == pytest.approx(one.measured_ft, abs=1e-5)
        assert other.cut_ft == one.cut_ft
