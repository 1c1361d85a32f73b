"""The main job, whole, three times: by keyboard alone, by mouse alone, by touch alone.

Draw a room, set a window, place a detector, see that the glass is not covered, move the detector until it is, print.
Set STUDBAY_PICTURES to a folder to keep a picture of each stage.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest

from tests.browser.conftest import PlanPage, empty_plan, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _picture(house: PlanPage, name: str) -> None:
    if folder := os.environ.get("STUDBAY_PICTURES"):
        house.page.screenshot(path=str(Path(folder) / f"{name}.png"))


def _prints(house: PlanPage, page: Any) -> None:
    """The page that was opened is the printed set of this plan."""
    page.wait_for_url(f"**/plans/{house.id}/sheet**")
    expect(page.locator("svg")).not_to_have_count(0)
    expect(page.locator("body")).to_contain_text("Trial house", use_inner_text=True)


def _is_the_house(plan: dict[str, Any]) -> None:
    level = plan["levels"][0]
    assert len(level["walls"]) == 4
    assert [opening["kind"] for opening in level["openings"]] == ["window"]
    assert [device["kind"] for device in level["devices"]] == ["glass_break"]


def test_by_keyboard_alone(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    house.key("r", "ArrowRight", "Enter", "ArrowUp", "ArrowRight")
    house.type_length("30'")
    house.type_length("20'")
    house.key("Escape", "f")
    level = house.saved()["levels"][0]
    assert len(level["walls"]) == 4
    west, south = (min(wall["a"][axis] for wall in level["walls"]) for axis in (0, 1))
    _picture(house, "keyboard-1-room")

    def go(x: float, y: float) -> None:
        """Move the keyboard's cursor to a place counted from the room's south-west corner, whatever it was."""
        house.key("ArrowRight")
        expect(house.page.locator("#said")).to_contain_text("Cursor")
        told = house.page.locator("#said").inner_text()
        at = house.page.evaluate(
            """(told) => import("/static/plan/measures.js").then(({ parseLength }) =>
                told.match(/Cursor (.*) east, (.*) north/).slice(1).map((text) => parseLength(text, "imperial")))""",
            told,
        )
        for by, back, on in (
            (west + x - at[0], "ArrowLeft", "ArrowRight"),
            (south + y - at[1], "ArrowDown", "ArrowUp"),
        ):
            way = on if by > 0 else back
            big, small = divmod(round(abs(by) * 2), 10)
            house.key(*[f"Control+{way}"] * big, *[way] * small)

    house.key("n")
    go(25, 0)
    house.key("Enter", "Escape", "g")
    go(4, 15)
    house.key("Enter", "Escape")
    house.wait_saved()
    house.wait_strip("1 uncovered")
    _picture(house, "keyboard-2-uncovered")
    house.key("/")
    house.page.wait_for_selector("#find[open]")
    house.page.keyboard.type("gb-1")
    house.key("Enter")
    house.page.wait_for_selector("#find", state="hidden")
    house.page.wait_for_selector(".device.selected")
    house.key(*["Shift+ArrowRight"] * 16, *["Shift+ArrowDown"] * 5)
    house.wait_saved()
    house.wait_strip("1 of 1 panes covered")
    _picture(house, "keyboard-3-covered")
    _is_the_house(house.saved())
    house.key("]", "]", "]", "]")
    link = house.page.get_by_role("link", name="Print page")
    link.wait_for()
    for _ in range(80):
        house.key("Tab")
        if link.evaluate("(one) => one === document.activeElement"):
            break
    with house.page.context.expect_page() as coming:
        house.key("Enter")
    _prints(house, coming.value)
    _picture(house, "keyboard-4-handover")


def test_by_mouse_alone(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    tool = house.page.locator(".panel:not([hidden]) .palette")
    house.page.get_by_role("button", name="Draw the first room").click()
    house.press(0, 0)
    house.press(30, 20)
    _picture(house, "mouse-1-room")
    tool.locator("[data-tool=window]").click()
    house.press(26, 0)
    house.page.get_by_role("button", name="Devices").first.click()
    tool.locator("[data-tool=glass_break]").click()
    house.press(4, 15)
    house.wait_saved()
    house.wait_strip("1 uncovered")
    tool.locator("[data-tool=select]").click()
    house.page.locator('[data-part="uncovered"]').click()
    house.page.wait_for_selector("#elevation h2")
    house.settle()
    _picture(house, "mouse-2-uncovered")
    house.page.get_by_role("button", name="Fit the level").click()
    house.settle()
    house.drag((4, 15), (22, 8))
    house.wait_saved()
    house.wait_strip("1 of 1 panes covered")
    _picture(house, "mouse-3-covered")
    _is_the_house(house.saved())
    house.page.get_by_role("button", name="Handover").first.click()
    with house.page.context.expect_page() as coming:
        house.page.get_by_role("link", name="Print page").click()
    _prints(house, coming.value)


class _Finger:
    """One finger on the glass, as the browser's own protocol sends it."""

    def __init__(self, house: PlanPage) -> None:
        self.house = house
        self.client = house.page.context.new_cdp_session(house.page)

    def _send(self, kind: str, *at: float) -> None:
        points = [{"x": at[0], "y": at[1]}] if at else []
        self.client.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """From one point of the plan to another."""
        one, two = self.house.at(*start), self.house.at(*end)
        self._send("touchStart", *one)
        for i in range(1, 11):
            self._send("touchMove", *(a + (b - a) * i / 10 for a, b in zip(one, two, strict=True)))
        self._send("touchEnd")
        self.house.settle()

    def tap(self, x: float, y: float) -> None:
        """At a point of the plan."""
        self._send("touchStart", *self.house.at(x, y))
        self._send("touchEnd")
        self.house.settle()


