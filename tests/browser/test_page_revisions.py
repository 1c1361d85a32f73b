"""Revisions on the page: named, compared with clouds on the drawing, approved, brought back; and what was built."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


@pytest.fixture
def handover(open_plan: Any) -> Any:
    plan = one_room(at=[4, 14])
    plan["site"] = {"client": "Ann Lee", "designer": "J. Ash"}
    plan["levels"][0]["devices"].append({"id": "can1", "kind": "can", "at": [26, 10]})
    house = open_plan(plan)
    house.page.get_by_role("button", name="Handover").first.click()
    expect(house.page.locator(".how-it-stands")).to_have_text("No revision is approved.")
    return house


def name_it(house: Any, mark: str, words: str = "") -> None:
    house.page.get_by_role("button", name="Name the plan as it stands…").click()
    house.page.get_by_label("Letter or number").fill(mark)
    house.page.get_by_label("Issued for").fill(words)
    house.page.get_by_role("button", name="Name", exact=True).click()
    expect(house.page.locator(f'.named li[data-mark="{mark}"]')).to_be_visible()


def press_in(house: Any, mark: str, words: str) -> None:
    house.page.locator(f'.named li[data-mark="{mark}"]').get_by_role("button", name=words).click()


def move_detector(house: Any, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Move it on the drawing while the step Handover stays in sight."""
    house.page.locator("#drawing").focus()
    house.key("f")
    house.drag(start, end)
    house.wait_saved()


def test_a_revision_is_named_compared_approved_and_brought_back(handover: Any) -> None:
    page = handover.page
    name_it(handover, "A", "Issued for approval")
    expect(page.locator('.named li[data-mark="A"]')).to_contain_text("Issued for approval")
    move_detector(handover, (4, 14), (20, 8))

    press_in(handover, "A", "Compare revision A with the working plan")
    expect(page.locator(".cloud")).to_have_count(2, timeout=30_000)
    expect(page.locator(".compared")).to_contain_text("1 moved from revision A to the working plan")
    expect(page.locator(".compared .effects")).to_contain_text("Panes covered: 0 of 1 → 1 of 1")
    page.locator('.change[data-change="moved"]').click()
    page.wait_for_selector(".device.glass_break.selected")
    handover.key("Escape")

    press_in(handover, "A", "Approve revision A")
    expect(page.get_by_label("Approved by")).to_have_value("Ann Lee")
    expect(page.locator(".ask-form")).to_contain_text("It is locked as it is")
    page.get_by_label("On", exact=True).fill("2026-11-12")
    page.get_by_role("button", name="Approve and lock").click()
    expect(page.locator('.named li[data-mark="A"] .approved')).to_contain_text(
        "Approved by Ann Lee, 12 Nov 2026. Locked."
    )
    expect(page.locator(".how-it-stands")).to_have_text("1 change since approval by Ann Lee, 12 Nov 2026 (revision A)")
    expect(page.locator('.named li[data-mark="A"]').get_by_role("button", name="Rename")).to_have_count(0)
    expect(page.locator("#strip .approval")).to_have_text("1 change since approval")

    press_in(handover, "A", "Bring back revision A")
    page.get_by_role("button", name="Bring back", exact=True).click()
    expect(page.locator(".how-it-stands")).to_have_text("As approved by Ann Lee, 12 Nov 2026 (revision A)")
    assert handover.saved()["levels"][0]["devices"][0]["at"] == [4, 14]
    expect(page.locator("#strip .approval")).to_have_text("As approved")
    expect(page.locator(".cloud")).to_have_count(0)
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".how-it-stands")).to_contain_text("1 change since approval")
    assert handover.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([20, 8], abs=0.5)


def test_a_withdrawn_approval_is_told_with_its_reason(handover: Any) -> None:
    page = handover.page
    name_it(handover, "1")
    press_in(handover, "1", "Approve revision 1")
    page.get_by_role("button", name="Approve and lock").click()
    press_in(handover, "1", "Withdraw the approval")
    page.get_by_label("Withdrawn by").fill("Ann Lee")
    page.get_by_label("Reason").fill("keypad <b>too high</b>")
    page.get_by_role("button", name="Withdraw", exact=True).click()
    expect(page.locator(".withdrawn")).to_contain_text("Approval withdrawn by Ann Lee")
    expect(page.locator(".withdrawn")).to_contain_text("keypad <b>too high</b>")
    expect(page.locator(".how-it-stands")).to_have_text("No revision is approved.")


