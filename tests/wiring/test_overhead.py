"""Home runs over the ceiling, measured by hand from contract §6 and by a search of another making."""

import itertools
import math

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.wiring.pulls import compile_pulls, cut_length
from tests.wiring.houses import device, level, plan, riser, turned, value

CAN = device("can", "can", (35, 6))


def pull_of(house, label):
    return next(pull for pull in compile_pulls(house) if pull.label == label)


def test_one_level_is_up_along_the_axes_and_down():
    pull = pull_of(plan([level(0, [CAN, device("gb", "glass_break", (10, 12))])]), "gb")
    # 9 ft ceiling: 0.5 up, 25 east, 6 south, 4.5 down to the can at 5 ft
    assert pull.measured_ft == pytest.approx(0.5 + 25 + 6 + 4.5)
    assert pull.way.corners == ((10, 12, 9), (10, 12, 9.5), (10, 6, 9.5), (35, 6, 9.5), (35, 6, 5))
    assert pull.cut_ft == math.ceil(36 * 1.1 + 7.5)


def test_heights_given_for_device_can_and_run_are_used():
    can = CAN | {"height": 3.0}
    house = plan([level(0, [can, device("kp", "keypad", (35, 16), height=4.0)])], cable__above_ceiling=2)
    assert pull_of(house, "kp").measured_ft == pytest.approx((11 - 4) + 10 + (11 - 3))


def test_device_above_the_run_comes_down_to_it():
    house = plan([level(0, [CAN, device("md", "motion", (35, 16), height=12.0)])])
    assert pull_of(house, "md").measured_ft == pytest.approx(2.5 + 10 + 4.5)


def test_device_in_line_with_the_can_has_no_repeated_corner():
    pull = pull_of(plan([level(0, [CAN, device("gb", "glass_break", (5, 6))])]), "gb")
    assert pull.way.corners == ((5, 6, 9), (5, 6, 9.5), (35, 6, 9.5), (35, 6, 5))


def test_the_nearer_can_by_run_is_taken_not_the_nearer_by_air():
    # By air c2 is nearer (14.1 against 15), along the axes c1 is (15 against 20).
    cans = [device("c1", "can", (20, 5)), device("c2", "can", (15, 15))]
    assert pull_of(plan([level(0, [*cans, device("gb", "glass_break", (5, 5))])]), "gb").can == "c1"


def test_height_of_a_can_counts_in_choosing_it():
    cans = [device("low", "can", (20, 5), height=0), device("high", "can", (20, 8), height=8)]
    assert pull_of(plan([level(0, [*cans, device("gb", "glass_break", (20, 6))])]), "gb").can == "high"


def test_other_level_goes_by_the_riser_that_makes_the_whole_run_shortest():
    # r1 stands at the device and far from the can; r2 is on the way.
    house = plan(
        [level(0, [CAN]), level(1, [device("gb", "glass_break", (10, 12))])],
        [riser("r1", (10, 20), "L0", "L1"), riser("r2", (30, 10), "L1", "L0")],
    )
    pull = pull_of(house, "gb")
    assert pull.measured_ft == pytest.approx(0.5 + (20 + 2) + 10 + (5 + 4) + 4.5)
    assert (30, 10, 19.5) in pull.way.corners
    assert (30, 10, 9.5) in pull.way.corners


def test_chain_of_risers_reaches_over_three_levels():
    house = plan(
        [level(0, [CAN]), level(1, []), level(2, [device("sr", "siren", (5, 23))])],
        [riser("low", (22, 3), "L0", "L1"), riser("high", (30, 20), "L1", "L2")],
    )
    # up 2 to run, 25+3, down 10, 8+17, down 10, 13+3, down 4.5
    assert pull_of(house, "sr").measured_ft == pytest.approx(2 + 28 + 10 + 25 + 10 + 16 + 4.5)


def test_riser_may_join_levels_that_are_not_neighbours():
    house = plan(
        [level(0, [CAN]), level(1, []), level(2, [device("gb", "glass_break", (35, 6))])],
        [riser("shaft", (35, 6), "L0", "L2")],
    )
    assert pull_of(house, "gb").measured_ft == pytest.approx(0.5 + 20 + 4.5)


def test_no_riser_means_no_route():
    pull = pull_of(plan([level(0, [CAN]), level(1, [device("gb", "glass_break", (5, 5))])]), "gb")
    assert (pull.way, pull.measured_ft, pull.cut_ft, pull.can) == (None, None, None, None)


def test_risers_that_lead_elsewhere_do_not_help():
    house = plan(
        [level(0, [CAN]), level(1, [device("gb", "glass_break", (5, 5))]), level(2, [])],
        [riser("r", (5, 5), "L1", "L2")],
    )
    assert pull_of(house, "gb").way is None


