"""The overlay: parsed as XML and compared with what the check says."""

from __future__ import annotations

import math
import re
from typing import Any
from xml.etree import ElementTree

import pytest

from app.drawing.overlay import level_overlay
from app.plan.model import Plan
from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.drawing.a_house import house, house_value

SVG = "{http://www.w3.org/2000/svg}"


def drawn(plan: Plan, focus: str | None = None, **options: Any) -> ElementTree.Element:
    answer, level = check_plan(plan), plan.levels[0]
    device = next((other for other in level.devices if other.id == focus), None)
    return ElementTree.fromstring(
        level_overlay(
            level,
            answer["panes"],
            answer["motions"],
            answer["rooms"],
            practice=plan.practice_in_force,
            units=plan.units,
            focus=device,
            **options,
        )
    )


def groups(svg: ElementTree.Element) -> list[str]:
    return [part.get("class", "") for part in svg if part.tag == f"{SVG}g"]


def group(svg: ElementTree.Element, name: str) -> ElementTree.Element:
    return next(part for part in svg if part.get("class") == name)


def pane(svg: ElementTree.Element, name: str) -> ElementTree.Element:
    return next(part for part in group(svg, "glass") if part.get("data-pane") == name)


def corners(path: str) -> list[tuple[float, float]]:
    numbers = [float(text) for text in re.findall(r"-?\d+\.\d+", path)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def test_groups_come_in_their_order() -> None:
    assert groups(drawn(house(), "gb1")) == ["rooms", "motion", "reach", "leaders", "glass"]


def test_every_pane_stands_once_with_its_status() -> None:
    plan = house()
    said = {answer["id"]: answer["status"] for answer in check_plan(plan)["panes"]}
    shown = {part.get("data-pane"): part.get("class") for part in group(drawn(plan), "glass") if part.get("data-pane")}
    assert shown == said
    assert set(said.values()) == {"covered", "partial", "uncovered"}


def test_bar_lies_over_the_uncovered_stretch() -> None:
    plan = house()
    answer = next(answer for answer in check_plan(plan)["panes"] if answer["id"] == "w3/1")
    ((low, high),) = answer["stretches"]
    bar = next(part for part in pane(drawn(plan), "w3/1") if part.get("class") == "stretch")
    xs = [x for x, _ in corners(bar.attrib["d"])]
    # the wall runs west from (30, 14) and the window begins 13 ft along it
    assert max(xs) == pytest.approx(30 - 13 - low, abs=1e-3)
    assert min(xs) == pytest.approx(30 - 13 - high, abs=1e-3)


def test_y_is_down_and_a_unit_is_a_foot() -> None:
    path = pane(drawn(house()), "w1/1").attrib["d"]
    assert corners(path) == [(4, 0), (7, 0)]
    upper = pane(drawn(house()), "w3/1")
    assert all(y < -13 for part in upper if part.get("d") for _, y in corners(part.attrib["d"]))


def test_status_is_told_by_hatch_dash_mark_and_word_and_not_by_colour_alone() -> None:
    svg = drawn(house())
    missed = pane(svg, "w2/1")
    bar = next(part for part in missed if part.get("class") == "stretch")
    assert bar.get("fill") == "url(#overlay-missed)"
    assert bar.get("stroke-dasharray")
    assert svg.find(f".//{SVG}pattern[@id='overlay-missed']") is not None
    title = missed.find(f"{SVG}title")
    assert title is not None
    assert "not covered" in (title.text or "")
    assert pane(svg, "w1/1").get("stroke-dasharray") is None
    said = {answer["id"]: f"mark {answer['status']}" for answer in check_plan(house())["panes"]}
    marks = {part.get("data-mark"): part.get("class") for part in group(svg, "glass") if part.get("data-mark")}
    assert marks == said
    shapes = {
        part.get("class"): re.sub(r"[\d.-]+", "", part.get("d", ""))
        for part in group(svg, "glass")
        if part.get("data-mark")
    }
    assert len(set(shapes.values())) == len(set(said.values())) == 3


def test_title_gives_the_reason() -> None:
    plan = house()
    why = {answer["id"]: answer["why"] for answer in check_plan(plan)["panes"]}
    title = pane(drawn(plan), "w2/1").find(f"{SVG}title")
    assert title is not None
    assert why["w2/1"] in (title.text or "")


def test_names_are_escaped() -> None:
    value = house_value()
    value["levels"][0]["rooms"][0]["name"] = "<script>\"&'"
    value["levels"][0]["devices"][0]["label"] = "</title><a>"
    svg = drawn(plan_from(value), "gb1")
    titles = [title.text or "" for title in svg.iter(f"{SVG}title")]
    assert any("<script>\"&'" in text for text in titles)
    assert any("</title><a>" in text for text in titles)
    assert {part.tag for part in svg.iter()} <= {
        f"{SVG}{tag}" for tag in ("svg", "defs", "g", "path", "circle", "text", "title", "pattern", "line", "rect")
    }


def test_nothing_that_a_strict_policy_refuses() -> None:
    for part in drawn(house(), "gb1").iter():
        assert "style" not in part.attrib
        assert not any(name.startswith("on") for name in part.attrib)


def test_reach_is_the_slant_range_laid_flat() -> None:
    reach = group(drawn(house()), "reach")
    assert reach.get("stroke-dasharray")
    circle = reach.find(f"{SVG}circle")
    assert circle is not None
    # 15 ft from a 9 ft ceiling to the lowest edge of the glass near it, 3 ft up: √(15² − 6²)
    assert float(circle.attrib["r"]) == pytest.approx(math.sqrt(15**2 - 6**2), abs=1e-3)
    assert circle.get("data-device") == "gb1"


def test_reach_is_not_drawn_where_the_ceiling_is_beyond_it() -> None:
    assert len(group(drawn(house(ceiling=20)), "reach")) == 0


def test_leaders_only_for_the_detector_in_hand() -> None:
    assert len(group(drawn(house()), "leaders").findall(f"{SVG}path")) == 0
    leaders = {part.get("data-pane") for part in group(drawn(house(), "gb1"), "leaders") if part.get("data-pane")}
    assert {"w1/1", "w1/2", "w3/1"} <= leaders


def test_leader_within_range_gives_the_distance_to_the_farthest_corner() -> None:
    leaders = group(drawn(house(), "gb1"), "leaders")
    texts = {text.text for text in leaders.iter(f"{SVG}text")}
    # from (8, 6) at 9 ft to the foot of the glass at (4, 0), 3 ft up: √(4² + 6² + 6²) = 9.381 ft
    assert "9'-4 1/2\"" in texts


def test_leader_over_the_range_says_over_and_is_dashed() -> None:
    plan = house(devices=[{"id": "gb1", "kind": "glass_break", "at": [18, 7], "range": 9}])
    leaders = group(drawn(plan, "gb1"), "leaders")
    over = [part for part in leaders if part.get("class") == "over"]
    assert over
    assert all(part.get("stroke-dasharray") for part in over)
    assert any("over by" in (text.text or "") for text in leaders.iter(f"{SVG}text"))


def test_no_leader_through_a_wall() -> None:
    plan = house(devices=[{"id": "gb1", "kind": "glass_break", "at": [18, 2]}])
    leaders = group(drawn(plan, "gb1"), "leaders")
    assert "w2/1" not in {part.get("data-pane") for part in leaders}


def words_of(plan: Plan) -> dict[str, tuple[float, float]]:
    """Where each leader's words stand: the middle of each, in feet with y downward."""
    texts = list(group(drawn(plan, "gb1", pixels_per_foot=24), "leaders").iter(f"{SVG}text"))
    return {text.text or "": (float(text.get("x", "")), float(text.get("y", "")) - 0.35 * 0.5) for text in texts}


def test_words_of_leaders_keep_clear_of_other_devices() -> None:
    detector = {"id": "gb1", "kind": "glass_break", "at": [8, 6]}
    free = words_of(house(devices=[detector]))
    for words, (x, y) in free.items():
        keypad = {"id": "kp", "kind": "keypad", "at": [x, -y]}
        placed = words_of(house(devices=[detector, keypad]))
        assert placed.keys() <= free.keys()
        assert len(placed) >= len(free) - 1
        if words in placed:
            assert math.dist(placed[words], (x, y)) > 0.5, "the symbol, 11 px about its middle, lies over no letter"


def test_metric_plans_are_spoken_in_metres() -> None:
    value = house_value() | {"units": "metric"}
    svg = drawn(plan_from(value), "gb1")
    texts = [text.text or "" for text in svg.iter(f"{SVG}text")]
    assert texts
    assert all(text.endswith(" m") for text in texts)


def test_words_keep_their_height_on_screen() -> None:
    def height(pixels_per_foot: float) -> float:
        leaders = group(drawn(house(), "gb1", pixels_per_foot=pixels_per_foot), "leaders")
        return float(next(part.attrib["font-size"] for part in leaders if part.get("font-size")))

    assert height(12) == pytest.approx(1.0)
    assert height(48) == pytest.approx(0.25)


def test_an_empty_level_is_a_picture_too() -> None:
    svg = drawn(house(walls=[], openings=[], rooms=[], devices=[]))
    assert groups(svg) == ["rooms", "motion", "reach", "leaders", "glass"]
    assert all(math.isfinite(float(number)) for number in svg.attrib["viewBox"].split())


def test_a_level_as_large_as_a_plan_may_be_is_drawn() -> None:
    far = [{"id": "far", "a": [-10000, -10000], "b": [10000, 10000]}]
    assert drawn(house(walls=far, openings=[], rooms=[])).attrib["viewBox"].split()[2] == "20008"
