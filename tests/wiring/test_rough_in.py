"""Rough-in: the crew's round by room, holes for bundles, and cautions that defer to others."""

import math

import pytest

from app.wiring.rough_in import CAUTIONS, cable_area, hole_for, holes_of, stops_by_room
from app.wiring.wiring import Wiring
from tests.wiring.houses import device, level, plan, riser

CAN = device("can", "can", (35, 6))
PRACTICE = plan([level(0, [])]).practice_in_force


@pytest.mark.parametrize(("cable", "area"), [("22/2", 0.01247), ("22/4", 0.01674), ("18/2", 0.02112)])
def test_cable_areas_of_the_facts(cable, area):
    assert cable_area(cable, PRACTICE) == pytest.approx(area, abs=1e-5)


@pytest.mark.parametrize(("cable", "most"), [("22/2", 25), ("22/4", 18), ("18/2", 14)])
def test_how_many_fill_a_one_inch_hole_to_forty_per_cent(cable, most):
    assert hole_for([(cable, most)], PRACTICE).hole_in <= 1.0
    assert hole_for([(cable, most + 1)], PRACTICE).hole_in > 1.0


def test_hole_for_mixed_cables_adds_their_areas():
    hole = hole_for([("22/2", 3), ("22/4", 4), ("18/2", 8)], PRACTICE)
    area = 3 * 0.01247 + 4 * 0.01674 + 8 * 0.02112
    assert hole.area_sqin == pytest.approx(area, abs=1e-4)
    assert hole.hole_in == pytest.approx(2 * math.sqrt(area / 0.4 / math.pi), abs=1e-3)


def test_stud_that_needs_a_plate_is_named():
    # NEC 300.4: a centred hole over 1.00 in in a 2×4, over 3.00 in in a 2×6, comes nearer than 1 1/4 in to the face.
    assert hole_for([("22/4", 18)], PRACTICE).plates == ()
    assert hole_for([("22/4", 19)], PRACTICE).plates == ("2×4",)
    assert hole_for([("22/4", 200)], PRACTICE).plates == ("2×4", "2×6")


def test_cable_of_unknown_diameter_is_named():
    assert hole_for([("cat6", 2), ("22/2", 1)], PRACTICE).unknown == ("cat6",)


def test_round_goes_by_level_and_room():
    made = Wiring(
        plan(
            [
                level(0, [CAN, device("a", "motion", (5, 5)), device("out", "siren", (-30, 5))]),
                level(1, [device("b", "motion", (30, 20)), device("c", "keypad", (28, 20))]),
            ]
        )
    )
    rounds = stops_by_room(made.pulls, made.practice)
    assert [(level_name, room, [stop.pull.label for stop in stops]) for level_name, room, stops in rounds] == [
        ("Level 0", "Den", ["a"]),
        ("Level 0", "", ["out"]),
        ("Level 1", "Bedroom", ["b", "c"]),
    ]
    assert rounds[0][2][0].height_ft == 7


def test_drilled_contact_asks_for_the_spec_sheet_and_the_window_manufacturers_word():
    made = Wiring(plan([level(0, [CAN, device("wc", "window_contact", (0, 5)), device("md", "motion", (5, 5))])]))
    drilling = {
        stop.pull.label: stop.drilling for _, _, stops in stops_by_room(made.pulls, made.practice) for stop in stops
    }
    assert "spec sheet" in drilling["wc"]
    assert "window manufacturer's written word" in drilling["wc"]
    assert drilling["md"] == ""


def test_first_caution_defers_to_local_code_and_every_caution_has_a_source():
    assert "local code" in CAUTIONS[0].words
    assert all(caution.source for caution in CAUTIONS)


def test_holes_are_for_the_risers_used_and_the_cans_reached():
    house = plan(
        [
            level(0, [CAN, device("a", "motion", (5, 5))]),
            level(1, [device("b", "motion", (30, 20)), device("c", "siren", (28, 20))]),
            level(2, []),
        ],
        [riser("used", (30, 8), "L1", "L0"), riser("idle", (0, 0), "L1", "L2")],
    )
    holes = holes_of(house, Wiring(house).pulls)
    assert [(hole.thing, hole.cables) for hole in holes] == [
        ("used", (("18/2", 1), ("22/4", 1))),
        ("can", (("18/2", 1), ("22/4", 2))),
    ]
