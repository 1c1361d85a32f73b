"""The homeowner's set, read back: cover, each opening by the check's status, choices that follow from the plan."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from app.plan.reading import plan_from, read_plan_file
from app.review.check import check_plan
from tests.drawing.a_house import house
from tests.drawing.sheets.a_guarded_house import guarded, guarded_value
from tests.drawing.sheets.reading import line_with, only, sheets_of, text_of
from tests.drawing.svg_reading import by_class

SAMPLES = Path(__file__).parents[3] / "sample_plans"
WORST = ("uncovered", "partial", "covered")
SAID = {"covered": "covered", "partial": "partly", "uncovered": "not"}


def openings_table(plan: Any, **choices: Any) -> Any:
    return only(sheets_of(plan, "homeowner", "letter", **choices), "Each opening")


@pytest.mark.parametrize("name", ["amber-ridge", "cobble-court"])
def test_every_opening_stands_in_a_table_with_the_check_s_status(name: str) -> None:
    plan = read_plan_file(SAMPLES / f"{name}.json")
    panes = check_plan(plan)["panes"]
    text = text_of(only(sheets_of(plan, "homeowner", "letter"), "pening"))
    for level in plan.levels:
        for opening in level.openings:
            assert f" {opening.id} " in text
            statuses = [pane["status"] for pane in panes if pane["opening"] == opening.id]
            if statuses:
                worst = SAID[min(statuses, key=WORST.index)]
                row = text.split(f" {opening.id} ", 1)[1][:160]
                assert re.search(rf"\b{worst}\b", row), (opening.id, worst, row)


def test_an_opening_s_row_says_what_it_is_who_hears_it_and_what_guards_it() -> None:
    table = openings_table(guarded())
    row = line_with(table, "w1")
    best = max(pane["best"]["farthest_ft"] for pane in check_plan(guarded())["panes"] if pane["opening"] == "w1")
    assert row.startswith("w1 Great room Window, 2 lites 6'-0\" × 3'-6\" yes, WC-1 covered GB-1, ")
    assert "of 15'-0\" MD-1 at once at once" in row
    feet, inches = re.search(r"GB-1, (\d+)'-(\d+)", row).groups()  # type: ignore[union-attr]
    assert int(feet) + int(inches) / 12 == pytest.approx(best, abs=1 / 12)
    assert "w2 Den Window" in line_with(table, "w2")
    assert "Gap: it has no contact: nothing at the opening tells when it is opened; no one detector hears all of" in (
        text_of(table)
    )


def test_a_contact_taken_away_opens_a_gap_in_the_table() -> None:
    value = guarded_value()
    value["levels"][0]["devices"] = [one for one in value["levels"][0]["devices"] if one["id"] != "dc"]
    assert "yes, DC-1" in line_with(openings_table(guarded()), "d1")
    bare = openings_table(plan_from(value))
    assert " no no glass " in line_with(bare, "d1")
    assert "In away MD-1 tells once somebody is inside." in text_of(bare)


def test_openings_between_rooms_stand_in_a_table_of_their_own() -> None:
    row = line_with(openings_table(guarded()), "c1")
    assert row.startswith("c1 ")
    assert "Great room" in row
    assert "Den" in row
    assert "Cased opening" in row


def test_a_metric_plan_is_told_in_metres() -> None:
    table = openings_table(guarded(units="metric"))
    assert "1.83 m × 1.07 m" in line_with(table, "w1")
    assert "of 4.57 m" in line_with(table, "w1")


def test_choices_follow_from_what_the_plan_leaves_open() -> None:
    text = text_of(sheets_of(guarded(), "homeowner"))
    for asked in (
        "The job: who or where is the client, address, designer?",
        "OT-1: what is it to be (perhaps a beam)?",
        "Keypads: does anybody need them within reach from a chair, at 4'-0\" or lower?",
        "Animals: do any roam the house",
        "Battery: how long must it carry the system",
        "1 recorded as placed by others",
    ):
        assert asked in text, asked


def test_choices_that_are_made_are_not_asked_again() -> None:
    practice = {"keypad.reach_required": "not_asked", "battery.basis": "premises_24h", "entry.delay": 45}
    site = {"client": "N. Ferrin", "address": "4 Quarry Lane", "designer": "J. Ash"}
    text = text_of(sheets_of(guarded(practice=practice, site=site), "homeowner"))
    for asked in ("The job:", "Keypads: does anybody", "how long must it carry", "Entry delay:"):
        assert asked not in text, asked


def test_a_device_without_cable_is_a_choice() -> None:
    value = guarded_value()
    value["levels"][0]["devices"][4]["cable"] = ""
    assert "GB-1: which cable does it get?" in text_of(sheets_of(plan_from(value), "homeowner"))


def test_an_accepted_finding_stands_apart_with_reason_and_name() -> None:
    refused = text_of(sheets_of(guarded(), "homeowner"))
    assert "ACCEPTED AS IT IS" not in refused
    notes = "accepted glass.uncovered w2 w2/1: seldom used - R. Calloway"
    finding = next(one for one in check_plan(guarded())["findings"] if one["rule"] == "glass.uncovered")
    notes = f"accepted {finding['rule']} {' '.join(finding['things'])}: seldom used - R. Calloway"
    text = text_of(sheets_of(guarded(site={"notes": notes}), "homeowner"))
    assert "ACCEPTED AS IT IS AGREED" in text
    assert "Accepted by R. Calloway: seldom used" in text


def test_stay_tells_what_it_gives_up_room_by_room() -> None:
    text = text_of(sheets_of(guarded(), "homeowner"))
    assert "GIVEN UP In stay" in text
    assert "of floor that away watches are not watched." in text
    assert "Great room 2 contacts, GB-1 hears glass, gap at" in text
    assert "COMING IN At a slow walk by d" in text
    assert "GIVEN UP" not in text_of(sheets_of(house(devices=[]), "homeowner"))


def test_the_cover_says_whose_house_it_is_and_lists_the_very_sheets() -> None:
    site = {"client": "N. Ferrin", "address": "4 Quarry Lane", "designer": "J. Ash"}
    sheets = sheets_of(guarded(site=site), "homeowner")
    (name, cover), *others = sheets.items()
    assert name == "TY-001 Cover"
    text = text_of(cover)
    for words in ("Two rooms", "4 Quarry Lane", "N. Ferrin", "J. Ash", "Confidential: shows where detectors are"):
        assert words in text
    for number_and_title in (name for name, _ in others):
        number, title = number_and_title.split(" ", 1)
        assert f"{number} {title}" in text
    (plans,) = by_class(cover, "key-plans")
    assert len(by_class(plans, "key-plan")) == 1
    assert "Ground floor" in text_of(plans)


def test_the_cover_s_figures_are_the_check_s() -> None:
    plan = guarded()
    summary = check_plan(plan)["summary"]
    text = text_of(next(iter(sheets_of(plan, "homeowner").values())))
    assert f"{summary['covered']} of {summary['panes']} panes of glass are heard whole by one detector" in text
    assert f"{summary['must']} finding" in text
    assert "2 of 4 outer doors and windows that open have a contact" in text


def test_parts_of_one_plan_share_a_line_of_the_contents() -> None:
    sheets = sheets_of(guarded(), "homeowner", "letter", scale="1/4")
    assert "TY-101 to 102 Security plan" in text_of(next(iter(sheets.values())))
