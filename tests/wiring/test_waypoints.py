"""Way-points: a run made to pass places that its device's note names."""

import pytest

from app.wiring.judgements import wiring_findings
from app.wiring.pulls import compile_pulls
from app.wiring.routes.waypoints import waypoints_of
from app.wiring.wiring import Wiring
from tests.wiring.houses import device, level, plan, riser

CAN = device("can", "can", (35, 6))


def noted(note, **more):
    return device("gb", "glass_break", (10, 12), note=note, **more)


def points(note):
    return waypoints_of(plan([level(0, [noted(note)])]).levels[0].devices[0])


def test_a_note_that_only_speaks_of_cable_is_no_fault():
    assert wiring_findings(Wiring(plan([level(0, [CAN, noted("Cable via the attic hatch")])]))) == []


@pytest.mark.parametrize(
    ("note", "read"),
    [
        ("cable via (12.5, 6) (20, 6)", ((12.5, 6), (20, 6))),
        ("Above the beam.\nCable via: (12.5,6); (-20,.5)\nSee sheet 2", ((12.5, 6), (-20, 0.5))),
        ("cable via (12.5, 6) (20", ()),
        ("cable via the attic", ()),
        ("cable via (1e9, 6)", ()),
        ("cable via (99999, 6)", ()),
        ("cable via", ()),
        ("the cable via (1, 2)", ()),
        ("no word of it", ()),
    ],
)
def test_note_is_read(note, read):
    assert points(note) == read


def test_run_passes_its_way_points_and_then_goes_the_shortest_way():
    (pull,) = compile_pulls(plan([level(0, [CAN, noted("cable via (10, 20) (30, 20)")])]))
    # up 0.5, north 8, east 20, south 14, east 5, down 4.5
    assert pull.measured_ft == pytest.approx(0.5 + 8 + 20 + 14 + 5 + 4.5)
    assert pull.way.corners[:4] == ((10, 12, 9), (10, 12, 9.5), (10, 20, 9.5), (30, 20, 9.5))
    assert pull.way.corners[-1] == (35, 6, 5)


def test_way_points_are_passed_before_a_riser():
    house = plan([level(0, [CAN]), level(1, [noted("cable via (0, 12)")])], [riser("r", (35, 6), "L0", "L1")])
    (pull,) = compile_pulls(house)
    assert pull.measured_ft == pytest.approx(0.5 + 10 + 35 + 6 + 10 + 4.5)


def test_in_walls_the_run_joins_the_wall_nearest_its_last_way_point():
    house = plan([level(0, [CAN, noted("cable via (10, 23)")])], cable__way="in_walls")
    (pull,) = compile_pulls(house)
    # north 11 to the way-point, 1 to the north wall, 30 east, 18 south, 5 in to the can
    assert pull.measured_ft == pytest.approx(0.5 + 11 + 1 + 30 + 18 + 5 + 4.5)


def test_way_points_that_cannot_be_read_are_told_and_left_out():
    made = Wiring(plan([level(0, [CAN, noted("cable via (12.5, 6")])]))
    assert made.pulls[0].measured_ft == pytest.approx(36)
    (found,) = wiring_findings(made)
    assert found["rule"] == "cable.waypoints"
    assert "cable via (12.5, 6) (20, 6)" in found["message"]
