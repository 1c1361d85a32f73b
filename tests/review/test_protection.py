"""Protection as people read it in a terminal, and as JSON for scripts."""

import json

import pytest

from app.command_line.entry import run
from tests.review.sound_house import SoundHouse


@pytest.fixture
def told(tmp_path, capsys):
    def tell(house, *options):
        path = tmp_path / "plan.json"
        path.write_text(json.dumps(house.value))
        assert run(["protection", str(path), *options]) == 0
        return capsys.readouterr().out

    return tell


def test_report_names_the_gap_in_the_openings_and_the_walk_behind_it(told):
    report = told(SoundHouse().drop("WC2"))
    assert "window W2" in report
    assert "may be opened unnoticed" in report
    assert "In stay, somebody who opens window W2 walks 29'-2 1/2\" to Great room and nobody notices." in report
    assert "Followers" not in report


def test_report_of_a_well_planned_house_says_that_nobody_walks_unseen(told):
    report = told(SoundHouse())
    assert "NOTHING TELLS" not in report
    assert "Nobody walks more than 8'-0\" unseen." in report
    assert "claims to meet a fire rule" in " ".join(report.split())


def test_json_is_one_object_with_states_ways_and_sound(told):
    answer = json.loads(told(SoundHouse(), "--json"))
    assert set(answer) == {"states", "ways_in", "unseen", "no_way", "sound"}
    assert [heard["thing"] for heard in answer["sound"]["beds"]] == ["bed1"]


def test_empty_plan_is_answered(told):
    house = SoundHouse().bare()
    house.value["levels"][0] |= {"walls": [], "openings": [], "fixtures": [], "rooms": []}
    assert "No motion detector is planned" in told(house)
