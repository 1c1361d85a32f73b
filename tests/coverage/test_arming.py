"""Arming states: what watches openings and rooms in stay and away, what stay gives up, and the paths to the keypad."""

import math

import pytest

from app.coverage.arming import STATES
from app.plan.reading import plan_from
from app.review.house import House
from app.review.protection import protection
from tests.review.sound_house import SoundHouse


def states(house):
    return protection(House(plan_from(house.value)))["states"]


def opening(house, name):
    return next(one for one in states(house)["openings"] if one["id"] == name)


def room(house, name):
    return next(one for one in states(house)["rooms"] if one["id"] == name)


def test_every_exterior_opening_is_told_and_no_inner_one():
    assert [one["id"] for one in states(SoundHouse())["openings"]] == ["D1", "W1", "W2"]


def test_contact_and_glass_break_watch_in_both_states():
    watch = opening(SoundHouse(), "W1")
    assert (watch["contacts"], watch["listeners"], watch["gaps"]) == (["WC1"], ["GB1"], [])
    assert [watch[state] for state in STATES] == ["at the opening"] * 2


def test_glass_that_is_not_heard_is_told_inside_only_while_motion_is_on():
    house = SoundHouse().drop("GB1")
    watch = opening(house, "W1")
    assert watch["gaps"] == ["broken"]
    assert watch["deaf"] == ["W1/1"]
    assert (watch["stay"], watch["away"]) == ("nothing", "inside")
    lost = states(house)["stay_loses"]
    assert lost["openings"] == ["W1"]
    assert "1 openings" not in lost["words"]


def test_window_without_contact_or_glass_break_in_a_room_without_motion_is_watched_by_nothing():
    watch = opening(SoundHouse().drop("WC2", "GB2"), "W2")
    assert watch["gaps"] == ["opened", "broken"]
    assert (watch["stay"], watch["away"]) == ("nothing", "nothing")


def test_fixed_window_needs_no_contact_and_blind_door_no_glass_break():
    assert opening(SoundHouse().drop("WC1").change("W1", operable=False), "W1")["gaps"] == []
    assert opening(SoundHouse(), "D1")["gaps"] == []


def test_bare_hole_in_the_outer_wall_is_a_gap():
    house = SoundHouse().add("openings", id="ARCH", wall="s", kind="cased", offset=20, width=3)
    watch = opening(house, "ARCH")
    assert watch["gaps"] == ["open"]
    assert (watch["stay"], watch["away"]) == ("nothing", "inside")


def test_room_loses_its_motion_in_stay():
    great = room(SoundHouse(), "great")
    assert great["stay"] == ["WC1", "GB1"]
    assert great["away"] == ["WC1", "GB1", "MD1"]
    assert great["lost_in_stay_sqft"] == pytest.approx(great["motion_fraction"] * great["area_sqft"], abs=0.05)
    assert states(SoundHouse())["stay_loses"]["floor_sqft"] == pytest.approx(great["lost_in_stay_sqft"], abs=0.1)


def test_room_that_only_motion_watches_is_blind_in_stay():
    house = SoundHouse().drop("W1", "WC1", "GB1")
    assert states(house)["stay_loses"]["rooms"] == ["great"]


def test_a_glimpse_through_a_doorway_is_no_watch():
    """The detector sees a sliver of the entry through the cased opening: under 2 % of its floor."""
    house = SoundHouse().change("MD1", at=[31.6, 17.7], facing=225, range=16.8)
    seen = House(plan_from(house.value)).storeys["L1"]
    hall = seen.scene.face_of_room["hall"]
    sliver = sum(proof.seen[hall].area for proof in seen.motions if hall in proof.seen)
    assert 0 <= sliver < 0.02 * seen.ground.floors[hall].area
    assert room(house, "hall")["away"] == ["DC1"]


def test_without_motion_both_states_are_the_same():
    answer = states(SoundHouse().drop("MD1"))
    assert all(one["stay"] == one["away"] for one in answer["openings"] + answer["rooms"])
    assert answer["stay_loses"]["floor_sqft"] == 0


def test_entry_path_is_the_walk_to_the_nearest_keypad():
    (entry,) = states(SoundHouse())["entries"]
    assert (entry["door"], entry["keypad"]) == ("D1", "KP1")
    worked = math.dist((6.5, 0), (8, 0.25)) + math.dist((8, 0.25), (9, 0.3))
    assert entry["feet"] == pytest.approx(worked, abs=2e-3)
    assert entry["seconds"] == pytest.approx(worked / 2, abs=0.06)
    assert entry["in_time"]
    assert entry["followers"] == []


def test_keypad_across_the_house_makes_the_motion_on_the_way_a_follower():
    house = SoundHouse().drop("KP2").change("KP1", at=[31.7, 2], facing=180)
    (entry,) = states(house)["entries"]
    assert entry["followers"] == ["MD1"]
    assert entry["feet"] == pytest.approx(math.dist((6.5, 0), (16, 5.5)) + math.dist((16, 5.5), (31.7, 2)), abs=0.3)


def test_keypad_that_takes_longer_than_the_delay_is_late():
    house = SoundHouse().drop("KP2").change("KP1", at=[31.7, 2], facing=180).practice(entry__delay=12, walk__speed=2)
    (entry,) = states(house)["entries"]
    assert entry["seconds"] > 12
    assert not entry["in_time"]
    assert "too far" in entry["words"]


def test_door_from_which_no_keypad_can_be_walked_to_has_no_path():
    house = SoundHouse().drop("KP1", "KP2", "D2", "D3").add("devices", id="KP9", kind="keypad", at=[24, 17.7])
    assert states(house)["entries"] == []
