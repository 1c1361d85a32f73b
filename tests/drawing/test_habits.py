"""Sheet habits: frames, marks, numbers and dates; and the parts of a level that takes several sheets."""

from __future__ import annotations

from itertools import pairwise
from typing import Any
from xml.etree import ElementTree

import pytest

from app.drawing.sheet import sheet_context
from app.drawing.sheets.paper.habits import HABITS, ISO, UNITED_STATES, habit_for
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import fit_best
from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.drawing.a_house import house, house_value
from tests.drawing.svg_reading import SVG, by_class, words


def printed(**choices: str) -> dict[str, Any]:
    plan = house()
    return sheet_context(plan, check_plan(plan), revision=7, saved_at="2026-03-05T10:20:30Z", **choices)


def drawn(sheet: dict[str, Any]) -> ElementTree.Element:
    return ElementTree.fromstring(sheet["svg"])


def test_habit_and_paper_follow_the_plan_s_units_unless_chosen() -> None:
    metric = plan_from(house_value() | {"units": "metric"})
    found = sheet_context(metric, check_plan(metric), revision=1, saved_at="")
    assert (found["habit"], found["paper"]) == ("iso", "a4")
    assert (printed()["habit"], printed()["paper"]) == ("us", "letter")
    assert (printed(habit="iso")["habit"], printed(habit="iso")["paper"]) == ("iso", "a4")
    assert {habit_for(units).key for units in ("imperial", "metric")} == set(HABITS)


def test_an_unknown_habit_is_refused_with_those_there_are() -> None:
    with pytest.raises(ValueError, match="none of us, iso"):
        printed(habit="martian")


def test_days_and_numbers_are_written_by_the_habit() -> None:
    assert UNITED_STATES.day("2026-03-05T10:20:30+00:00") == "Mar 5, 2026 10:20"
    assert UNITED_STATES.day("2026-03-05") == "Mar 5, 2026"
    assert UNITED_STATES.day("not yet") == "not yet"
    assert ISO.day("2026-03-05T10:20:30+00:00") == "2026-03-05 10:20"
    assert (UNITED_STATES.number(101), ISO.number(101)) == ("TY-101", "101")
    texts = {word.text for word in words(drawn(printed(habit="iso", paper="a3", scale="1/4")["sheets"][1]))}
    assert {"101", "1:48", "Date of issue", "2026-03-05 10:20"} <= texts


@pytest.mark.parametrize("paper", ["a4", "a3", "a2", "a1"])
def test_iso_frames_keep_a_margin_to_file_by_and_marks_at_the_middles(paper: str) -> None:
    size = PAPERS[paper].by(ISO)
    left, top, right, bottom = size.frame
    assert (left, top, size.width - right, size.height - bottom) == (20, 10, 10, 10)
    border = by_class(drawn(printed(habit="iso", paper=paper)["sheets"][0]), "border")[0]
    ends = {
        (float(line.attrib[f"x{n}"]), float(line.attrib[f"y{n}"])) for line in border.iter(f"{SVG}line") for n in (1, 2)
    }
    middles = {(size.width / 2, 0), (size.width / 2, size.height), (0, size.height / 2), (size.width, size.height / 2)}
    assert middles <= ends
    numbers = [word.text for word in words(border)]
    assert ("A" in numbers) == (size.width > 400)


def test_arch_sheets_are_bound_on_the_left() -> None:
    left, _, right, _ = PAPERS["arch_d"].frame
    assert (left / 25.4, 36 - right / 25.4) == pytest.approx((1.5, 0.5))
    assert not list(by_class(drawn(printed(paper="arch_d")["sheets"][0]), "border")[0])


@pytest.mark.parametrize("paper", ["a3", "a2", "a1"])
def test_folds_leave_a_packet_of_a4_with_the_title_block_in_front(paper: str) -> None:
    size = PAPERS[paper]
    across, down = ISO.folds((size.width, size.height))
    panels = [second - first for first, second in pairwise([0, *across, size.width])]
    assert panels[-1] == 190
    assert max(panels) <= 210
    assert all(y > 0 and size.height - y == 297 for y in down)
    assert bool(down) == (size.height > 297)


def test_a_level_on_several_sheets_has_a_key_that_shows_which_part_this_is() -> None:
    parts = [sheet for sheet in printed(scale="1/4")["sheets"] if "part" in sheet["title"]]
    assert len(parts) >= 2
    for sheet in parts:
        (key,) = by_class(drawn(sheet), "part-key")
        named = {word.text: word for word in words(key)}
        assert set(named) == {part["number"] for part in parts}
        bold = [text.text for text in key.iter(f"{SVG}text") if text.get("font-weight") == "bold"]
        assert bold == [sheet["number"]]


def test_a_level_on_one_sheet_has_no_key() -> None:
    assert not any(by_class(drawn(sheet), "part-key") for sheet in printed(paper="arch_d")["sheets"])


def test_parts_are_drawn_as_large_as_their_number_allows() -> None:
    # 3/32" would take two sheets; so does 1/8", which is larger.
    fit = fit_best((95, 40), (208, 198), 31.5, "imperial")
    assert (fit.scale.key, fit.across * fit.down) == ("1/8", 2)
