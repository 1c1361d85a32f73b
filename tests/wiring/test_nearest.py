"""The nearest end by taxi distance, in blocks, against every end looked at."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.wiring.routes.nearest import nearest_end


def by_looking_at_all(places, ends, beyond):
    apart = np.abs(places[:, None, :] - ends[None, :, :]).sum(axis=2) + beyond
    return apart.min(axis=1), apart.argmin(axis=1)


@given(st.integers(0, 2**32 - 1), st.integers(1, 600), st.integers(1, 900))
@settings(max_examples=40, deadline=None)
def test_blocks_give_what_looking_at_all_gives(seed, places, ends):
    chance = np.random.default_rng(seed)
    at, to, beyond = (
        chance.uniform(-90, 90, (places, 2)),
        chance.uniform(-90, 90, (ends, 2)),
        chance.uniform(0, 40, ends),
    )
    feet, which = nearest_end(at, to, beyond)
    expected, nearest = by_looking_at_all(at, to, beyond)
    assert feet == pytest.approx(expected)
    assert (which == nearest).all()


def test_of_ends_as_near_the_first_is_taken():
    feet, which = nearest_end(np.array([[0.0, 0.0]]), np.array([[3.0, 0.0], [0.0, 3.0]]), np.zeros(2))
    assert (feet[0], which[0]) == (3.0, 0)


def test_no_end_is_infinitely_far():
    feet, which = nearest_end(np.zeros((2, 2)), np.empty((0, 2)), np.empty(0))
    assert np.isinf(feet).all()
    assert (which == -1).all()
