"""The set cover against brute force over every choice of columns, and what its bound promises."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from app.proposal.cover import apart, fewest_cover

columns_of = st.lists(st.frozensets(st.integers(0, 9), min_size=1, max_size=5), min_size=1, max_size=9)


def cover(columns: list[frozenset[int]], penalties: list[int] | None = None, bound: int = 0):
    return fewest_cover(columns, penalties or [0] * len(columns), bound=bound, seconds=20, stop=lambda: False)


def brute_force(columns: list[frozenset[int]], penalties: list[int]) -> tuple[int, int]:
    """The fewest columns that cover all rows, and the least penalty of so many."""
    goal = frozenset().union(*columns)
    for size in range(1, len(columns) + 1):
        able = [
            sum(penalties[index] for index in some)
            for some in combinations(range(len(columns)), size)
            if frozenset().union(*(columns[index] for index in some)) == goal
        ]
        if able:
            return size, min(able)
    raise AssertionError("all columns together cover all rows")


def test_a_cover_that_presolve_solves_from_the_greedy_one_is_proven() -> None:
    rows = [(0, 1, 2, 3, 5), (0, 5, 7), (0, 1, 2, 3, 4), (0, 1, 2, 3, 6), (0, 3, 4, 6, 9), (0, 1, 2, 9)]
    columns = [frozenset(each) for each in rows]
    found = cover(columns)
    assert (len(found.chosen), found.bound) == (3, 3)
    assert brute_force(columns, [0] * len(columns)) == (3, 0)


def test_without_time_there_is_a_cover_and_no_proof_beyond_what_is_known() -> None:
    columns = [frozenset(each) for each in ((0, 1), (1, 2), (2, 3), (3, 4), (4, 0), (0, 2), (1, 3))]
    found = fewest_cover(columns, [0] * len(columns), bound=2, seconds=0.0, stop=lambda: False)
    assert frozenset().union(*(columns[index] for index in found.chosen)) == frozenset(range(5))
    assert 2 <= found.bound <= len(found.chosen)


@settings(max_examples=60, deadline=None)
@given(columns_of, st.data())
def test_fewest_then_least_penalty(columns: list[frozenset[int]], data: st.DataObject) -> None:
    penalties = data.draw(st.lists(st.integers(0, 7), min_size=len(columns), max_size=len(columns)))
    found = cover(columns, penalties)
    size, least = brute_force(columns, penalties)
    assert frozenset().union(*(columns[index] for index in found.chosen)) == frozenset().union(*columns)
    assert (len(found.chosen), sum(penalties[index] for index in found.chosen)) == (size, least)
    assert found.bound == size
    assert found.optimal


@settings(max_examples=60, deadline=None)
@given(columns_of)
def test_rows_apart_are_a_lower_bound(columns: list[frozenset[int]]) -> None:
    assert 1 <= apart(columns) <= brute_force(columns, [0] * len(columns))[0]


def test_a_cover_that_greed_misses() -> None:
    columns = [frozenset({0, 1, 2, 3}), frozenset({0, 1, 4}), frozenset({2, 3, 5})]
    assert cover(columns).chosen == (1, 2)


def test_stopped_at_once_it_still_covers_and_does_not_claim_more_than_it_knows() -> None:
    columns = [frozenset({0, 1, 2, 3}), frozenset({0, 1, 4}), frozenset({2, 3, 5})]
    found = fewest_cover(columns, [0, 0, 0], bound=1, seconds=1, stop=lambda: True)
    assert frozenset().union(*(columns[index] for index in found.chosen)) == frozenset(range(6))
    assert found.bound <= 2


def test_nothing_to_cover_takes_nothing() -> None:
    assert cover([]).chosen == ()
