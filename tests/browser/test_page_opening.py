"""Opening a plan asks for little, and what is pressed before its part has come is done when it comes."""

from __future__ import annotations

import time
from collections.abc import Iterator
from typing import Any

import pytest

from tests.browser.conftest import PATIENCE, PlanPage, Server, empty_plan, one_room, playwright_api

WEIGHT = 200_000  # bytes of script, as written
expect = playwright_api.expect


class EarlyPage(PlanPage):
    """A plan's page that some script modules have not reached yet."""

    def __init__(self, page: Any, server: Server, plan: dict[str, Any], late: str) -> None:
        self.held: list[Any] = []
        self.late = late
        self.holds = True
        page.route(f"**/{late}", lambda route: self.held.append(route) if self.holds else route.continue_())
        super().__init__(page, server, server.add(plan))

    def open(self) -> None:
        """Open, and wait no longer than until it is usable."""
        self.page.goto(f"{self.server.url}/plans/{self.id}")
        self.page.wait_for_selector("body[data-ready]")

    def wait_asked(self) -> None:
        """Wait until the page has asked for what is held back."""
        until = time.monotonic() + PATIENCE
        while not self.held:
            assert time.monotonic() < until, f"{self.late} is never asked for"
            self.page.wait_for_timeout(20)

    def let_come(self) -> None:
        """Let what was held back come."""
        self.wait_asked()
        self.holds = False
        for route in self.held:
            route.continue_()


@pytest.fixture
def open_early(browser: Any, server: Server) -> Iterator[Any]:
    """Opens a plan while modules of some name are held back."""
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    context.set_default_timeout(PATIENCE * 1000)
    context.add_init_script("localStorage.setItem('studbay-tour', 'seen')")
    yield lambda plan, late: EarlyPage(context.new_page(), server, plan, late)
    context.close()


def test_a_tool_whose_gesture_has_not_come_keeps_what_is_pressed(open_early: Any) -> None:
    house = open_early(empty_plan(), "gestures/draw_room.js")
    house.key("r")
    house.press(0, 0)
    house.press(12, 10)
    house.wait_asked()
    expect(house.page.locator("[data-family=walls]")).to_have_count(0)
    house.let_come()
    expect(house.page.locator(".walls [data-family=walls]")).to_have_count(4)


def test_a_drag_whose_module_has_not_come_ends_where_it_was_let_go(open_early: Any) -> None:
    house = open_early(one_room(at=[10, 10]), "gestures/begin_drag.js")
    house.drag((10, 10), (20, 15))
    house.let_come()
    expect(house.page.locator("#undo")).to_be_enabled()
    east, north = house.saved()["levels"][0]["devices"][0]["at"]
    assert (east, north) == pytest.approx((20, 15), abs=0.6)


def test_keys_are_obeyed_in_their_order_though_the_first_must_be_fetched(open_early: Any) -> None:
    house = open_early(one_room(at=[10, 10]), "gestures/alterations.js")
    house.press(10, 10)
    house.key("Delete", "Control+z", "w")
    house.wait_asked()
    expect(house.page.locator(".device[data-id=gb1]")).to_have_count(1)
    house.let_come()
    expect(house.page.locator("#redo")).to_be_enabled()  # deleted, and the deletion taken back
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "wall")
    expect(house.page.locator(".device[data-id=gb1]")).to_have_count(1)


def test_a_tool_that_cannot_come_says_so_and_is_left(open_early: Any) -> None:
    house = open_early(empty_plan(), "gestures/draw_obstruction.js")
    house.key("o")
    house.wait_asked()
    for route in house.held:
        route.abort()
    expect(house.page.locator("#said-urgent")).to_contain_text("Obstruction has not come")
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "select")


def test_escape_leaves_a_tool_that_is_still_coming(open_early: Any) -> None:
    house = open_early(empty_plan(), "gestures/draw_room.js")
    house.key("r")
    house.press(0, 0)
    house.key("Escape", "Escape")
    house.let_come()
    expect(house.page.locator("body[data-rest]")).to_have_count(1)
    house.settle()
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "select")
    expect(house.page.locator(".walls [data-family=walls]")).to_have_count(0)


def test_what_is_fetched_until_a_plan_is_usable_is_little(open_early: Any) -> None:
    house = open_early(one_room(at=[10, 10]), "nothing-is-held")
    loaded = house.page.evaluate(
        """() => {
            const until = performance.getEntriesByName("usable")[0].startTime;
            const first = performance.getEntriesByType("resource").filter((entry) => entry.startTime < until);
            const kind = (ending) => first.filter((entry) => entry.name.endsWith(ending));
            return [kind(".js").reduce((sum, entry) => sum + entry.decodedBodySize, 0), kind(".css").length];
        }"""
    )
    weight, sheets = loaded
    assert 0 < weight < WEIGHT
    assert sheets == 1
    expect(house.page.locator(".device[data-id=gb1]")).to_have_count(1)
    house.wait_strip(" of 1 panes covered")
