"""The proof on the page: glass turns while a detector is dragged, the strip leads to what it counts."""

from __future__ import annotations

import re
import time
from collections.abc import Callable
from typing import Any

import pytest

from tests.browser.conftest import PATIENCE, one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def test_glass_turns_from_uncovered_to_covered_while_a_detector_is_dragged(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.wait_strip("0 of 1 panes covered")
    house.wait_strip("1 uncovered")
    expect(house.page.locator(".proof-over .glass .uncovered")).not_to_have_count(0)
    house.drag((4, 14), (24, 8), hold=True)
    house.page.wait_for_selector(".proof-over .glass .covered", state="attached")
    house.wait_strip("1 of 1 panes covered")
    expect(house.page.locator(".strip-state")).to_have_text("as tried", use_inner_text=True)
    expect(house.page.locator("#beside")).to_contain_text("covers 1 pane", use_inner_text=True)
    expect(house.page.locator('.proof-over .leaders [data-pane="o1/1"]')).to_have_count(1)
    house.page.mouse.up()
    saved = house.saved()
    assert saved["levels"][0]["devices"][0]["at"] == pytest.approx([24, 8], abs=0.2)
    house.wait_strip("1 of 1 panes covered")
    house.key("Control+z")
    house.wait_saved()
    house.wait_strip("1 uncovered")


def test_escape_puts_a_dragged_detector_back(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.drag((4, 14), (24, 8), hold=True)
    house.wait_strip("1 of 1 panes covered")
    house.key("Escape")
    house.page.mouse.up()
    house.wait_strip("0 of 1 panes covered")
    assert house.saved()["levels"][0]["devices"][0]["at"] == [4, 14]


def test_a_drag_asks_on_one_line_of_its_own(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    lines: list[Any] = []
    heard: list[str] = []

    def follow(line: Any) -> None:
        lines.append(line)
        line.on("framereceived", lambda said: heard.append(str(said)))

    house.page.on("websocket", follow)
    house.drag((4, 14), (12, 12), hold=True)
    until(house, lambda: len(lines) == 1)
    for x in (14, 16, 18, 20, 22, 24):
        house.move(x, 8)
    until(house, lambda: any('"answer"' in text for text in heard))
    house.wait_strip("1 of 1 panes covered")
    house.page.mouse.up()
    house.wait_saved()
    assert [line.url.split("/api/")[1] for line in lines] == [f"plans/{house.id}/trial/live"]


@pytest.mark.parametrize("answers", [0, 3])
def test_a_drag_whose_line_is_lost_asks_by_calls(open_plan: Any, answers: int) -> None:
    house = open_plan(one_room(at=[4, 14]))
    lost: list[str] = []

    def through(line: Any) -> None:
        if not answers:
            line.close()
            return
        server, passed = line.connect_to_server(), []

        def ask(question: str) -> None:
            passed.append(question)
            if len(passed) > answers:
                lost.append(question)
                line.close()
            else:
                server.send(question)

        line.on_message(ask)

    house.page.route_web_socket("**/trial/live", through)
    house.drag((4, 14), (12, 12), hold=True)
    for x in (13, 14, 15, 16, 17, 18, 20, 22):
        house.move(x, 9)
    if answers:
        until(house, lambda: bool(lost))
    house.move(23, 8)
    house.move(24, 8)
    house.wait_strip("1 of 1 panes covered")
    house.page.mouse.up()
    assert house.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([24, 8], abs=0.2)


def test_marks_on_the_rulers_come_when_a_drag_rests(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.move(4, 14)
    mark = house.page.locator(".ruler-pointer.across")
    expect(mark).to_be_visible()
    house.page.evaluate(
        """() => { window.hid_ = 0;
          const count = (changes) => (window.hid_ += changes.filter(({ target }) => target.hidden).length);
          const mark = document.querySelector(".ruler-pointer.across");
          new MutationObserver(count).observe(mark, { attributes: true, attributeFilter: ["hidden"] }); }"""
    )
    house.drag((4, 14), (20, 8), hold=True)
    expect(mark).to_be_visible()
    place, spot = mark.bounding_box(), house.at(20, 8)
    assert place["x"] + place["width"] / 2 == pytest.approx(spot[0], abs=2)
    assert house.page.evaluate("window.hid_") >= 1
    house.page.mouse.up()


def until(house: Any, holds: Callable[[], bool]) -> None:
    """Wait until something that the browser tells of has come."""
    patience = time.monotonic() + PATIENCE
    while not holds():
        assert time.monotonic() < patience, "it never came"
        house.page.wait_for_timeout(30)


def test_the_strip_leads_to_the_uncovered_pane_with_its_elevation_and_why(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.page.locator('[data-part="uncovered"]').click()
    card = house.page.locator("#elevation")
    expect(card.locator("h2")).to_contain_text("o1/1: uncovered", use_inner_text=True)
    expect(card.locator(".why")).to_have_text(re.compile(r".{11,}"), use_inner_text=True)
    expect(card.locator("svg.elevation")).to_have_attribute("aria-label", re.compile("^Elevation: 0 percent"))
    expect(house.page.locator(".inspector h2")).to_have_text("Window o1", use_inner_text=True)


def test_a_detector_is_placed_and_moved_by_the_keyboard_alone(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.page.locator("#drawing").focus()
    house.key("g")
    house.key(*["ArrowRight"] * 6, *["ArrowDown"] * 4, "Enter")
    placed = house.saved()["levels"][0]["devices"]
    assert [(device["kind"], device["label"]) for device in placed] == [("glass_break", "GB-1")]
    house.key("Escape", "Escape")
    table = house.page.locator("#things")
    table.locator("summary").focus()
    house.key("Enter")
    table.get_by_role("button", name="GB-1").focus()
    house.key("Enter")
    house.page.wait_for_selector(".device.selected")
    house.key(*["Shift+ArrowRight"] * 3)
    moved = house.saved()["levels"][0]["devices"][0]
    assert moved["at"] == pytest.approx([placed[0]["at"][0] + 3, placed[0]["at"][1]], abs=1e-3)
