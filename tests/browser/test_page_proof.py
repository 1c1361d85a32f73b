"""The proof on the page: glass turns while a detector is dragged, the strip leads to what it counts."""

from __future__ import annotations

import re
from typing import Any

import pytest

from tests.browser.conftest import one_room, playwright_api

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
