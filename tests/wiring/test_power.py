"""Power over a plan: voltage at each device, what each can's outputs carry, and its battery's basis."""

import pytest

from app.wiring.electric.conductors import drop, hot_resistance
from app.wiring.judgements import wiring_findings
from app.wiring.wiring import Wiring
from tests.wiring.houses import device, level, plan

CAN = device("can", "can", (35, 6))


def wiring(*devices, **practice):
    return Wiring(plan([level(0, [CAN, *devices])], **practice))


def rules(made):
    return [finding["rule"] for finding in wiring_findings(made)]


def finding(made, rule):
    return next(found for found in wiring_findings(made) if found["rule"] == rule)


def test_voltage_is_that_of_the_cable_as_cut_one_way():
    made = wiring(device("sr", "siren", (10, 12)), power__conductor="solid", power__siren_alarm=500)
    (feed,) = made.feeds
    assert feed.one_way_ft == made.pulls[0].cut_ft
    assert feed.cool_volts == pytest.approx(12 - 2 * feed.one_way_ft * 6.385 / 1000 * 0.5, abs=1e-3)
    assert feed.hot_volts == pytest.approx(12 - 2 * feed.one_way_ft * 7.77 / 1000 * 0.5)
    assert feed.battery_volts == pytest.approx(10.5 - 2 * feed.one_way_ft * 7.77 / 1000 * 0.5)


def test_greater_of_both_currents_counts():
    (feed,) = wiring(device("gb", "glass_break", (10, 12)), power__glass_break_standby=70).feeds
    assert feed.milliamperes == 70


def test_contacts_and_spares_draw_nothing():
    made = wiring(device("wc", "window_contact", (0, 5)), device("x", "other", (5, 5), label="spare"))
    assert made.feeds == []


def test_low_voltage_says_which_gauge_or_distance_would_mend_it():
    made = wiring(device("sr", "siren", (0, 20)), cable__siren="22/2", power__siren_alarm=900)
    found = finding(made, "power.low_volts")
    feed = made.feeds[0]
    assert found["things"] == ["sr"]
    assert f"use {feed.gauge_that_holds} AWG" in found["message"]
    assert 12 - drop(feed.one_way_ft, hot_resistance(feed.gauge_that_holds, "stranded"), 0.9) >= 10.2
    lighter = {20: 22, 18: 20, 16: 18}[feed.gauge_that_holds]
    assert 12 - drop(feed.one_way_ft, hot_resistance(lighter, "stranded"), 0.9) < 10.2
    assert 12 - drop(feed.longest_ft, feed.hot_ohms, 0.9) == pytest.approx(10.2)


def test_cable_without_a_gauge_in_its_name_is_said_to_be_unknown():
    made = wiring(device("md", "motion", (5, 5), cable="flat grey"))
    assert made.feeds[0].hot_volts is None
    assert rules(made) == ["power.unknown_gauge"]


def test_quiet_house_has_no_finding():
    assert rules(wiring(device("wc", "window_contact", (0, 5)), device("gb", "glass_break", (9, 9)))) == []


def test_auxiliary_output_overdrawn_says_by_how_much():
    made = wiring(*(device(f"kp{n}", "keypad", (n, 3)) for n in range(5)), power__keypad_alarm=120)
    assert made.supplies[0].auxiliary_alarm == 600
    assert "take off 100 mA" in finding(made, "power.auxiliary")["message"]


def test_sirens_are_weighed_against_their_own_output():
    made = wiring(*(device(f"sr{n}", "siren", (n, 3)) for n in range(3)))
    assert made.supplies[0].auxiliary_alarm == 0
    assert "power.siren_output" in rules(made)


def test_class_2_limit_is_told():
    made = wiring(device("sr", "siren", (30, 6)), power__siren_alarm=5000, power__supply_volts=24)
    assert finding(made, "power.class_2")["message"].startswith("can would feed 120 VA at 24 V")


def test_loads_hang_on_the_can_that_their_pulls_end_at():
    other = device("c2", "can", (2, 2))
    made = wiring(other, device("a", "keypad", (3, 3)), device("b", "keypad", (36, 8)))
    assert [(supply.can, supply.auxiliary_alarm) for supply in made.supplies] == [("can", 120), ("c2", 120)]


def test_battery_adds_the_panel_to_its_devices():
    made = wiring(device("kp", "keypad", (5, 5)), device("sr", "siren", (5, 9)))
    battery = made.supplies[0].battery
    assert battery.standby_amperes == pytest.approx((100 + 60) / 1000)
    assert battery.alarm_amperes == pytest.approx((150 + 120 + 500) / 1000)
    assert battery.needed_ah == pytest.approx(0.160 * 4 + 0.770 * 0.25)
    assert battery.edition == "NFPA 72-2022, × 1.25"


def test_smoke_on_the_panel_raises_the_basis_to_a_day():
    made = wiring(device("sm", "smoke", (5, 5), cable="18/4"))
    assert made.supplies[0].battery.basis.standby_hours == 24
    assert rules(made) == ["battery.fire_basis"]
    recorded_only = wiring(device("sm", "smoke", (5, 5)))
    assert recorded_only.supplies[0].battery.basis.standby_hours == 4


def test_battery_beyond_the_charger_or_every_size_is_told():
    loads = [device(f"kp{n}", "keypad", (n, 3)) for n in range(3)]
    assert "battery.charger" in rules(wiring(*loads, battery__basis="premises_24h", battery__charger_limit=7))
    assert "battery.too_small" in rules(wiring(*loads, battery__basis="premises_24h", battery__sizes=[4]))


def test_light_gauge_is_told_once_a_cable():
    made = wiring(*(device(f"wc{n}", "window_contact", (0, n)) for n in range(4)), cable__contact="24/2")
    found = finding(made, "cable.light_gauge")
    assert rules(made) == ["cable.light_gauge"]
    assert len(found["things"]) == 4


def test_no_can_is_one_finding_for_the_whole_plan():
    made = Wiring(plan([level(0, [device("a", "motion", (5, 5))]), level(1, [device("b", "motion", (5, 5))])]))
    assert [(f["rule"], f["severity"], f["things"]) for f in wiring_findings(made)] == [
        ("cable.no_can", "must", ["a", "b"])
    ]


def test_unreached_level_is_one_finding():
    upstairs = level(1, [device("a", "motion", (5, 5)), device("b", "motion", (9, 5))])
    (found,) = wiring_findings(Wiring(plan([level(0, [CAN]), upstairs])))
    assert (found["rule"], found["severity"], found["things"]) == ("cable.unreached", "must", ["a", "b"])
    assert "riser" in found["message"]


def test_pull_longer_than_the_largest_box_is_a_must():
    (found,) = wiring_findings(wiring(device("wc", "window_contact", (0, 5)), cable__box_sizes=[50]))
    assert (found["rule"], found["severity"], found["things"]) == ("cable.longer_than_box", "must", ["wc"])
