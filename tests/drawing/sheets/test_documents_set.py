"""Documents and guide, read back: what the plan knows is printed, what only people know is blank, sources are named."""

from __future__ import annotations

from typing import Any

import pytest

from app.drawing.sheets.guide.places import PLACES
from app.drawing.sheets.paper.papers import PAPERS
from app.plan.devices import DEVICE_KINDS
from app.review.check import check_plan
from tests.drawing.a_house import house
from tests.drawing.sheets.a_guarded_house import DEVICES, guarded
from tests.drawing.sheets.reading import line_with, only, sheets_of, text_of
from tests.drawing.svg_reading import SVG


def document(title: str, **changes: Any) -> Any:
    return only(sheets_of(guarded(**changes), "documents", "letter"), title)


def test_each_document_of_the_list_begins_a_sheet_of_its_own() -> None:
    titles = [name.split(" ", 1)[1] for name in sheets_of(guarded(), "documents", "arch_d")]
    assert titles == [
        "Cover",
        "Site survey",
        "System design proposal, acceptance",
        "Circuits",
        "As-fitted record",
        "Walk test",
        "Handover and completion",
        "Log book",
    ]


def test_the_proposal_lists_every_circuit_with_its_device_cover_and_entry_time() -> None:
    circuits = document("Circuits")
    assert "final exit DC-1, Door contact Great room opening of d1 30 s" in line_with(circuits, "1")
    text = text_of(circuits)
    assert "alarm, perimeter GB-1, Glass-break detector Great room glass within 15'-0\": w1/1 9'-4 1/2\"" in text
    assert "40'-0\" × 90° unobstructed: Great room" in text
    assert "by others SM-1" in text
    assert "may be changed by the installer in agreement with the customer" in text
    assert "45 s" in line_with(document("Circuits", practice={"entry.delay": 45}), "1")


def test_the_proposal_says_extent_and_limits_and_leaves_grade_and_monitoring_blank() -> None:
    text = text_of(document("System design proposal"))
    for words in (
        "1 level (Ground floor), 2 named rooms",
        "2 outer openings have no contact",
        "as seen standing outside and facing the front",
        "Entry and exit routes: d",
        "Warning devices: SR-1 in Great room",
        "Environmental class",
        "Receiving centre",
    ):
        assert words in text, words
    assert "items marked * from memory" in text_of(document("acceptance"))


@pytest.mark.parametrize("title", ["As-fitted", "Walk test"])
def test_every_device_has_a_row_to_fill_in(title: str) -> None:
    text = text_of(document(title))
    for device in DEVICES:
        assert f" {device['label']} " in text


def test_the_survey_prints_what_the_plan_knows() -> None:
    text = text_of(document("Site survey"))
    assert "3 windows and 1 door to the outside, 4 of them open" in text
    assert "CLC/TS 50131-7" in text


def test_handover_names_what_is_to_be_shown_and_what_is_still_open() -> None:
    text = text_of(document("Handover"))
    assert "Keypads: KP-1 in Great room" in text
    open_ones = [one["message"] for one in check_plan(guarded())["findings"] if one["severity"] != "note"]
    assert len(open_ones) > 2
    assert all(message in text for message in open_ones)
    assert "CSAA STA 1 Guide 2.2, 2.3" in text
    assert "claims no conformity" in text


def test_the_log_book_is_ruled_to_write_in() -> None:
    sheets = document("Log book").values()
    rects = [part for sheet in sheets for part in sheet.iter(f"{SVG}rect")]
    boxes = [part for part in rects if float(part.get("height", "0")) > 6]
    assert len(boxes) >= 36 * 6


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("units", ["imperial", "metric"])
def test_the_guide_is_one_sheet_on_every_paper(paper: str, units: str) -> None:
    practice = dict.fromkeys(("keypad.height", "can.height", "siren.height", "motion.height"), 7.5)
    assert len(sheets_of(guarded(units=units, practice=practice), "guide", paper)) == 1


def test_the_guide_has_a_place_for_every_kind_of_device() -> None:
    assert set(PLACES) == {kind.kind for kind in DEVICE_KINDS}
    text = text_of(sheets_of(house(), "guide"))
    for kind in DEVICE_KINDS:
        assert kind.name.split(" (")[0] in text


def test_the_guide_follows_the_practice_and_marks_what_is_set_otherwise() -> None:
    usual = text_of(sheets_of(guarded(), "guide"))
    assert "in a straight line within 15'-0\"" in usual
    assert "•" not in usual
    own = text_of(sheets_of(guarded(practice={"glass.range": 12, "keypad.height": 4, "cable.siren": "16/2"}), "guide"))
    assert "in a straight line within 12'-0\"" in own
    assert "16/2 •" in own
    assert "set for this plan" in own


def test_the_guide_names_no_client_and_is_not_confidential() -> None:
    plan = guarded(site={"client": "N. Ferrin", "address": "4 Quarry Lane"})
    text = text_of(sheets_of(plan, "guide"))
    assert "N. Ferrin" not in text
    assert "4 Quarry Lane" not in text
    assert "shows where detectors are" not in text
    assert "shows where detectors are" in text_of(sheets_of(plan, "crew"))
