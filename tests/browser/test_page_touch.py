"""Fingers on the drawing: walls drawn, detectors dragged, two fingers pan and pinch."""

from __future__ import annotations

import json
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from tests.browser.conftest import empty_plan, one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect

_PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}


class Fingers:
    """Touches sent as the browser gets them from a screen."""

    def __init__(self, house: Any) -> None:
        self.house = house
        self.wire = house.page.context.new_cdp_session(house.page)

    def _send(self, kind: str, *spots: tuple[float, float]) -> None:
        points = [{"x": x, "y": y, "id": i} for i, (x, y) in enumerate(spots)]
        self.wire.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    def tap(self, spot: tuple[float, float]) -> None:
        self._send("touchStart", spot)
        self._send("touchEnd")
        self.house.settle()

    def drag(self, *ways: tuple[tuple[float, float], tuple[float, float]], steps: int = 6) -> None:
        """Each finger from its first place to its second, all at once."""
        self._send("touchStart", *(start for start, _ in ways))
        for step in range(1, steps + 1):
            self._send(
                "touchMove",
                *((a[0] + (b[0] - a[0]) * step / steps, a[1] + (b[1] - a[1]) * step / steps) for a, b in ways),
            )
        self._send("touchEnd")
        self.house.settle()


def test_fingers_draw_a_wall_and_drag_a_detector_and_two_of_them_pan_and_pinch(open_plan: Any) -> None:
    house = open_plan(one_room(at=[10, 10]), **_PHONE)
    fingers = Fingers(house)
    fingers.drag((house.at(10, 10), house.at(18, 12)))
    house.wait_step("Move GB-1")
    assert house.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([18, 12], abs=1)

    before = [house.at(0, 0), house.at(30, 0)]
    x, y = house.at(15, 10)
    fingers.drag(((x - 40, y), (x - 80, y)), ((x + 40, y), (x + 80, y)))
    wide = before[1][0] - before[0][0]
    for end, way in (((0, 0), -1), ((30, 0), 1)):  # twice as wide about the fingers' middle
        house.wait_at(end, (x + way * wide, before[0][1] * 2 - y), within=0.075 * wide)
    assert house.at(30, 0)[0] - house.at(0, 0)[0] == pytest.approx(2 * wide, abs=0.15 * wide)
    x, y = house.at(15, 10)
    fingers.drag(((x - 40, y), (x - 20, y + 60)), ((x + 40, y), (x + 60, y + 60)))
    house.wait_at((15, 10), (x + 20, y + 60), within=4)
    assert len(house.saved()["levels"][0]["devices"]) == 1  # pinching placed and moved nothing


def test_a_finger_draws_walls_and_a_room(open_plan: Any) -> None:
    house = open_plan(empty_plan(), **_PHONE)
    fingers = Fingers(house)
    house.page.locator('[data-tool="wall"]').evaluate("(button) => button.click()")
    for corner in ((5, 5), (25, 5), (25, 15)):
        fingers.tap(house.at(*corner))
    expect(house.page.locator(".walls [data-family=walls]")).to_have_count(2)
    assert len(house.saved()["levels"][0]["walls"]) == 2
    house.page.locator('button[data-tool="room"]').evaluate("(button) => button.click()")
    fingers.tap(house.at(8, 8))
    fingers.tap(house.at(16, 12))
    house.wait_step("Draw a room")
    assert len(house.saved()["levels"][0]["walls"]) == 6


def test_what_is_touched_is_at_least_24_pixels(open_plan: Any) -> None:
    house = open_plan(one_room(at=[10, 10]), **_PHONE)
    small = house.page.evaluate(
        """() => [...document.querySelectorAll("button, summary, select, input:not([type=checkbox]), .reach-area")]
            .filter((part) => part.checkVisibility() && part.getBoundingClientRect().width > 1)
            .map((part) => [part.textContent || part.getAttribute("class") || part.id, part.getBoundingClientRect()])
            .filter(([, box]) => box.width < 23.9 || box.height < 23.9)
            .map(([words, box]) => `${words} ${box.width}x${box.height}`)"""
    )
    assert small == []


