"""The crew's set, read back: heights and set-out, every hole, zones and power, tests with the values to expect."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from app.drawing.sheets.crew.inches import at_least, at_most
from app.drawing.sheets.crew.tests_by_kind import TESTS, hearing_caution
from app.plan.devices import DEVICE_KINDS
from app.plan.practice import Practice
from app.plan.reading import plan_from, read_plan_file
from app.wiring.answer import pulls_answer
from tests.drawing.sheets.a_guarded_house import DEVICES, guarded, guarded_value
from tests.drawing.sheets.reading import line_with, lines_of, only, sheets_of, text_of

SAMPLES = Path(__file__).parents[3] / "sample_plans"


def crew(plan: Any, title: str) -> Any:
    return only(sheets_of(plan, "crew", "letter"), title)


def test_the_device_plan_labels_each_device_with_height_mount_and_the_way_it_looks() -> None:
    text = text_of(crew(guarded(), "Device plan"))
    assert "KP-1 5'-0\" wall" in text
    assert "GB-1 9'-0\" ceiling" in text
    assert "MD-1 7'-0\" corner SE" in text
    assert "SR-1 7'-6\" wall W" in text
    metric = text_of(crew(guarded(units="metric"), "Device plan"))
    assert "KP-1 1.52 m wall" in metric


def test_devices_are_set_out_from_the_faces_of_walls_and_from_jambs() -> None:
    placing = crew(guarded(), "Devices to place")
    # walls are half a foot thick about centrelines at x = 0, 20, 30 and y = 0, 14
    assert "7'-9\" from the west wall, 5'-9\" from the south wall" in line_with(placing, "GB-1 Glass-break detector")
    assert "on the south wall, 8'-9\" from the east wall" in line_with(placing, "KP-1 Keypad")
    assert "in the corner of the west and north walls" not in line_with(placing, "MD-1 Motion detector")
    assert "d1, 0'-6\" from its hinge side" in line_with(placing, "DC-1 Door")
    assert "w1, 1'-0\" from its west jamb" in line_with(placing, "WC-1 Window")
    assert "placed by others" in line_with(placing, "SM-1 Smoke")


def test_every_contact_has_a_row_of_holes_and_windows_their_limits() -> None:
    drilling = crew(guarded(), "rilling")
    assert "4'-0\" surface 3'-6\" to 6'-0\" —" in line_with(drilling, "WC-1 w1,")
    text = text_of(drilling)
    assert "only with the window manufacturer's written word" in text
    assert "6 in or more from its top and its base" in text
    assert "150 mm" not in text
    assert "153 mm or more from its top" in text_of(crew(guarded(units="metric"), "rilling"))


def test_a_bedroom_s_window_that_opens_is_marked_as_a_way_out() -> None:
    value = guarded_value()
    value["levels"][0]["rooms"][0]["use"] = "bedroom"
    assert "3'-6\" to 6'-0\" yes" in line_with(crew(plan_from(value), "rilling"), "WC-1 w1,")


def test_limits_of_framing_are_the_published_ones_rounded_to_the_safe_side() -> None:
    drilling = crew(guarded(), "rilling")
    # 2 × 4: 3½ − 2·1¼ = 1.00; 40 % 1.40, 60 % 2.10; notches 25 % 0.875, 40 % 1.40 (IRC R602.6, NEC 300.4)
    assert line_with(drilling, "2×4") == "2×4 1 in 1 3/8 in 2 1/16 in 7/8 in 1 3/8 in"
    assert line_with(drilling, "2×6") == "2×6 3 in 2 3/16 in 3 1/4 in 1 3/8 in 2 3/16 in"
    assert line_with(crew(guarded(units="metric"), "rilling"), "2×4") == "2×4 25 mm 35 mm 53 mm 22 mm 35 mm"


def test_small_lengths_are_rounded_to_their_safe_side() -> None:
    assert at_most(2.1, "imperial") == "2 1/16 in"
    assert at_least(2.1, "imperial") == "2 1/8 in"
    assert at_least(0.5, "imperial") == "1/2 in"
    assert at_most(0.01, "imperial") == "0 in"
    assert (at_most(1.0, "metric"), at_least(1.0, "metric")) == ("25 mm", "26 mm")


@pytest.mark.parametrize("name", ["amber-ridge", "cobble-court"])
def test_every_device_is_on_the_test_sheet(name: str) -> None:
    plan = read_plan_file(SAMPLES / f"{name}.json")
    text = text_of(only(sheets_of(plan, "crew", "letter"), "Test sheet"))
    for level in plan.levels:
        for device in level.devices:
            assert f" {device.label} " in text, device.label


def test_the_test_sheet_expects_what_the_wiring_works_out() -> None:
    plan = guarded()
    answer, tests = pulls_answer(plan), crew(plan, "Test sheet")
    zone = next(zone for zone in answer["zones"] if zone["pulls"] == ["dc"])
    row = line_with(tests, "DC-1")
    assert f"{2000 + zone['loop_ohms']:.1f}; short {zone['loop_ohms']:.1f}" in row
    assert f"{zone['number']}, entry/exit Open slowly" in row
    feed = next(feed for feed in answer["feeds"] if feed["label"] == "sr")
    assert f"{feed['hot_volts']:.2f} to {feed['cool_volts']:.2f}" in line_with(tests, "SR-1")
    other = crew(guarded(practice={"zone.eol_ohms": 4700}), "Test sheet")
    assert f"{4700 + zone['loop_ohms']:.1f}; short" in line_with(other, "DC-1")


def test_what_a_detector_must_answer_to_is_its_proof() -> None:
    tests = crew(guarded(), "Test sheet")
    assert line_with(tests, "GB-1 w1/1") == "GB-1 w1/1 9'-4 1/2\", w1/2 8'-8 1/2\""
    assert "MD-1 Great room 87% of the floor, Den 18% of the floor" in lines_of(tests)


def test_every_kind_of_device_has_a_test() -> None:
    assert set(TESTS) == {kind.kind for kind in DEVICE_KINDS}


def test_the_hearing_caution_follows_the_rated_level() -> None:
    # NIOSH: 105 dBA 4.72 min, 115 dBA 0.47 min
    assert "hearing bears 4.7 min a day" in hearing_caution(Practice())
    assert "hearing bears 28 s a day" in hearing_caution(Practice({"siren.rated": 115}))
    assert "Warn everybody" in text_of(crew(guarded(), "Test"))


def test_zones_say_what_they_are_called_and_power_where_it_falls_low() -> None:
    plan = guarded()
    text = text_of(sheets_of(plan, "crew"))
    assert "1 Door contact, Great room entry/exit dc dc" in text
    assert "SUPPLY AND BATTERY AT CAN-1" in text
    assert "Next size up 4 Ah" in text
    low = text_of(sheets_of(guarded(practice={"power.siren_alarm": 5000}), "crew"))
    assert "Low on mains:" in low


def test_cable_is_told_in_metres_in_a_metric_plan() -> None:
    plan = guarded(units="metric")
    pull = next(pull for pull in pulls_answer(plan)["pulls"] if pull["label"] == "gb")
    assert f"{pull['cut_ft'] * 0.3048:.1f} m" in line_with(crew(plan, "Pulls"), "gb 22/4")
    assert "1 × 152.4 m" in text_of(crew(plan, "Pulls"))


def test_the_crew_s_cover_counts_devices_and_cable() -> None:
    name, cover = next(iter(sheets_of(guarded(), "crew").items()))
    assert name == "TY-002 Cover"
    text = text_of(cover)
    assert f"{len(DEVICES)} devices: 1 can (panel enclosure), 1 keypad, 1 door contact" in text
    assert "ft of 22/4 cut; 500 ft bought" in text