def test_a_can_on_the_devices_own_level_is_not_always_the_nearest():
    far = device("far", "can", (0, 0))
    house = plan(
        [level(0, [CAN]), level(1, [far, device("gb", "glass_break", (40, 24))], elevation=1)],
        [riser("r", (40, 24), "L0", "L1")],
    )
    assert pull_of(house, "gb").can == "can"


def test_rounding_error_buys_no_further_foot():
    practice = plan([level(0, [])]).practice_in_force
    assert 45 * (1 + 0.10) + 1.5 + 6 > 57  # as floats go
    assert cut_length(45.0, practice) == 57
    assert cut_length(45.01, practice) == 58
    assert cut_length(0.0, practice) == 8


coordinates = st.tuples(st.integers(0, 40), st.integers(0, 24))


@st.composite
def tall_houses(draw):
    storeys = draw(st.integers(1, 4))
    levels = []
    for number in range(storeys):
        cans = [device(f"c{number}.{n}", "can", at) for n, at in enumerate(draw(st.lists(coordinates, max_size=2)))]
        spots = draw(st.lists(coordinates, max_size=4))
        levels.append(level(number, [*cans, *(device(f"d{number}.{n}", "motion", at) for n, at in enumerate(spots))]))
    risers = []
    for number, at in enumerate(draw(st.lists(coordinates, max_size=6))):
        low = draw(st.integers(0, storeys - 1))
        high = draw(st.integers(0, storeys - 1))
        if low != high:
            risers.append(riser(f"r{number}", at, f"L{low}", f"L{high}"))
    return value(levels, risers)


def shortest_by_another_way(given):
    """Every device's shortest run by a search of networkx over all spots at run height."""
    graph = nx.Graph()
    spots = {}
    for number, storey in enumerate(given["levels"]):
        run = storey["elevation"] + storey["ceiling"] + 0.5
        for thing in storey["devices"]:
            spots[thing["id"]] = (number, thing["at"])
            height = 5.0 if thing["kind"] == "can" else 7.0
            end = "home" if thing["kind"] == "can" else "at " + thing["id"]
            length = abs(run - storey["elevation"] - height)
            graph.add_edge(thing["id"], end, weight=length)
    for one in given["risers"]:
        ends = [(one["id"], one["from"]), (one["id"], one["to"])]
        low, high = (int(name[1:]) for name in (one["from"], one["to"]))
        graph.add_edge(*ends, weight=10.0 * abs(low - high))
        for end, number in zip(ends, (low, high), strict=True):
            spots[end] = (number, one["at"])
    for one, (number, at) in spots.items():
        for other, (elsewhere, there) in spots.items():
            if number == elsewhere and one != other:
                graph.add_edge(one, other, weight=abs(at[0] - there[0]) + abs(at[1] - there[1]))
    return nx.single_source_dijkstra_path_length(graph, "home") if "home" in graph else {}


@given(tall_houses())
@settings(max_examples=60, deadline=None)
def test_lengths_agree_with_networkx(given):
    expected = shortest_by_another_way(given)
    house = plan(given["levels"], given["risers"])
    for pull in compile_pulls(house):
        length = expected.get(f"at {pull.label}")
        if length is None:
            assert pull.way is None
        else:
            assert pull.measured_ft == pytest.approx(length, abs=1e-6)
            assert pull.way.length == pytest.approx(length, abs=1e-6)
            assert pull.way.corners[0][:2] == pytest.approx(pull.device.at)


@given(tall_houses(), st.floats(-180, 180), st.tuples(st.floats(-500, 500), st.floats(-500, 500)))
@settings(max_examples=40, deadline=None)
def test_turned_and_moved_houses_have_equal_lengths(given, degrees, move):
    straight = compile_pulls(plan(given["levels"], given["risers"]))
    around = compile_pulls(turned(given, degrees, move))
    for one, other in zip(straight, around, strict=True):
        assert one.cut_ft == other.cut_ft
        assert (one.measured_ft is None) == (other.measured_ft is None)
        if one.measured_ft is not None:
            assert other.measured_ft == pytest.approx(one.measured_ft, abs=1e-5)


@given(tall_houses())
@settings(max_examples=40, deadline=None)
def test_every_leg_is_along_an_axis(given):
    for pull in compile_pulls(plan(given["levels"], given["risers"])):
        corners = pull.way.corners if pull.way else ()
        for here, there in itertools.pairwise(corners):
            assert sum(abs(a - b) > 1e-9 for a, b in zip(here, there, strict=True)) == 1
