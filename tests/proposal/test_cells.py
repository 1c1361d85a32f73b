"""Cells of overlapping regions: no point of the plane sees what no place sees, and no place is better than another."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.proposal.cells import places_of
from app.proposal.seating import deepest_spot, seat_in

number = st.integers(0, 12)
region = st.tuples(number, number, st.integers(1, 8), st.integers(1, 8)).map(
    lambda box: shapely.box(box[0], box[1], box[0] + box[2], box[1] + box[3])
)


@settings(max_examples=50, deadline=None)
@given(st.lists(region, min_size=1, max_size=7), st.integers(0, 1000))
def test_every_point_is_outdone_by_some_place(regions: list[shapely.Polygon], seed: int) -> None:
    places = places_of(regions, []).places
    points = np.random.default_rng(seed).uniform(0, 21, (400, 2))
    for x, y in points:
        seen = frozenset(index for index, one in enumerate(regions) if shapely.contains_xy(one, x, y))
        assert not seen or any(seen <= place.regions for place in places)


@settings(max_examples=50, deadline=None)
@given(st.lists(region, min_size=1, max_size=7), st.lists(region, max_size=3))
def test_places_are_where_they_say_and_none_outdoes_another(
    regions: list[shapely.Polygon], zones: list[shapely.Polygon]
) -> None:
    places = places_of(regions, [(2**index, zone) for index, zone in enumerate(zones)]).places
    for place in places:
        inside = [shapely.contains_xy(one, place.x, place.y) for one in regions]
        assert place.regions == frozenset(np.flatnonzero(inside))
        costs = [2**index for index, zone in enumerate(zones) if shapely.contains_xy(zone, place.x, place.y)]
        assert place.penalty == sum(costs)
    for one in places:
        assert not any(
            other is not one and one.regions <= other.regions and one.penalty >= other.penalty for other in places
        )


def test_an_unloved_place_stays_when_it_sees_more() -> None:
    left, right = shapely.box(0, 0, 6, 4), shapely.box(4, 0, 10, 4)
    places = places_of([left, right], [(4, shapely.box(3, 0, 7, 4))]).places
    assert {(place.regions, place.penalty) for place in places} == {
        (frozenset({0, 1}), 4),
        (frozenset({0}), 0),
        (frozenset({1}), 0),
    }


def test_a_crowd_of_regions_is_thinned_to_a_lattice_that_still_reaches_each() -> None:
    crowd = [shapely.box(0, index / 1000, 30, 20 + index / 1000) for index in range(170)]
    found = places_of(crowd, [])
    assert not found.complete
    assert frozenset().union(*(place.regions for place in found.places)) == frozenset(range(170))


# --- seats -----------------------------------------------------------------------------------------------------------


def test_the_deepest_spot_of_a_square_is_its_middle() -> None:
    spot, depth = deepest_spot(shapely.box(0, 0, 8, 8))
    assert np.allclose(spot, (4, 4), atol=0.05)
    assert abs(depth - 4) < 0.05


def test_a_seat_is_on_whole_inches_and_on_the_room_s_axis_where_that_is_deep_enough() -> None:
    cell = shapely.box(0.3, 0.3, 9.1, 7.9)
    (x, y), depth = seat_in(cell, np.array([[4.0, 20.0]]))
    assert x == 4.0
    assert abs(y * 12 - round(y * 12)) < 1e-3
    assert depth > 3


@settings(max_examples=50, deadline=None)
@given(st.lists(region, min_size=1, max_size=4), st.tuples(number, number))
def test_a_seat_is_never_shallower_than_half_of_what_the_cell_allows(
    parts: list[shapely.Polygon], axis: tuple[int, int]
) -> None:
    cell = shapely.union_all(parts)
    (x, y), depth = seat_in(cell, np.array([axis], dtype=float))
    assert shapely.contains_xy(cell, x, y)
    assert depth >= min(1.0, deepest_spot(cell)[1] / 2) - 1e-9
