"""The printed set: papers, scales, match lines, schedules that flow, and every word in its place."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from app.drawing.house.walls import POCHE
from app.drawing.lettering import SMALLEST, shortened, text_width, wrapped
from app.drawing.sheet import sheet_context
from app.drawing.sheets.paper.habits import habit_for
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import SCALES, fit_asked, fit_best
from app.drawing.sheets.setting.flow import Block, balanced, columns_of
from app.plan.model import Plan
from app.plan.reading import plan_from, read_plan_file
from app.review.check import check_plan
from app.storage.samples import sample_names
from app.web.templates import TEMPLATES
from tests.drawing.a_house import house, house_value
from tests.drawing.svg_reading import SVG, by_class, lie_over, words

SAMPLES = sorted((TEMPLATES.parent / "sample_plans").glob("*.json"))


def printed(plan: Plan, paper: str = "letter", scale: str = "auto") -> dict[str, Any]:
    return sheet_context(plan, check_plan(plan), paper=paper, scale=scale, revision=7, saved_at="2026-03-05T10:20:30Z")


def sheets(plan: Plan, paper: str = "letter", scale: str = "auto") -> list[ElementTree.Element]:
    return [ElementTree.fromstring(sheet["svg"]) for sheet in printed(plan, paper, scale)["sheets"]]


def plan_sheet(plan: Plan, paper: str = "letter", scale: str = "auto") -> ElementTree.Element:
    return next(sheet for sheet in sheets(plan, paper, scale) if by_class(sheet, "plan-sheet"))


def said(plan: Plan, **options: str) -> str:
    return " ".join(word.text for sheet in sheets(plan, **options) for word in words(sheet))


@pytest.mark.parametrize("paper", PAPERS)
def test_sheets_have_the_paper_s_exact_size(paper: str) -> None:
    size = PAPERS[paper]
    for sheet in sheets(house(), paper):
        assert sheet.attrib["width"] == f"{size.width:g}mm"
        assert sheet.attrib["height"] == f"{size.height:g}mm"
        assert sheet.attrib["viewBox"] == f"0 0 {size.width:g} {size.height:g}"


def test_papers_are_the_published_sizes() -> None:
    inches = {name: (paper.width / 25.4, paper.height / 25.4) for name, paper in PAPERS.items()}
    assert inches["letter"] == pytest.approx((11, 8.5))
    assert inches["tabloid"] == pytest.approx((17, 11))
    assert inches["arch_c"] == pytest.approx((24, 18))
    assert inches["arch_d"] == pytest.approx((36, 24))
    assert (PAPERS["a4"].width, PAPERS["a4"].height) == (297, 210)
    assert (PAPERS["a3"].width, PAPERS["a3"].height) == (420, 297)
    assert (PAPERS["a2"].width, PAPERS["a2"].height) == (594, 420)
    assert (PAPERS["a1"].width, PAPERS["a1"].height) == (841, 594)


@pytest.mark.parametrize(("key", "ratio"), [("1/4", 48), ("3/16", 64), ("1/8", 96), ("3/32", 128), ("1:50", 50)])
def test_scales_are_their_ratio(key: str, ratio: float) -> None:
    assert SCALES[key].ratio == ratio


@pytest.mark.parametrize("scale", ["1/4", "1/8", "1:50", "1:100"])
def test_house_is_drawn_at_the_scale_that_is_stated(scale: str) -> None:
    first = plan_sheet(house(), "tabloid", scale)
    walls = next(part for part in by_class(first, "walls")[0] if part.get("fill") == POCHE)
    xs = [float(x) for x in re.findall(r"[ML](-?\d+\.\d+) ", walls.attrib["d"])]
    # the outer walls' centrelines are 30 ft apart and ½ ft thick
    assert max(xs) - min(xs) == pytest.approx(30.5 * 304.8 / SCALES[scale].ratio, abs=2e-3)
    assert SCALES[scale].words in {word.text for word in words(first)}


def test_automatic_scale_is_the_largest_that_fits() -> None:
    assert printed(house(), "arch_d")["sheets"][1]["scale"] == '1/4" = 1\'-0"'
    assert fit_best((40, 30), (208, 198), 31.5, "imperial").scale.key == "1/8"
    assert fit_best((27, 25), (208, 198), 31.5, "imperial").scale.key == "1/4"
    assert fit_best((12, 10), (250, 190), 31.5, "metric").scale.key == "1:50"


def test_levels_share_one_scale() -> None:
    value = house_value()
    small = {"id": "L2", "name": "Loft", "walls": [{"id": "x", "a": [0, 0], "b": [6, 0]}]}
    value["levels"].append(small)
    found = printed(plan_from(value))["sheets"][1:]
    assert [sheet["number"] for sheet in found][:2] == ["TY-101", "TY-102"]
    assert found[0]["scale"] == found[1]["scale"]


def test_plan_too_large_for_its_scale_goes_on_sheets_with_match_lines() -> None:
    found = printed(house(), "letter", "1/4")["sheets"]
    parts = [sheet for sheet in found if sheet["number"].startswith("TY-1")]
    assert len(parts) == 2
    texts = [{word.text for word in words(ElementTree.fromstring(part["svg"]))} for part in parts]
    assert "MATCH LINE, SEE TY-102" in texts[0]
    assert "MATCH LINE, SEE TY-101" in texts[1]
    for name in ("GREAT ROOM", "DEN", "GB-1"):
        assert sum(name in text for text in texts) == 1, name


def test_a_scale_that_would_take_too_many_sheets_gives_way() -> None:
    assert fit_asked(SCALES["1/4"], (900, 900), (200, 190), 31.5, "imperial").scale.ratio > 48


def test_a_plan_as_large_as_plans_may_be_is_printed_on_one_sheet() -> None:
    walls = [{"id": "far", "a": [-10000, -10000], "b": [10000, 10000]}]
    found = printed(house(walls=walls, openings=[], rooms=[], devices=[], fixtures=[]))["sheets"]
    assert sum(sheet["number"].startswith("TY-1") for sheet in found) == 1


def test_unknown_paper_and_scale_are_refused_with_those_there_are() -> None:
    with pytest.raises(ValueError, match="letter, tabloid"):
        printed(house(), "foolscap")
    with pytest.raises(ValueError, match="auto, 1/4"):
        printed(house(), "letter", "1/3")


@cache
def sample_sheets(path: Path, paper: str) -> list[ElementTree.Element]:
    return sheets(read_plan_file(path), paper)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("paper", ["letter", "tabloid", "a4", "arch_d"])
def test_every_word_of_a_sample_is_large_enough_and_inside_the_frame(path: Path, paper: str) -> None:
    habit = habit_for(read_plan_file(path).units)
    low_x, low_y, high_x, high_y = PAPERS[paper].by(habit).frame
    for sheet in sample_sheets(path, paper):
        outside = {word for part in by_class(sheet, "border") for word in words(part)}
        for word in (word for word in words(sheet) if word not in outside):
            left, top, right, bottom = word.box
            assert word.size >= SMALLEST - 1e-3, word
            assert left >= low_x - 0.1, word
            assert top >= low_y - 0.1, word
            assert right <= high_x + 0.1, word
            assert bottom <= high_y + 0.1, word


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("paper", ["letter", "tabloid", "a4", "arch_d"])
def test_no_words_of_a_schedule_lie_over_one_another(path: Path, paper: str) -> None:
    for sheet in sample_sheets(path, paper):
        if by_class(sheet, "schedule-sheet"):
            found = list(words(sheet))
            over = [(a.text, b.text) for n, a in enumerate(found) for b in found[:n] if lie_over(a.box, b.box)]
            assert over == []


def test_samples_are_there_to_be_looked_at() -> None:
    assert len(SAMPLES) == len(sample_names())


def test_plan_sheet_carries_what_a_crew_reads_first() -> None:
    value = house_value() | {"site": {"client": "N. Ferrin", "address": "4 Quarry Lane", "designer": "J. Ash"}}
    first = plan_sheet(plan_from(value))
    texts = {word.text for word in words(first)}
    assert {"Two rooms", "N. Ferrin", "4 Quarry Lane", "J. Ash", "7", "Mar 5, 2026 10:20", "TY-101", "N"} <= texts
    assert "Confidential: shows where detectors are" in texts
    assert by_class(first, "scale-bar")
    assert by_class(first, "north")


def test_legend_has_what_is_used_and_no_more() -> None:
    legend = by_class(plan_sheet(house()), "legend")[0]
    texts = " ".join(word.text for word in words(legend))
    assert "GB: Glass-break detector" in texts
    assert "MD: Motion detector" in texts
    assert "Cased opening" in texts
    assert "Siren" not in texts
    assert "Half wall" not in texts


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_words_of_the_column_of_a_plan_sheet_lie_over_nothing(path: Path) -> None:
    for sheet in sample_sheets(path, "letter"):
        for column in by_class(sheet, "plan-notes"):
            found = list(words(column))
            over = [(a.text, b.text) for n, a in enumerate(found) for b in found[:n] if lie_over(a.box, b.box)]
            assert over == []


def test_pane_table_says_who_hears_each_and_how_far() -> None:
    plan = house()
    text = said(plan)
    best = {pane["id"]: pane["best"] for pane in check_plan(plan)["panes"]}
    assert best["w1/1"]["device"] == "gb1"
    assert "w1/1 Great room covered GB-1 9'-4 1/2\" 15'-0\"" in text
    assert "w2/1 Den not nobody — —" in text


def test_stay_and_away_are_worked_out_from_the_plan() -> None:
    text = said(house())
    assert "No outer door or window has a contact on this plan" in text
    assert "Of 4 outer panes of glass 2 are within hearing" in text
    assert "not wholly heard: window w2 and window w3" in text
    assert "There is no keypad on this plan" in text
    guarded = house(
        devices=[
            {"id": "dc", "kind": "door_contact", "at": [13.5, 0], "serves": ["d1"]},
            {"id": "kp", "kind": "keypad", "at": [11, 0.3]},
        ]
    )
    text = said(guarded)
    assert "1 door or window with a contact is guarded" in text
    assert "You arm and disarm at the keypad in Great room." in text
    assert "No motion detector watches a room" in text


def test_cautions_stand_on_every_schedule_sheet() -> None:
    for sheet in sheets(house()):
        if by_class(sheet, "schedule-sheet"):
            text = " ".join(word.text for word in words(sheet))
            for phrase in (
                "Local codes govern",
                "Smoke and carbon monoxide",
                "Verify on site",
                "harm hearing",
                "warranty",
            ):
                assert phrase in text


def test_values_that_the_plan_was_judged_by_stand_with_their_source() -> None:
    text = said(house())
    assert "15'-0\" trade article" in text
    assert "Set for this plan." not in text
    value = house_value() | {"practice": {"glass.range": 12, "cable.box_sizes": [500]}}
    text = said(plan_from(value))
    assert "12'-0\" Set for this plan." in text
    assert "500 ft Set for this plan." in text


def test_there_are_lines_to_sign_on() -> None:
    text = said(house())
    assert "AGREED I have seen revision 7 of Two rooms" in text
    assert "is a new revision. Homeowner Date Designer Date" in text


def test_long_schedules_flow_to_further_sheets_with_their_head_again() -> None:
    devices = [
        {
            "id": f"gb{n}",
            "kind": "glass_break",
            "at": [1 + n % 18, 1 + n // 18],
            "note": "a word to the crew " * (n % 7),
        }
        for n in range(160)
    ]
    found = sheets(house(devices=devices))
    schedules = [sheet for sheet in found if by_class(sheet, "schedule-sheet")]
    assert len(schedules) > 2
    texts = [word.text for sheet in schedules for word in words(sheet)]
    assert texts.count("Height AFF") + texts.count("Height") > 2
    # each device once in the table; findings may speak of it besides
    for n in range(160):
        assert texts.count(f"gb{n}") >= 1


def test_names_that_are_hostile_are_only_words() -> None:
    value = house_value()
    value["name"] = "</svg><script>alert(1)</script>"
    value["levels"][0]["rooms"][0]["name"] = "<b>&amp;"
    for sheet in sheets(plan_from(value)):
        assert {part.tag for part in sheet.iter()} <= {
            f"{SVG}{tag}" for tag in ("svg", "defs", "g", "path", "rect", "line", "circle", "text", "title")
        }


def test_nothing_on_a_sheet_that_a_strict_policy_refuses() -> None:
    for sheet in sheets(house()):
        for part in sheet.iter():
            assert "style" not in part.attrib
            assert not any(name.startswith("on") for name in part.attrib)


def test_text_is_broken_and_shortened_to_its_width() -> None:
    text = "Where every home run ends; in a closet or utility room, never in an exterior wall."
    for width in (15.0, 30.0, 60.0):
        lines = wrapped(text, 2.5, width)
        assert " ".join(lines) == text
        assert all(text_width(line, 2.5) <= width for line in lines)
    assert text_width(shortened(text, 2.5, 20), 2.5) <= 20
    assert "".join(wrapped("x" * 200, 2.5, 20)) == "x" * 200


def test_width_of_text_is_that_of_the_common_metrics() -> None:
    # Arial: M 0.833, i 0.222, space 0.278 em
    assert text_width("Mi M", 10) == pytest.approx(10 * (0.833 + 0.222 + 0.278 + 0.833))


def test_columns_that_hold_everything_are_made_even() -> None:
    rows = [Block(3, lambda at: ()) for _ in range(20)]
    columns = balanced(rows, 100, 4)
    assert [len(column) for column in columns] == [5, 5, 5, 5]
    assert len(balanced(rows, 9, 4)) == 7


def test_blocks_keep_together_and_repeat_their_header() -> None:
    def block(height: float, **more: Any) -> Block:
        return Block(height, lambda at: (), **more)

    head = block(2)
    rows = [block(3, header=head) for _ in range(4)]
    columns = columns_of([block(4), block(2, keep=True), *rows], 10)
    assert [[piece.height for _, piece in column] for column in columns] == [[4, 2, 3], [2, 3, 3], [2, 3]]
    assert all(down + piece.height <= 10 for column in columns for down, piece in column)


def test_lines_give_way_to_words_and_no_letter_bites_into_another() -> None:
    (svg, *_) = [sheet["svg"] for sheet in printed(house())["sheets"] if 'class="floor-plan"' in sheet["svg"]]
    assert "paint-order" not in svg
    first = ElementTree.fromstring(svg)
    masks = [part for part in first.iter(f"{SVG}rect") if part.get("class") == "mask"]
    names = {word.text: word.box for word in words(first)}
    left, top, right, bottom = names["GB-1"]
    assert any(
        float(mask.attrib["x"]) < left
        and float(mask.attrib["y"]) < top
        and float(mask.attrib["x"]) + float(mask.attrib["width"]) > right
        and float(mask.attrib["y"]) + float(mask.attrib["height"]) > bottom
        for mask in masks
    )
