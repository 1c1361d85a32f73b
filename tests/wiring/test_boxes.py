"""Boxes against brute force on small sets, and what must hold for any set."""

import itertools
import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.wiring.boxes.bound import Demand, Pattern, relax
from app.wiring.boxes.exact import solve_exactly
from app.wiring.boxes.filling import fill_greedily
from app.wiring.boxes.packing import pack_boxes
from app.wiring.boxes.sizes import catalogue


def by_brute_force(lengths, sizes):
    """Fewest feet, then fewest boxes, over every way to divide the pulls among boxes.

    The smallest box for each part is enough to try: a larger one for it costs more feet in as many boxes.
    """
    best = (math.inf, math.inf)

    def divide(position, loads):
        nonlocal best
        if position == len(lengths):
            bought = [min(size for size in sizes if size >= load) for load in loads]
            best = min(best, (sum(bought), len(bought)))
            return
        for number in range(len(loads)):
            if loads[number] + lengths[position] <= max(sizes):
                loads[number] += lengths[position]
                divide(position + 1, loads)
                loads[number] -= lengths[position]
        divide(position + 1, [*loads, lengths[position]])

    divide(0, [])
    return best


def check_whole(packing, lengths):
    assert sorted(pull for box in packing.boxes for pull in box.pulls) == sorted(
        set(range(len(lengths))) - set(packing.too_long)
    )
    for box in packing.boxes:
        assert box.used_ft == sum(lengths[pull] for pull in box.pulls) <= box.size_ft
        assert [lengths[pull] for pull in box.pulls] == sorted((lengths[pull] for pull in box.pulls), reverse=True)


sizes_at_hand = st.sampled_from([(500, 1000), (500,), (1000,), (305, 500), (250, 500, 1000), (300, 400), (100.5, 250)])


@given(st.data(), sizes_at_hand)
@settings(max_examples=150, deadline=None)
def test_agrees_with_brute_force(data, sizes):
    lengths = data.draw(st.lists(st.integers(8, int(max(sizes))), max_size=7))
    packing = pack_boxes(lengths, sizes)
    check_whole(packing, lengths)
    assert packing.proven
    assert (packing.bought_ft, len(packing.boxes)) == pytest.approx(
        by_brute_force(lengths, sizes) if lengths else (0, 0)
    )


@given(st.lists(st.integers(100, 900), min_size=4, max_size=12), sizes_at_hand)
@settings(max_examples=60, deadline=None)
def test_exact_model_agrees_with_the_packing(lengths, sizes):
    """The model alone, with no plan by hand to lean on, finds or refutes what the whole method gives."""
    lengths = [min(length, int(max(sizes))) for length in lengths]
    choice, demand = catalogue(sizes, len(lengths)), Demand.of(lengths)
    greedy = fill_greedily(lengths, choice)
    start = [
        Pattern(size, tuple([lengths[p] for p in pulls].count(length) for length in demand.lengths))
        for size, pulls in greedy
    ]
    packing = pack_boxes(lengths, sizes)
    best = sum(choice.cost_of(next(s for s in choice.sizes if s.feet == box.size_ft)) for box in packing.boxes)
    relaxation = relax(demand, choice, start, best + 10**9)
    assert relaxation.bound <= best + 1e-6
    assert solve_exactly(demand, choice, relaxation, best).patterns is None
    found = solve_exactly(demand, choice, relaxation, best + 1).patterns
    assert found is not None
    assert sum(choice.cost_of(pattern.size) for pattern in found) == best


def test_greedy_by_length_is_beaten():
    # Longest first fills 500 with 300 + 200 and leaves 260 + 180 + 60: both boxes are full only so.
    packing = pack_boxes([300, 200, 260, 180, 60], [500])
    assert (packing.bought_ft, packing.proven) == (1000, True)


def test_one_large_box_is_bought_before_two_small_ones_of_the_same_feet():
    packing = pack_boxes([400, 400], [500, 1000])
    assert [box.size_ft for box in packing.boxes] == [1000]


def test_small_box_is_bought_where_it_saves_feet():
    packing = pack_boxes([400, 300, 200, 300], [500, 1000])
    assert sorted(box.size_ft for box in packing.boxes) == [500, 1000]


def test_no_box_is_planned_to_the_last_foot_while_another_has_plenty():
    packing = pack_boxes([100] * 12, [500, 1000])
    assert [box.size_ft for box in packing.boxes] == [1000, 500]
    assert min(box.left_ft for box in packing.boxes) == 100


def test_a_pull_longer_than_every_box_is_left_out_and_named():
    packing = pack_boxes([1200, 300], [500, 1000])
    assert packing.too_long == (0,)
    assert [box.pulls for box in packing.boxes] == [(1,)]


def test_no_pulls_need_no_box():
    packing = pack_boxes([], [500, 1000])
    assert (packing.boxes, packing.bought_ft, packing.proven) == ((), 0, True)


@pytest.mark.parametrize("seed", range(6))
def test_two_hundred_pulls_of_a_house_are_proven(seed):
    chance = random.Random(seed)
    lengths = [chance.randint(20, 180) for _ in range(200)]
    packing = pack_boxes(lengths, [500, 1000])
    check_whole(packing, lengths)
    assert packing.proven
    assert packing.bought_ft == math.ceil(sum(lengths) / 500) * 500


def test_lengths_that_waste_are_proven_by_the_relaxation():
    # 60 pulls of 260 and 40 of 240: 240 with 260 fills a box, the twenty others need one each.
    packing = pack_boxes([260] * 60 + [240] * 40, [500])
    assert (len(packing.boxes), packing.proven) == (60, True)


def test_the_same_pulls_give_the_same_boxes():
    chance = random.Random(7)
    lengths = [chance.randint(100, 300) for _ in range(60)]
    assert pack_boxes(lengths, [500]) == pack_boxes(lengths, [500])


def test_bound_never_exceeds_what_is_bought():
    chance = random.Random(11)
    for low, high in itertools.pairwise((50, 200, 350, 480)):
        lengths = [chance.randint(low, high) for _ in range(40)]
        packing = pack_boxes(lengths, [305, 500])
        assert packing.bound_ft <= packing.bought_ft
