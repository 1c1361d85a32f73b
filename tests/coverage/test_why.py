"""The reason given for a pane is the true one: too far and by how much, hidden by what, nobody in the room."""

from __future__ import annotations

import math
from typing import Any

from app.plan.measures import feet_inches
from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.coverage.test_mend import den


def panes_of(plan: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {pane["id"]: pane for pane in check_plan(plan_from(plan))["panes"]}


def test_covered_tells_the_farthest_point_and_the_limit() -> None:
    pane = panes_of(den((15, 6)))["right/1"]
    farthest = math.sqrt(2**2 + 6**2 + 6.5**2)
    assert pane["status"] == "covered"
    assert pane["why"] == f"GB-1 covers it: its farthest point is {feet_inches(farthest)} away, limit 15'-0\"."


def test_covered_in_part_as_the_practice_allows_says_the_share() -> None:
    plan = den((15, 13.7)) | {"practice": {"glass.required_fraction": 0.3}}
    plan["levels"][0]["fixtures"] = []
    pane = panes_of(plan)["right/1"]
    assert pane["status"] == "covered"
    share = f"{pane['best']['fraction'] * 100:.0f} %"
    assert pane["why"] == f"GB-1 covers {share} of it, which is what the practice asks for."


def test_a_sliver_is_less_than_one_percent_not_none() -> None:
    plan = den((15, 6))
    near = math.sqrt(6**2 + (9 - 6.667) ** 2)
    plan["levels"][0]["devices"][0]["range"] = near + 0.01
    pane = panes_of(plan)["right/1"]
    assert pane["status"] == "partial"
    assert 0.0005 < pane["best"]["fraction"] < 0.01
    assert pane["why"].startswith("GB-1 covers less than 1 % of it: its farthest point is")


def test_too_far_tells_by_how_much() -> None:
    plan = den((15, 13.7))
    plan["levels"][0]["fixtures"] = []
    pane = panes_of(plan)["right/1"]
    over = math.sqrt(2**2 + 13.7**2 + 6.5**2) - 15
    assert pane["status"] == "partial"
    assert f"{feet_inches(over)} beyond the 15'-0\" range" in pane["why"]


def test_hidden_names_what_hides_it() -> None:
    pane = panes_of(den((19, 1), case_top=9.0))["left/2"]
    assert pane["status"] == "uncovered"
    assert "hidden by bookcase" in pane["why"]


def test_partly_hidden_says_the_share_and_the_thing() -> None:
    pane = panes_of(den((12, 5), case_top=9.0))["left/2"]
    assert pane["status"] == "partial"
    assert "bookcase" in pane["why"]
    assert f"{pane['best']['fraction'] * 100:.0f} %" in pane["why"]


def test_nobody_in_the_room_names_the_nearest_and_the_wall_between() -> None:
    plan = den((15, 6))
    level = plan["levels"][0]
    level["walls"].append({"id": "between", "a": [10, 0], "b": [10, 14]})
    level["fixtures"] = []
    level["rooms"] = [{"id": "a", "name": "Study", "at": [5, 7]}, {"id": "b", "name": "Den", "at": [15, 7]}]
    pane = panes_of(plan)["left/1"]
    assert pane["status"] == "uncovered"
    assert pane["why"].startswith("Nobody listens in Study; to the nearest, GB-1,")
    assert "hidden by wall between (Study/Den)" in pane["why"]


def test_edge_on_is_said_and_found() -> None:
    plan = den((10, 0))
    plan["levels"][0]["devices"][0]["at"] = [10, 0]
    plan["levels"][0]["walls"][0]["height"] = 7.0
    answer = check_plan(plan_from(plan))
    assert all(pane["status"] == "uncovered" for pane in answer["panes"])
    assert any("edge-on" in pane["why"] for pane in answer["panes"])
    assert "glass.edge_on" in {finding["rule"] for finding in answer["findings"]}


def test_a_detector_in_a_bookcase_covers_nothing_and_is_found() -> None:
    answer = check_plan(plan_from(den((9.5, 1.5), case_top=9.0)))
    assert {pane["status"] for pane in answer["panes"]} == {"uncovered"}
    found = next(finding for finding in answer["findings"] if finding["rule"] == "device.in_solid")
    assert found["severity"] == "must"
    assert set(found["things"]) == {"gb", "case"}