def _zoomed(house: PlanPage, button: str) -> None:
    """Tap a button that changes the zoom; what a tap presses is pressed after the browser has told that it tapped."""
    zoom = "document.querySelector('#drawing').style.getPropertyValue('--px')"
    before = house.page.evaluate(zoom)
    house.page.get_by_role("button", name=button).tap()
    house.wait_until(f"{zoom} !== '{before}'")
    house.settle()


def _taken(house: PlanPage, tool: str) -> None:
    """Wait until a tool is in force, and show the drawing."""
    house.page.wait_for_selector(f'#drawing[data-tool="{tool}"]')
    house.page.evaluate("window.scrollTo(0, 0)")
    house.settle()


def _step(house: PlanPage, step: str, name: str) -> None:
    """Tap a step; a tap that the browser takes for the end of another is made again, as a person would."""
    for patience in (5_000, 5_000, None):
        house.page.get_by_role("button", name=name).first.tap()
        try:
            house.page.wait_for_selector(f'body[data-step="{step}"]', timeout=patience)
        except playwright_api.TimeoutError:
            if patience is None:
                raise
        else:
            return


def test_by_touch_alone_on_a_phone(open_plan: Any) -> None:
    house = open_plan(empty_plan(), has_touch=True, is_mobile=True)
    house.resize(390, 844)
    finger = _Finger(house)
    tool = house.page.locator(".panel:not([hidden]) .palette")
    house.page.get_by_role("button", name="Draw the first room").tap()
    _taken(house, "room")
    for _ in range(4):
        _zoomed(house, "Zoom out")
    corner = house.page.evaluate(
        """() => {
            const world = document.querySelector("#drawing .world");
            const box = document.querySelector("#drawing").getBoundingClientRect();
            const spot = new DOMPoint(box.left + 60, box.bottom - 130).matrixTransform(world.getScreenCTM().inverse());
            return [Math.ceil(spot.x), Math.ceil(-spot.y)];
        }"""
    )
    x, y = corner
    finger.tap(x, y)
    finger.tap(x + 24, y + 16)
    house.wait_step("Draw a room")
    house.wait_saved()
    _zoomed(house, "Fit the level")
    _picture(house, "touch-1-room")
    tool.locator("[data-tool=window]").tap()
    _taken(house, "window")
    finger.tap(x + 21, y)
    house.wait_step("Place a window")
    _picture(house, "touch-1b-window")
    house.wait_saved()
    _step(house, "devices", "Devices")
    tool.locator("[data-tool=glass_break]").tap()
    _taken(house, "glass_break")
    finger.tap(x + 3, y + 13)
    house.wait_step("Place GB-1")
    house.wait_saved()
    house.wait_strip("1 uncovered")
    _picture(house, "touch-2-uncovered")
    tool.locator("[data-tool=select]").tap()
    _taken(house, "select")
    finger.drag((x + 3, y + 13), (x + 18, y + 7))
    house.wait_step("Move GB-1")
    house.wait_saved()
    house.wait_strip("1 of 1 panes covered")
    _picture(house, "touch-3-covered")
    _is_the_house(house.saved())
    _step(house, "handover", "Handover")
    with house.page.context.expect_page() as coming:
        house.page.get_by_role("link", name="Print page").tap()
    _prints(house, coming.value)
