"""The step Cable: runs and table lead to each other, way-points, risers and cans are dragged, lengths follow."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def wired_house() -> dict[str, Any]:
    """One room with a can, three devices, and a bare level above with one more."""
    plan = one_room(at=[4, 14])
    plan["levels"][0]["devices"] += [
        {"id": "can1", "kind": "can", "at": [26, 10]},
        {"id": "kp1", "kind": "keypad", "at": [6, 10]},
        {"id": "wc1", "kind": "window_contact", "at": [26, 0], "serves": ["o1"]},
    ]
    up = {
        "id": "L2",
        "name": "Upper floor",
        "elevation": 10,
        "devices": [{"id": "sr2", "kind": "siren", "at": [20, 10]}],
    }
    plan["levels"].append(up)
    return plan


@pytest.fixture
def cable_step(open_plan: Any) -> Any:
    house = open_plan(wired_house())
    house.page.get_by_role("button", name="Cable").first.click()
    house.page.wait_for_selector(".layer.cable .run", state="attached")
    house.page.wait_for_selector(".pulls tbody tr")
    house.settle()
    return house


def row(house: Any, device: str) -> Any:
    return house.page.locator(f'.pulls tr[data-device="{device}"]')


def test_bundle_is_drawn_with_its_count(cable_step: Any) -> None:
    expect(cable_step.page.locator(".run-count text").get_by_text("2", exact=True)).not_to_have_count(0)


def test_row_leads_to_the_device_and_the_device_to_its_row(cable_step: Any) -> None:
    row(cable_step, "kp1").get_by_role("button").click()
    cable_step.page.wait_for_selector(".device.keypad.selected")
    expect(cable_step.page.locator(".one-run")).to_contain_text("Run kp1 to can1", use_inner_text=True)
    expect(cable_step.page.locator(".run-chosen.core")).to_have_count(1)
    cable_step.key("Escape")
    cable_step.page.locator("#drawing").focus()
    cable_step.key("f")
    cable_step.press(26, 0)
    cable_step.page.wait_for_selector('.pulls tr.chosen[data-device="wc1"]')


def test_filter_by_cable_leaves_its_pulls(cable_step: Any) -> None:
    cable_step.page.get_by_role("combobox", name="Cable", exact=True).select_option("22/2")
    expect(cable_step.page.locator(".pulls tbody tr")).to_have_count(1)
    expect(cable_step.page.locator(".run-chosen.core")).to_have_count(1)


def test_table_sorts_by_length(cable_step: Any) -> None:
    cable_step.page.locator(".pulls thead").get_by_role("button", name="Cut").click()
    head = cable_step.page.locator(".pulls thead").get_by_role("columnheader", name="Cut")
    expect(head).to_have_attribute("aria-sort", "ascending")
    cuts = cable_step.page.locator(".pulls tbody tr td:nth-child(4)").all_inner_texts()
    feet = [int(cut.split()[0]) for cut in cuts if cut.endswith("ft")]
    assert feet == sorted(feet)
    assert cuts[-1] == "no way to a can"


def test_way_point_drawn_out_lengthens_the_run_and_taken_out_shortens_it(cable_step: Any) -> None:
    row(cable_step, "kp1").get_by_role("button").click()
    before = row(cable_step, "kp1").locator("td").nth(2).inner_text()
    grip = cable_step.page.locator('[data-handle="via+0"] .reach-area')
    grip.wait_for(state="attached")
    cable_step.settle()
    handle = grip.bounding_box()
    x, y = handle["x"] + handle["width"] / 2, handle["y"] + handle["height"] / 2
    cable_step.page.mouse.move(x, y)
    cable_step.settle()
    cable_step.page.mouse.down()
    cable_step.page.mouse.move(x, y - 60, steps=5)
    cable_step.settle()
    cable_step.page.mouse.up()
    cable_step.page.wait_for_selector(".way-points li")
    device = next(one for one in cable_step.saved()["levels"][0]["devices"] if one["id"] == "kp1")
    assert device["note"].startswith("cable via (")
    cable_step.page.wait_for_selector(f'.pulls tr[data-device="kp1"] td:nth-child(4):not(:text-is("{before}"))')
    cable_step.page.get_by_role("button", name="take out").click()
    cable_step.page.wait_for_selector(f'.pulls tr[data-device="kp1"] td:nth-child(4):text-is("{before}")')
    assert not next(one for one in cable_step.saved()["levels"][0]["devices"] if one["id"] == "kp1").get("note")


def test_lengths_follow_a_dragged_can_and_escape_puts_them_back(cable_step: Any) -> None:
    before = row(cable_step, "kp1").locator("td").nth(2).inner_text()
    cable_step.drag((26, 10), (10, 10), hold=True)
    cable_step.page.wait_for_selector(f'.pulls tr[data-device="kp1"] td:nth-child(4):not(:text-is("{before}"))')
    expect(cable_step.page.locator(".cable-totals")).to_contain_text("worked out when dropped", use_inner_text=True)
    cable_step.key("Escape")
    cable_step.page.mouse.up()
    cable_step.page.wait_for_selector(f'.pulls tr[data-device="kp1"] td:nth-child(4):text-is("{before}")')


def test_level_without_a_way_is_told_until_a_riser_is_added_and_dragged(cable_step: Any) -> None:
    expect(row(cable_step, "sr2")).to_contain_text("no way to a can", use_inner_text=True)
    cable_step.page.get_by_role("button", name="Add a riser").click()
    cable_step.page.wait_for_selector('.pulls tr[data-device="sr2"] td:nth-child(4):has-text("ft")')
    (added,) = cable_step.saved()["risers"]
    assert {added["from"], added["to"]} == {"L1", "L2"}
    cable_step.page.wait_for_selector('.layer.cable [data-handle="riser"]', state="attached")
    cable_step.drag(tuple(added["at"]), (20, 17))
    assert cable_step.saved()["risers"][0]["at"] == pytest.approx([20, 17], abs=0.5)


def test_files_are_offered(cable_step: Any) -> None:
    with cable_step.page.expect_download() as download:
        cable_step.page.get_by_role("link", name="Pulls as CSV").click()
    assert download.value.suggested_filename.endswith(".csv")


@pytest.mark.parametrize("width", [1440, 390])
def test_axe_finds_nothing_serious_with_everything_open(cable_step: Any, width: int) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    cable_step.resize(width, 900)
    row(cable_step, "kp1").get_by_role("button").click()
    cable_step.page.wait_for_selector("#inspector h2")
    expect(cable_step.page.locator(".run-chosen.core")).to_have_count(1)
    for summary in cable_step.page.locator('section[aria-label="Cable"] summary').all():
        if summary.is_visible():
            summary.click()
    cable_step.settle()
    found = axe.Axe().run(cable_step.page).response["violations"]
    serious = [
        (fault["id"], fault["nodes"][0]["html"][:200]) for fault in found if fault["impact"] in ("serious", "critical")
    ]
    assert serious == []
    assert cable_step.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
