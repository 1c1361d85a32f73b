"""Sound against published and independently worked values, then what a house does to it."""

import math

import pytest

from app.coverage.partitions import composite_loss
from app.coverage.sound import level_at, listen, pillows, reach_of_level, room_middles, sounders, summed
from app.coverage.sound_round import WaysRound
from app.plan.reading import plan_from
from app.review.house import House
from tests.review.sound_house import SoundHouse


def at_one_metre(level):
    """What a source of that level at 1 m has at 10 ft (3.048 m)."""
    return level - 20 * math.log10(3.048)


def metres(distance):
    return distance / 0.3048


def house_of(value):
    return House(plan_from(value.value))


@pytest.mark.parametrize(("distance", "level"), [(2, 93.98), (4, 87.96), (8, 81.94)])
def test_100_db_at_1_m_falls_by_6_db_a_doubling(distance, level):
    """Page on sounders: 94, 88, 82 dB."""
    assert level_at(at_one_metre(100), metres(distance)) == pytest.approx(level, abs=0.01)


def test_126_db_at_1_m_is_84_db_at_128_m():
    assert level_at(at_one_metre(126), metres(128)) == pytest.approx(83.86, abs=0.01)


@pytest.mark.parametrize(("feet", "level"), [(100, 88.98), (200, 82.96)])
def test_95_db_at_50_ft(feet, level):
    """Municipal noise sheet: 89 and 83 dB at 100 and 200 ft."""
    assert level_at(95 + 20 * math.log10(50 / 10), feet) == pytest.approx(level, abs=0.01)


def test_105_db_at_10_ft_is_114_68_db_at_1_m():
    assert level_at(105, metres(1)) == pytest.approx(114.68, abs=0.005)


@pytest.mark.parametrize(("rated", "level"), [(105, 80.40), (85, 60.40)])
def test_pillow_24_ft_away_behind_a_closed_door(rated, level):
    """NFPA 72's 75 dBA as a yardstick; 17 dB of a closed door measured in “Close Before You Doze” (2017)."""
    assert level_at(rated, 24) - 17 == pytest.approx(level, abs=0.01)


def test_two_equal_sources_add_3_db():
    assert summed([80, 80]) == pytest.approx(83.01, abs=0.01)


def test_no_source_is_silence():
    assert summed([]) == -math.inf


@pytest.mark.parametrize(("door", "loss"), [(20, 26.06), (30, 32.18)])
def test_door_governs_a_wall_of_12_by_8_ft(door, loss):
    """HUD Noise Guidebook's composite: 76 sq ft of STC 33 and 20 sq ft of door."""
    assert composite_loss([(76, 33), (20, door)]) == pytest.approx(loss, abs=0.01)


def test_wall_alone_keeps_its_loss_and_a_hole_lets_nearly_all_through():
    assert composite_loss([(96, 33)]) == pytest.approx(33)
    assert composite_loss([]) == 0
    assert composite_loss([(76, 33), (20, 0)]) == pytest.approx(10 * math.log10(96 / 20), abs=0.02)


def test_reach_is_the_inverse_of_the_level():
    assert level_at(105, reach_of_level(105, 82)) == pytest.approx(82)
    assert reach_of_level(105, 105) == pytest.approx(10)


def test_nearer_than_the_source_is_wide_nothing_more_is_claimed():
    assert level_at(105, 0) == level_at(105, 1)


def corridor(**opening):
    """A siren and a bed 24 ft apart in two rooms of 12 ft, the way straight through the middle of the wall between."""
    house = SoundHouse().drop("SR1", "KP1", "KP2", "bed1", "k", "D3", "c1", "c2", "D4", "D5")
    house.drop("closet", "study", "hall")
    house.change("m", a=[16, 0], b=[16, 24])
    house.drop("D2").add("openings", id="MID", wall="m", width=3, offset=10.5, **opening)
    house.add("devices", id="SRX", kind="siren", at=[28, 12], height=2)
    return house.add("fixtures", id="bedX", kind="bed", at=[4, 12], height=2)


def heard(house):
    one = house_of(house)
    (only,) = listen(one.scenes, one.practice, sounders(one.plan), pillows(one.plan))
    return only


def test_way_through_a_closed_door_is_the_worked_value():
    only = heard(corridor(kind="door"))
    assert only.level == pytest.approx(80.40, abs=0.01)
    assert only.rays[0].crossed == ("MID",)


def test_way_through_an_open_door_and_through_a_cased_opening():
    assert heard(corridor(kind="cased")).level == pytest.approx(level_at(105, 24), abs=0.01)
    house = corridor(kind="door").practice(doors__taken_as="open")
    assert heard(house).level == pytest.approx(level_at(105, 24) - 8, abs=0.01)


def test_way_beside_the_door_loses_the_composite_of_the_whole_wall():
    house = corridor(kind="door").change("MID", offset=1)
    area, door = 24 * 9, 3 * 6.667
    worked = 10 * math.log10(area / ((area - door) * 10**-3.3 + door * 10**-2))
    only = heard(house)
    assert only.rays[0].loss == pytest.approx(worked, abs=0.01)
    assert only.rays[0].crossed == ("m",)


