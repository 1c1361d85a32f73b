"""The page by touch on a phone and on a tablet held upright: what is touched, read and drawn with a finger alone."""

from __future__ import annotations

import json
import time
from pathlib import Path
from typing import Any

import pytest

from tests.browser.conftest import PATIENCE, empty_plan, one_room, playwright_api
from tests.browser.test_page_touch import Fingers

pytestmark = pytest.mark.browser
expect = playwright_api.expect

_FINGERS = {"has_touch": True, "is_mobile": True}
_PHONE = {"viewport": {"width": 390, "height": 844}, **_FINGERS}
_TABLET = {"viewport": {"width": 768, "height": 1024}, **_FINGERS}
_STEPS = {
    "Shell": ".palette",
    "Devices": ".palette",
    "Proof": ".finding",
    "Cable": ".pulls tbody tr",
    "Handover": ".print-buttons",
}  # each with what of its panel comes last
_COBBLE = json.loads((Path(__file__).parents[2] / "sample_plans" / "cobble-court.json").read_text("utf-8"))

# The name of the plan and what is told of the saving share a row of 48 px: each has half of it.
_SMALL = """() => [...document.querySelectorAll("button, summary, select, input, a.button")]
    .filter((part) => part.checkVisibility({ visibilityProperty: true }) && !part.closest(".name, .only-read"))
    .filter((part) => !part.matches("#saved, [type=checkbox], [type=radio], [type=file]"))
    .map((part) => [part, part.getBoundingClientRect()])
    .filter(([, box]) => box.width > 1 && (box.width < 43.9 || box.height < 43.9))
    .map(([part, box]) => `${part.textContent || part.id} ${box.width}x${box.height}`)"""
_BESIDE = """() => document.documentElement.scrollWidth - document.documentElement.clientWidth"""


def _show(house: Any, step: str) -> None:
    """Open a step by touch, and wait until its panel stands."""
    house.page.locator(".step", has_text=step).tap()
    expect(house.page.locator(f'.panel[aria-label="{step}"] {_STEPS[step]}').first).to_be_visible()


def _comes_to(house: Any, told: str, wanted: Any) -> None:
    """Wait until what a function of the page tells is this, with all of the page here that is still on its way."""
    until = time.monotonic() + PATIENCE
    while (found := house.page.evaluate(told)) != wanted:
        assert time.monotonic() < until, found
        house.settle()


def _press(button: Any) -> None:
    """Press at once after a slide, where the browser takes a touch for one that stops what the slide set going."""
    expect(button).to_be_visible()
    button.evaluate("(button) => button.click()")


@pytest.mark.parametrize("window", [_PHONE, _TABLET], ids=["phone", "tablet"])
def test_in_every_step_a_finger_finds_44_pixels_and_nothing_lies_beside_the_screen(
    open_plan: Any, window: dict[str, Any]
) -> None:
    house = open_plan(_COBBLE, **window)
    for step in _STEPS:
        _show(house, step)
        _comes_to(house, _SMALL, [])
        _comes_to(house, _BESIDE, 0)


@pytest.mark.parametrize("window", [_PHONE, _TABLET], ids=["phone", "tablet"])
def test_the_drawing_stays_in_sight_while_findings_are_gone_through(open_plan: Any, window: dict[str, Any]) -> None:
    house = open_plan(_COBBLE, **window)
    _show(house, "Proof")
    line = house.page.locator(".pane-line").last
    line.scroll_into_view_if_needed()
    line.tap()
    expect(line).to_have_class("pane-line covered chosen")
    expect(line).to_be_in_viewport()
    expect(house.page.locator(".chosen-pane")).to_be_in_viewport()
    expect(house.page.locator(".step[aria-current]")).to_be_in_viewport()
    house.settle()
    top = house.page.locator(".sheet").bounding_box()
    assert line.bounding_box()["y"] >= top["y"] + top["height"] - 1
    assert house.page.evaluate("scrollY") > 0


def test_a_phone_shows_the_plan_s_name_whole_and_the_proof_in_two_rows(open_plan: Any) -> None:
    house = open_plan(_COBBLE, **_PHONE)
    assert house.page.evaluate(
        "(() => { const name = document.querySelector('#plan-name'); return name.scrollWidth <= name.clientWidth; })()"
    )
    tops = house.page.locator(".strip-part:visible").evaluate_all(
        "all => [...new Set(all.map((one) => Math.round(one.getBoundingClientRect().top)))]"
    )
    assert len(tops) == 2


