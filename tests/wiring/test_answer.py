"""The whole answer: plain JSON, and its parts speak of the same pulls."""

import json

from app.wiring.answer import pulls_answer
from tests.wiring.houses import device, level, plan, riser

HOUSE = plan(
    [
        level(
            0, [device("can", "can", (35, 6)), device("kp", "keypad", (20, 3)), device("wc", "window_contact", (0, 9))]
        ),
        level(1, [device("sr", "siren", (5, 5)), device("gb", "glass_break", (9, 9), cable="grey")]),
    ],
    [riser("r", (30, 8), "L1", "L0")],
)


def test_answer_is_json_without_infinities():
    answer = pulls_answer(HOUSE)
    assert json.loads(json.dumps(answer, allow_nan=False)).keys() == answer.keys()


def test_parts_speak_of_the_same_pulls():
    answer = pulls_answer(HOUSE)
    labels = {pull["label"] for pull in answer["pulls"]}
    assert set(answer["tags"]) == labels
    assert {label for zone in answer["zones"] for label in zone["pulls"]} == {"wc", "gb"}
    assert {feed["label"] for feed in answer["feeds"]} == {"kp", "sr", "gb"}
    assert {stop["label"] for room in answer["rough_in"]["rooms"] for stop in room["stops"]} == labels


def test_feed_over_a_cable_of_no_known_gauge_has_nulls():
    feed = next(feed for feed in pulls_answer(HOUSE)["feeds"] if feed["label"] == "gb")
    assert feed["hot_volts"] is None
    assert feed["longest_ft"] is None


def test_supply_tells_its_loads_beside_its_limits_and_the_batterys_basis():
    (supply,) = pulls_answer(HOUSE)["supplies"]
    assert (supply["auxiliary_alarm_ma"], supply["auxiliary_limit_ma"]) == (140, 500)
    assert (supply["siren_alarm_ma"], supply["siren_limit_ma"]) == (500, 1000)
    assert supply["battery"]["standby_hours"] == 4
    assert "NFPA 72-2022" in supply["battery"]["edition"]


def test_bundles_lie_on_both_levels():
    assert {bundle["level"] for bundle in pulls_answer(HOUSE)["bundles"]} == {"L0", "L1"}
