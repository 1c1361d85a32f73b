"""Nothing is lost: two tabs on one plan, a server that is killed, faults that the server finds."""

from __future__ import annotations

import re
from typing import Any

import pytest

from tests.browser.conftest import PlanPage, one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _rename(house: PlanPage, name: str) -> None:
    house.page.locator("#plan-name").fill(name)
    house.page.keyboard.press("Enter")


def _two_tabs(open_plan: Any) -> tuple[PlanPage, PlanPage]:
    first = open_plan(one_room())
    second = PlanPage(first.page.context.new_page(), first.server, first.id)
    _rename(first, "By the first")
    first.wait_saved()
    _rename(second, "By the second")
    second.page.wait_for_selector("#conflict[open]")
    return first, second


def test_the_later_of_two_tabs_is_told_and_nothing_is_overwritten(open_plan: Any) -> None:
    first, second = _two_tabs(open_plan)
    assert first.server.plan(first.id)["name"] == "By the first"
    expect(second.page.locator("#saved")).to_contain_text("changed elsewhere")
    second.page.get_by_role("button", name="Take theirs").click()
    second.page.wait_for_selector("#conflict", state="hidden")
    expect(second.page.locator("#plan-name")).to_have_value("By the first")
    assert second.saved()["name"] == "By the first"


def test_the_later_tab_may_keep_its_own_as_a_new_revision(open_plan: Any) -> None:
    _, second = _two_tabs(open_plan)
    second.page.get_by_role("button", name="Keep mine").click()
    assert second.saved()["name"] == "By the second"


def test_the_later_tab_may_save_its_own_as_a_copy(open_plan: Any) -> None:
    first, second = _two_tabs(open_plan)
    second.page.get_by_role("button", name="Save mine as a copy").click()
    second.page.wait_for_url(lambda url: first.id not in url)
    second.page.wait_for_selector("body[data-ready]")
    expect(second.page.locator("#plan-name")).to_have_value("By the second (copy)")
    assert first.server.plan(first.id)["name"] == "By the first"


def test_what_was_drawn_while_the_server_was_killed_outlives_the_tab(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.server.kill()
    try:
        house.drag((4, 14), (20, 10))
        house.page.wait_for_selector('#saved[data-state="away"]')
        expect(house.page.locator("#saved")).to_contain_text("kept here")
        house.page.close()
    finally:
        house.server.start()
    again = PlanPage(house.page.context.new_page(), house.server, house.id)
    assert again.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([20, 10], abs=0.2)
    again.key("Control+z")
    assert again.saved()["levels"][0]["devices"][0]["at"] == [4, 14]


def test_a_reload_while_the_server_does_not_answer_loses_nothing(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.page.route("**/api/plans/**", lambda route: route.abort("connectionrefused"))
    house.drag((4, 14), (20, 10))
    house.page.wait_for_selector('#saved[data-state="away"]')
    house.page.unroute("**/api/plans/**")
    house.open()
    assert house.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([20, 10], abs=0.2)


def test_changes_made_while_a_slow_save_runs_are_saved_one_after_the_other(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.page.evaluate(
        """() => {
            const send = window.fetch;
            window.fetch = async (address, how) => {
                if (how?.method === "PUT") await new Promise((late) => setTimeout(late, 1500));
                return send(address, how);
            };
        }"""
    )
    house.press(4, 14)
    for _ in range(4):
        house.key("Shift+ArrowRight")
        house.page.wait_for_timeout(300)  # longer than the pause before a save, so that each asks for one
    house.wait_until("['saved', 'conflict'].includes(document.querySelector('#saved').dataset.state)")
    expect(house.page.locator("#saved")).to_have_attribute("data-state", "saved")
    assert house.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([8, 14], abs=0.01)


def test_a_check_that_a_busy_server_refuses_is_asked_for_again(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    refused: list[str] = []

    def busy(route: Any) -> None:
        refused.append(route.request.url)
        route.fulfill(status=503, content_type="application/problem+json", body='{"status": 503, "detail": "busy"}')

    house.page.route("**/check", busy, times=1)
    house.drag((4, 14), (20, 10))
    house.wait_saved()
    assert len(refused) == 1


def test_the_page_sends_again_by_itself_when_the_server_is_back(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.server.kill()
    try:
        _rename(house, "Drawn offline")
        house.page.wait_for_selector('#saved[data-state="away"]')
    finally:
        house.server.start()
    house.page.wait_for_selector('#saved[data-state="saved"]', timeout=60_000)  # it tries again 15 s apart at most
    assert house.server.plan(house.id)["name"] == "Drawn offline"


def test_a_first_pass_tells_that_it_works_and_can_be_stopped(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.page.route("**/draft", lambda route: None)  # an answer that takes for ever
    house.page.get_by_role("button", name="Devices").first.click()
    house.page.get_by_role("button", name="Propose a first pass").click()
    part = house.page.locator(".first-pass")
    part.get_by_role("progressbar").wait_for()
    part.get_by_text("Working out where devices could go").wait_for()
    expect(part.get_by_role("timer")).to_contain_text(re.compile(r"\b[1-9]\d* s"))
    part.get_by_role("button", name="Stop").click()
    part.get_by_text("Stopped; nothing was changed").wait_for()
    expect(part.get_by_role("button", name="Propose a first pass")).to_be_enabled()
    assert house.saved()["levels"][0].get("devices", []) == []