def test_no_tag_of_a_phone_lies_over_the_mark_of_a_pane_or_leaves_the_drawing(open_plan: Any) -> None:
    house = open_plan(_COBBLE, **_PHONE)
    house.page.wait_for_selector(".drawing.is-far")
    expect(house.page.locator(".glass .mark.partial")).to_have_count(2)
    house.settle()
    covered = house.page.evaluate(
        """() => {
            const boxes = (query) => [...document.querySelectorAll(query)].map((one) => one.getBoundingClientRect());
            const tags = boxes(".device .tag").filter((box) => box.width > 0);
            const marks = [...document.querySelectorAll(".glass .mark.partial")].flatMap((mark) => {
                const toScreen = mark.getScreenCTM();
                return mark.getAttribute("d").match(/M[^M]+/g).map((stroke) => {
                    const [x, y] = stroke.slice(1).split(/[ ,L]/).map(Number);
                    return new DOMPoint(x, y).matrixTransform(toScreen);
                });
            });
            const over = (tag, { x, y }) => x > tag.left && x < tag.right && y > tag.top && y < tag.bottom;
            return [tags.length, marks.filter((spot) => tags.some((tag) => over(tag, spot))).length,
                tags.filter((tag) => tag.left < 0 || tag.right > innerWidth).length];
        }"""
    )
    assert covered[0] > 15
    assert covered[1:] == [0, 0]


def test_a_finger_slides_to_where_a_wall_ends_and_then_types_its_length(open_plan: Any) -> None:
    house = open_plan(empty_plan(), **_PHONE)
    fingers = Fingers(house)
    house.page.locator('.tool[data-tool="wall"]').tap()
    bar = house.page.locator(".touch-bar")
    expect(bar).to_contain_text("Press where a wall begins.")
    fingers.drag((house.at(5, 15), house.at(25, 15)))
    house.wait_step("Draw a wall")
    assert [wall["b"] for wall in house.saved()["levels"][0]["walls"]] == [pytest.approx([25, 15], abs=0.6)]

    _press(bar.get_by_role("button", name="Type… Length"))
    house.page.locator("#length-box input").fill("18'6")
    house.page.keyboard.press("Enter")
    expect(house.page.locator("#length-box")).to_be_hidden()
    assert [wall["b"] for wall in house.saved()["levels"][0]["walls"]] == [pytest.approx([23.5, 15], abs=0.6)]
    fingers.tap(house.at(23.5, 8))
    expect(house.page.locator(".walls [data-family=walls]")).to_have_count(2)
    walls = house.saved()["levels"][0]["walls"]
    assert walls[1]["a"] == walls[0]["b"]
    assert walls[0]["b"][0] - walls[0]["a"][0] == pytest.approx(18.5)

    _press(bar.get_by_role("button", name="Done"))
    expect(bar).to_contain_text("Press where a wall begins.")
    _press(bar.get_by_role("button", name="Done"))
    expect(bar).to_be_hidden()
    expect(house.page.locator('.tool[data-tool="select"]')).to_have_attribute("aria-pressed", "true")


def test_a_room_is_drawn_by_one_slide_of_a_finger(open_plan: Any) -> None:
    house = open_plan(empty_plan(), **_PHONE)
    house.page.locator('.tool[data-tool="room"]').tap()
    expect(house.page.locator(".touch-bar")).to_contain_text("Press one corner of the room.")
    Fingers(house).drag((house.at(6, 16), house.at(20, 8)))
    house.wait_step("Draw a room")
    walls = house.saved()["levels"][0]["walls"]
    assert len(walls) == 4
    assert {x for wall in walls for x in (wall["a"][0], wall["b"][0])} == {6, 20}


def test_a_name_finds_the_width_of_its_room_and_leaves_symbols_free(open_plan: Any) -> None:
    plan = one_room(at=[15, 10])
    plan["levels"][0]["rooms"] = [{"id": "r1", "name": "Conservatory", "use": "other", "at": [1.2, 10]}]
    house = open_plan(plan, **_PHONE)
    name = house.page.locator(".room-name")
    expect(name).to_have_text("Conservatory")
    house.settle()
    (left, _), (right, _) = house.at(0, 10), house.at(30, 10)
    box = name.bounding_box()
    symbol = house.page.locator(".device .symbol").bounding_box()
    assert left < box["x"] < box["x"] + box["width"] < right
    assert (
        box["x"] + box["width"] <= symbol["x"]
        or box["y"] + box["height"] <= symbol["y"]
        or box["y"] >= symbol["y"] + symbol["height"]
        or box["x"] >= symbol["x"] + symbol["width"]
    )