def test_several_sirens_are_summed():
    house = corridor(kind="door").add("devices", id="SRY", kind="siren", at=[28, 12], height=2)
    assert heard(house).level == pytest.approx(80.40 + 3.01, abs=0.01)


def test_keypad_sounders_count():
    house = corridor(kind="door").drop("SRX").add("devices", id="KPX", kind="keypad", at=[14, 12], height=2)
    assert heard(house).level == pytest.approx(70, abs=0.01)


def test_half_wall_and_free_end_of_a_wall_stop_nothing():
    house = corridor(kind="cased").change("m", height=4).change("MID", head=3, offset=1)
    assert heard(house).rays[0].loss == 0
    stub = corridor(kind="cased").add("walls", id="stub", a=[24, 0], b=[24, 20])
    assert heard(stub).rays[0].loss == 0


def test_between_levels_one_floor_is_lost():
    house = SoundHouse().upper(fixtures=[{"id": "bedU", "kind": "bed", "at": [14, 11.75], "height": 2}])
    one = house_of(house.drop("bed1", "KP1", "KP2"))
    (only,) = listen(one.scenes, one.practice, sounders(one.plan), pillows(one.plan))
    (ray,) = only.rays
    assert ray.feet == pytest.approx(10 + 2 - 7.5)
    assert ray.loss == pytest.approx(33)
    assert ray.crossed == ("floor",)


def test_nobody_sounds_nobody_hears():
    one = house_of(SoundHouse().drop("SR1", "KP1", "KP2"))
    (only,) = listen(one.scenes, one.practice, sounders(one.plan), pillows(one.plan))
    assert only.rays == ()
    assert only.level == -math.inf


def test_every_closed_room_has_an_ear_inside_it():
    one = house_of(SoundHouse())
    ears = room_middles(one.plan, one.scenes)
    assert [ear.thing for ear in ears] == ["great", "main", "hall", "closet", "study"]
    for ear in ears:
        assert one.storeys["L1"].scene.room_at(*ear.at) == ear.thing


def test_turning_the_house_changes_nothing():
    turned = SoundHouse()
    cos, sin = math.cos(0.4), math.sin(0.4)

    def turn(at):
        return [cos * at[0] - sin * at[1], sin * at[0] + cos * at[1]]

    for family in ("walls", "rooms", "devices", "fixtures"):
        for one in turned.value["levels"][0][family]:
            one.update({key: turn(one[key]) for key in ("a", "b", "at") if key in one})
    straight, oblique = (house_of(house) for house in (SoundHouse(), turned))
    for one, two in zip(
        *(listen(h.scenes, h.practice, sounders(h.plan), pillows(h.plan)) for h in (straight, oblique)), strict=True
    ):
        assert one.level == pytest.approx(two.level, abs=1e-6)


def around(house, quietest=0.0):
    one = house_of(house)
    sources, ears = sounders(one.plan), pillows(one.plan)
    straight = listen(one.scenes, one.practice, sources, ears)
    return straight, WaysRound(one.scenes, one.practice, sources, ears).heard(straight, quietest)


def test_way_round_by_the_door_beats_the_way_through_the_wall():
    """The door stands 9.5 ft beside the straight way: 2 · √(12² + 9.5²) in plan, and 17 dB."""
    house = corridor(kind="door").change("MID", offset=1)
    (straight,), (round_by,) = around(house)
    feet = math.dist((28, 12), (16, 2.5)) + math.dist((16, 2.5), (4, 12))
    assert round_by.rays[0].feet == pytest.approx(feet, abs=0.01)
    assert round_by.level == pytest.approx(level_at(105, feet) - 17, abs=0.01)
    assert round_by.rays[0].crossed == ("MID",)
    assert round_by.level > straight.level


def test_straight_way_stays_where_it_is_louder():
    (straight,), (round_by,) = around(corridor(kind="cased"))
    assert round_by.level == pytest.approx(straight.level, abs=1e-6)


def test_height_counts_on_the_way_round():
    house = corridor(kind="cased").change("SRX", height=8)
    (straight,), (round_by,) = around(house)
    assert straight.rays[0].feet == pytest.approx(math.hypot(24, 6))
    assert round_by.rays[0].feet >= straight.rays[0].feet - 1e-6


def test_ways_round_end_where_they_are_too_quiet():
    house = corridor(kind="door").change("MID", offset=1)
    _, (loud,) = around(house, quietest=90)
    (straight,), _ = around(house)
    assert loud.level == straight.level


def test_searching_from_ears_and_from_sounders_hears_the_same():
    house = SoundHouse().add("fixtures", id="bed2", kind="bed", at=[24, 21])
    house.add("fixtures", id="bed3", kind="bed", at=[28, 21]).add("fixtures", id="bed4", kind="bed", at=[20.5, 4])
    one = house_of(house)
    sources, ears = sounders(one.plan), pillows(one.plan)
    straight = listen(one.scenes, one.practice, sources, ears)
    assert len(sources) < len(ears)
    together = WaysRound(one.scenes, one.practice, sources, ears).heard(straight, 0.0)
    for number, ear in enumerate(ears):
        (alone,) = WaysRound(one.scenes, one.practice, sources, [ear]).heard([straight[number]], 0.0)
        assert alone.level == pytest.approx(together[number].level, abs=1e-6)