def _boxes(house: Any, selector: str) -> list[dict[str, float]]:
    """Where things that are seen stand on the screen."""
    boxes: list[dict[str, float]] = house.page.locator(selector).evaluate_all(
        "all => all.map((one) => one.getBoundingClientRect().toJSON()).filter((box) => box.width > 0)"
    )
    return boxes


def _shared(one: dict[str, float], two: dict[str, float]) -> float:
    """The share of the smaller of two boxes that both have."""
    wide = min(one["right"], two["right"]) - max(one["left"], two["left"])
    high = min(one["bottom"], two["bottom"]) - max(one["top"], two["top"])
    least = min(box["width"] * box["height"] for box in (one, two))
    return max(0, wide) * max(0, high) / least


def test_a_whole_house_on_a_phone_keeps_to_what_can_be_read(open_plan: Any) -> None:
    sample = json.loads((Path(__file__).parents[2] / "sample_plans" / "cobble-court.json").read_text("utf-8"))
    house = open_plan(sample, **_PHONE)
    house.page.wait_for_selector(".drawing.is-far")
    house.settle()
    tags = _boxes(house, ".device .tag")
    symbols = house.page.locator(".device .symbol").count()
    assert len(tags) > symbols / 2
    assert symbols == len(sample["levels"][0]["devices"])
    words = tags + _boxes(house, ".room-name")
    assert all(_shared(one, two) < 0.35 for one, two in combinations(words, 2))
    assert not _boxes(house, ".sign-at")

    for _ in range(6):
        house.page.get_by_role("button", name="Zoom in").evaluate("(button) => button.click()")
    house.page.wait_for_selector(".drawing:not(.is-far)")
    house.wait_until("!document.querySelector('.tag.crowded')")


def test_a_tag_without_room_is_read_when_its_device_is_chosen(open_plan: Any) -> None:
    plan = one_room()
    plan["levels"][0]["devices"] = [
        {"id": f"g{i}", "kind": "glass_break", "label": f"GB-{i}", "at": [12 + i % 6, 8 + i // 6]} for i in range(36)
    ]
    plan["levels"][0]["devices"].append(plan["levels"][0]["devices"].pop(14))  # amid the others, and upon them
    house = open_plan(plan, **_PHONE)
    for _ in range(3):
        house.page.get_by_role("button", name="Zoom out").evaluate("(button) => button.click()")
    house.settle()
    house.page.wait_for_selector(".device .tag.crowded", state="attached")
    tags = _boxes(house, ".device .tag")
    assert all(_shared(one, two) < 0.35 for one, two in combinations(tags, 2))
    crowded = house.page.locator(".device:has(.tag.crowded)").last  # it lies on top
    name = crowded.get_attribute("data-id")
    Fingers(house).tap(house.at(*next(one["at"] for one in plan["levels"][0]["devices"] if one["id"] == name)))
    house.page.wait_for_selector(f'.device.selected[data-id="{name}"]')
    seen = f"""document.querySelector('.device[data-id="{name}"] .tag').getBoundingClientRect().width > 0"""
    house.wait_until(seen)


def test_a_long_name_stays_in_its_room(open_plan: Any) -> None:
    plan = one_room()
    words = "The room with the window seat and the piano by the southern windows where children play on all rainy days"
    for name in (f"{words} of spring", "W" * 60):
        plan["levels"][0]["rooms"] = [{"id": "r1", "name": name[:119], "use": "other", "at": [15, 10]}]
        house = open_plan(plan, **_PHONE)
        for _ in range(5):
            house.settle()
            (left, top), (right, bottom) = house.at(0, 20), house.at(30, 0)
            for box in _boxes(house, ".room-name"):
                assert left <= box["left"] <= box["right"] <= right
                assert top <= box["top"] <= box["bottom"] <= bottom
            if house.page.locator(".room-name", has_text="…").count():
                expect(house.page.locator(".room title")).to_have_text(name[:119])
            house.page.get_by_role("button", name="Zoom out").evaluate("(button) => button.click()")
