"""The page for everyone: axe finds nothing serious on a wide and a narrow screen, touch drags a detector."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import one_room

pytestmark = pytest.mark.browser


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
@pytest.mark.parametrize("step", ["Shell", "Devices", "Proof", "Cable", "Handover"])
def test_axe_finds_nothing_serious(open_plan: Any, width: int, height: int, step: str) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    house = open_plan(one_room(at=[4, 14]))
    house.page.set_viewport_size({"width": width, "height": height})
    house.page.get_by_role("button", name=step).first.click()
    house.page.locator('[data-part="uncovered"]').click()
    found = axe.Axe().run(house.page).response["violations"]
    serious = [
        (fault["id"], fault["nodes"][0]["html"][:200]) for fault in found if fault["impact"] in ("serious", "critical")
    ]
    assert serious == []


def test_the_narrow_page_does_not_scroll_sideways(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.page.set_viewport_size({"width": 390, "height": 844})
    assert house.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_finger_drags_a_detector(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]), has_touch=True)
    house.page.set_viewport_size({"width": 390, "height": 844})
    house.key("f")
    house.page.wait_for_timeout(100)  # two frames, until the view has been drawn anew
    start, end = house.at(4, 14), house.at(24, 8)
    client = house.page.context.new_cdp_session(house.page)
    spots = [(start[0] + (end[0] - start[0]) * i / 10, start[1] + (end[1] - start[1]) * i / 10) for i in range(11)]
    for i, (x, y) in enumerate(spots):
        kind = "touchMove" if i else "touchStart"
        client.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y}]})
    client.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    assert house.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([24, 8], abs=0.5)
    assert "1 of 1 panes covered" in house.strip()


def test_help_lists_every_key_that_the_page_obeys(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("?")
    house.page.wait_for_selector("#help[open] .rules li")
    words = house.page.locator("#help").inner_text()
    for told in ("Undo", "Do again", "Duplicate", "Fit the level", "Wall", "Glass-break detector", "Suspend snapping"):
        assert told in words
    house.key("Escape")
    assert not house.page.locator("#help").is_visible()
