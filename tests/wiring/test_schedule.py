"""The schedule: the keys of contract §4, sums that agree, and no text that a spreadsheet would run."""

import csv
import io
import json

import pytest

from app.wiring.answer import pulls_answer
from app.wiring.schedule.rows import PULL_HEADINGS
from app.wiring.schedule.schedule import compile_schedule
from app.wiring.schedule.text import harmless, schedule_csv, schedule_text
from tests.wiring.houses import device, level, plan

HOUSE = plan(
    [
        level(
            0,
            [
                device("can", "can", (35, 6)),
                device("gb", "glass_break", (10, 12)),
                device("kp", "keypad", (20, 3)),
                device("wc", "window_contact", (0, 10)),
            ],
        ),
        level(1, [device("sr", "siren", (5, 5))]),
    ]
)
EVIL = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1")


def test_answer_has_the_keys_of_the_contract_and_is_json():
    answer = json.loads(json.dumps(pulls_answer(HOUSE), allow_nan=False))
    assert answer.keys() >= {"pulls", "boxes", "totals"}
    for pull in answer["pulls"]:
        assert pull.keys() >= {"label", "device", "level", "room", "cable", "route", "measured_ft", "cut_ft"}
    for box in answer["boxes"]:
        assert box.keys() >= {"cable", "size_ft", "pulls", "used_ft", "left_ft"}
    for total in answer["totals"].values():
        assert total.keys() >= {"pulls", "measured_ft", "cut_ft", "bought_ft"}


def test_unreached_pull_has_null_route_and_lengths_and_no_box():
    answer = pulls_answer(HOUSE)
    siren = next(pull for pull in answer["pulls"] if pull["label"] == "sr")
    assert (siren["route"], siren["measured_ft"], siren["cut_ft"]) == (None, None, None)
    assert all("sr" not in box["pulls"] for box in answer["boxes"])
    assert answer["totals"]["18/2"] == {"pulls": 1, "measured_ft": 0, "cut_ft": 0, "bought_ft": 0}


def test_totals_add_up():
    answer = pulls_answer(HOUSE)
    for cable, total in answer["totals"].items():
        routed = [pull for pull in answer["pulls"] if pull["cable"] == cable and pull["route"]]
        boxes = [box for box in answer["boxes"] if box["cable"] == cable]
        assert total["measured_ft"] == pytest.approx(sum(pull["measured_ft"] for pull in routed))
        assert total["cut_ft"] == sum(pull["cut_ft"] for pull in routed) == sum(box["used_ft"] for box in boxes)
        assert total["bought_ft"] == sum(box["size_ft"] for box in boxes)
        assert all(box["left_ft"] == box["size_ft"] - box["used_ft"] for box in boxes)


def test_plan_without_devices_answers_with_nothing():
    answer = pulls_answer(plan([level(0, [])]))
    assert (answer["pulls"], answer["boxes"], answer["totals"]) == ([], [], {})


def test_csv_has_a_row_a_pull():
    rows = list(csv.reader(io.StringIO(schedule_csv(compile_schedule(HOUSE)))))
    assert rows[0] == list(PULL_HEADINGS)
    assert [row[0] for row in rows[1:]] == ["gb", "kp", "wc", "sr"]
    assert rows[1][8] == "48"


@pytest.mark.parametrize("text", EVIL)
def test_csv_cells_that_look_like_formulas_are_text(text):
    assert harmless(text) == f"'{text}"


def test_csv_of_a_plan_with_formulas_for_names_starts_no_cell_with_one():
    house = plan([level(0, [device(f"d{n}", "other", (5, 5), label=text, cable=text) for n, text in enumerate(EVIL)])])
    for row in csv.reader(io.StringIO(schedule_csv(compile_schedule(house)))):
        assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for cell in row)


def test_text_names_what_cannot_be_wired():
    text = schedule_text(compile_schedule(HOUSE))
    assert "sr: no can can be reached" in text
    assert "22/4 #1" in text
