"""A room that walls do not close is told with the wall end that stops short."""

from app.geometry.short_ends import short_ends
from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.review.sound_house import SoundHouse


def told(house):
    found = check_plan(plan_from(house.value))["findings"]
    return [(finding["things"], finding["message"]) for finding in found if finding["rule"] == "shell.room_open"]


def test_gap_between_two_walls_is_named_with_its_width():
    """The outer wall ends half a foot before the corner: the great room and the study lie open."""
    house = SoundHouse().change("e", b=[32, 23.5])
    ((things, message),) = told(house)
    assert things[0] == "study"
    assert set(things[1:]) == {"e", "n"}
    assert "0'-6\"" in message


def test_walls_that_meet_have_no_short_end():
    plan = plan_from(SoundHouse().value)
    assert short_ends(plan.levels[0].walls, 2.0) == []


def test_a_free_end_far_from_other_walls_is_meant_so():
    plan = plan_from(SoundHouse().add("walls", id="stub", a=[24, 0], b=[24, 6]).value)
    assert short_ends(plan.levels[0].walls, 2.0) == []
