"""Zones: what shares an input, what never does, the type of each and the resistance of its loop."""

import pytest

from app.wiring.electric.zones import loop_ohms
from app.wiring.judgements import wiring_findings
from app.wiring.wiring import Wiring
from tests.wiring.houses import device, level, plan

CAN = device("can", "can", (35, 6))


def opening(id, wall, offset, kind="window", **more):
    return {"id": id, "wall": f"{wall}-L0", "kind": kind, "offset": offset, "width": 2, "sill": 0, "head": 6} | more


OPENINGS = [
    *(opening(f"n{n}", "north", 3 * n + 1) for n in range(12)),
    opening("s1", "south", 30),
    opening("front", "south", 4, "door"),
    opening("inner", "middle", 2, "door"),
]
WINDOWS = [device(f"wc{n}", "window_contact", (3 * n + 2, 24), serves=[f"n{n}"]) for n in range(12)]


def zones(*devices, **practice):
    return Wiring(plan([level(0, [CAN, *devices], openings=OPENINGS)], **practice)).zones


def test_loop_of_the_training_manual():
    # 22 AWG solid, 150 ft: 2000 Ω end of line reads 2004.84 Ω secure and 4.842 Ω shorted at the far end.
    assert loop_ohms(150, 16.14) == pytest.approx(4.842)
    assert 2000 + loop_ohms(150, 16.14) == pytest.approx(2004.842)


def test_a_hundred_ohms_of_loop_is_three_thousand_feet():
    assert loop_ohms(3097.9, 16.14) == pytest.approx(100, abs=0.01)


def test_each_opening_has_its_own_zone_while_inputs_last():
    assert [len(zone.pulls) for zone in zones(*WINDOWS)] == [1] * 12


def test_windows_share_by_side_at_most_ten_when_inputs_run_short():
    south = device("ws", "window_contact", (30, 0), serves=["s1"])
    shared = zones(*WINDOWS, south, zone__inputs=8)
    assert [(zone.words, len(zone.pulls)) for zone in shared] == [
        ("Level 0, north windows 1 of 2", 6),
        ("Level 0, north windows 2 of 2", 6),
        ("Level 0, south windows", 1),
    ]


def test_doors_never_share():
    doors = [device(f"dc{n}", "door_contact", (5, 0), serves=["front"]) for n in range(3)]
    assert all(len(zone.pulls) == 1 for zone in zones(*doors, zone__grouping="always"))


def test_detectors_that_judge_for_themselves_never_share():
    detectors = [device(f"d{n}", kind, (5, 5)) for n, kind in enumerate(["motion", "glass_break"] * 3)]
    assert all(len(zone.pulls) == 1 for zone in zones(*detectors, zone__grouping="always"))


def test_keypads_sirens_spares_and_wireless_take_no_input():
    assert (
        zones(
            device("kp", "keypad", (5, 5)),
            device("sr", "siren", (5, 6)),
            device("x", "other", (5, 7), label="spare"),
            device("w", "motion", (5, 8), note="wireless"),
        )
        == []
    )


def test_types_follow_from_place():
    made = zones(
        device("kp", "keypad", (8, 0.3)),
        device("in", "door_contact", (5, 0), serves=["front"]),
        device("mid", "door_contact", (20, 3), serves=["inner"]),
        device("wc", "window_contact", (30, 0), serves=["s1"]),
        device("den", "motion", (2, 20)),
        device("bed", "motion", (38, 22)),
        device("fl", "flood", (30, 20)),
        device("sm", "smoke", (30, 20), cable="18/4"),
    )
    assert {zone.pulls[0].label: zone.type for zone in made} == {
        "in": "entry/exit",
        "mid": "interior",
        "wc": "perimeter",
        "den": "interior follower",
        "bed": "interior",
        "fl": "24-hour",
        "sm": "fire",
    }


def test_door_far_from_any_keypad_is_perimeter():
    (zone,) = zones(device("in", "door_contact", (5, 0), serves=["front"]))
    assert zone.type == "perimeter"


def test_loop_adds_every_pull_of_the_zone_and_the_resistor_is_at_the_last_device():
    zone = zones(*WINDOWS[:4], zone__grouping="always", power__conductor="solid")[0]
    feet = sum(pull.cut_ft for pull in zone.pulls)
    assert zone.loop_ohms == pytest.approx(loop_ohms(feet, 16.14), rel=1e-3)
    assert zone.hot_loop_ohms == pytest.approx(loop_ohms(feet, 19.63), rel=1e-3)
    assert (zone.eol_ohms, zone.resistor_at) == (2000, zone.pulls[-1].label)


def test_every_zone_pull_is_in_exactly_one_zone():
    made = zones(*WINDOWS, device("gb", "glass_break", (5, 5)), zone__inputs=4)
    labels = [pull.label for zone in made for pull in zone.pulls]
    assert sorted(labels) == sorted({*(d["id"] for d in WINDOWS), "gb"})
    assert [zone.number for zone in made] == list(range(1, len(made) + 1))


def test_inputs_that_run_out_are_told():
    made = Wiring(plan([level(0, [CAN, *WINDOWS], openings=OPENINGS)], zone__inputs=4, zone__grouping="never"))
    (found,) = wiring_findings(made)
    assert found["rule"] == "zone.inputs"
    assert "expander of 8 or more or let windows share zones" in found["message"]


def test_loop_over_the_limit_is_told():
    made = Wiring(plan([level(0, [CAN, *WINDOWS[:1]], openings=OPENINGS)], zone__loop_limit=1))
    assert [found["rule"] for found in wiring_findings(made)] == ["zone.loop"]