def test_everything_is_done_by_keyboard_and_the_focus_comes_back(handover: Any) -> None:
    page = handover.page
    page.get_by_role("button", name="Name the plan as it stands…").focus()
    handover.key("Enter")
    expect(page.get_by_label("Letter or number")).to_be_focused()
    handover.key("Escape")
    expect(page.get_by_role("button", name="Name the plan as it stands…")).to_be_focused()
    handover.key("Enter", "B", "Enter")
    expect(page.locator('.named li[data-mark="B"]')).to_be_visible()


def test_a_letter_that_is_taken_is_refused_beside_the_form(handover: Any) -> None:
    page = handover.page
    name_it(handover, "A")
    move_detector(handover, (4, 14), (20, 8))
    page.get_by_role("button", name="Name the plan as it stands…").click()
    expect(page.get_by_label("Letter or number")).to_have_value("B")
    page.get_by_label("Letter or number").fill("a")
    page.get_by_role("button", name="Name", exact=True).click()
    expect(page.locator(".ask-form .fault")).to_contain_text("a is the name of revision 1")
    expect(page.get_by_label("Letter or number")).to_have_value("a")


def test_with_the_server_away_nothing_typed_is_lost(handover: Any) -> None:
    page = handover.page
    page.get_by_role("button", name="Name the plan as it stands…").click()
    page.get_by_label("Issued for").fill("Issued for rough-in")
    page.route("**/api/plans/**", lambda route: route.abort())
    page.get_by_role("button", name="Name", exact=True).click()
    expect(page.locator(".ask-form .fault")).to_contain_text("the server does not answer")
    page.unroute("**/api/plans/**")
    expect(page.get_by_label("Issued for")).to_have_value("Issued for rough-in")
    page.get_by_role("button", name="Name", exact=True).click()
    expect(page.locator('.named li[data-mark="A"]')).to_contain_text("Issued for rough-in")


def test_what_was_built_is_recorded_beside_the_design(handover: Any) -> None:
    page = handover.page
    page.get_by_text("Device by device").click()
    line = page.locator('.built li[data-device="gb1"]')
    line.get_by_role("button").first.click()
    page.get_by_label("Cable pulled, ft").fill("60")
    page.get_by_label("Off the design, east").fill("1'")
    page.get_by_label("Who").fill("R. Vole")
    page.route("**/as-built", lambda route: route.abort())
    page.get_by_role("button", name="Record", exact=True).click()
    expect(line.locator(".fault")).to_contain_text("What you typed is kept here")
    page.unroute("**/as-built")
    handover.open()
    page.get_by_role("button", name="Handover").first.click()
    page.get_by_text("Device by device").click()
    expect(line).to_contain_text("typed here but not recorded")
    line.get_by_role("button").first.click()
    expect(page.get_by_label("Cable pulled, ft")).to_have_value("60")
    page.get_by_role("button", name="Record", exact=True).click()
    expect(line.locator(".differs")).to_have_count(2)
    expect(line).to_contain_text("60 ft pulled")
    expect(line).to_contain_text("1'-0\" east of it")


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing_serious_in_revisions(handover: Any, width: int, height: int) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    page = handover.page
    name_it(handover, "A")
    move_detector(handover, (4, 14), (20, 8))
    press_in(handover, "A", "Compare revision A with the working plan")
    page.wait_for_selector(".cloud", state="attached")
    handover.resize(width, height)
    press_in(handover, "A", "Approve revision A")
    expect(page.get_by_label("Approved by")).to_be_visible()
    page.get_by_text("Device by device").click()
    page.locator('.built li[data-device="gb1"] > button').click()
    expect(page.get_by_label("Cable pulled, ft")).to_be_visible()
    handover.settle()
    found = axe.Axe().run(page).response["violations"]
    serious = [
        (fault["id"], fault["nodes"][0]["html"][:200]) for fault in found if fault["impact"] in ("serious", "critical")
    ]
    assert serious == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
