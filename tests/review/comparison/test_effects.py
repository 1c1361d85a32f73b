"""What changes do: panes by their proof, cable by the foot, boxes, zones, battery and findings."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

from app.review.comparison.answer import Comparison
from app.review.house import House
from tests.review.comparison.edits import Value, house, plan, thing


def answer(change: Callable[[Value], Any], before: Value | None = None) -> dict[str, Any]:
    old = before or house()
    new = copy.deepcopy(old)
    change(new)
    return Comparison(House(plan(old)), House(plan(new))).answer


def test_nothing_changed_does_nothing() -> None:
    same = answer(lambda value: None)
    for key in ("changes", "panes", "cable", "pulls", "boxes", "battery"):
        assert same[key] == [], key
    assert same["findings"] == {"new": [], "gone": []}
    assert same["summary"]["changes"] == 0


def test_a_detector_moved_away_uncovers_its_pane() -> None:
    moved = answer(lambda value: thing(value, "L1-g0").update(at=[29, 19]))
    pane = next(pane for pane in moved["panes"] if pane["id"] == "L1-o0/1")
    assert (pane["from"]["status"], pane["from"]["device"], pane["to"]["status"]) == ("covered", "L1-g0", "uncovered")


def test_a_pull_that_became_longer_is_told_in_feet_to_cut() -> None:
    moved = answer(lambda value: thing(value, "L1-m0").update(at=[1, 1]))
    (pull,) = moved["pulls"]
    assert pull["label"] == "L1-m0"
    # From 1 ft north of the can to 17 ft south of it: 16 ft more, with a tenth of waste, in whole feet.
    assert pull["to"]["cut_ft"] - pull["from"]["cut_ft"] in (17, 18)
    (cable,) = moved["cable"]
    assert cable["cut_ft"]["to"] - cable["cut_ft"]["from"] == pull["to"]["cut_ft"] - pull["from"]["cut_ft"]


def test_a_device_added_brings_a_pull_and_one_removed_takes_its_away() -> None:
    def swap(value: Value) -> None:
        value["levels"][0]["devices"] = [one for one in value["levels"][0]["devices"] if one["id"] != "L1-c0"]
        value["levels"][0]["devices"].append({"id": "siren", "kind": "siren", "at": [5, 5]})

    swapped = answer(swap)
    assert {(pull["label"], pull["from"] is None, pull["to"] is None) for pull in swapped["pulls"]} == {
        ("siren", True, False),
        ("L1-c0", False, True),
    }
    assert {row["cable"] for row in swapped["cable"]} == {"18/2", "22/2"}
    assert any(box["cable"] == "18/2" and (box["from"], box["to"]) == (0, 1) for box in swapped["boxes"])


def test_a_finding_that_came_is_gone_again_on_the_way_back() -> None:
    def spoil(value: Value) -> None:
        thing(value, "L1-g0").update(at=[29, 19])

    spoilt = house()
    spoil(spoilt)
    there, back = answer(spoil), answer(lambda value: thing(value, "L1-g0").update(at=[12, 6]), spoilt)
    assert there["findings"]["new"]
    assert [f["message"] for f in there["findings"]["new"]] == [f["message"] for f in back["findings"]["gone"]]


def test_a_renamed_window_and_detector_change_no_proof_and_no_cable() -> None:
    def rename(value: Value) -> None:
        thing(value, "L1-o0").update(id="W1")
        thing(value, "L1-g0").update(id="GB1")

    renamed = answer(rename)
    assert renamed["words"] == "2 renamed"
    assert (renamed["panes"], renamed["pulls"], renamed["findings"]) == ([], [], {"new": [], "gone": []})
