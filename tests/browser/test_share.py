"""The share page on a phone with no network: it asks for nothing, runs its script, and answers a finger."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from app.documents.plan_answers import Edition, PlanAnswers
from app.documents.share.page import share_page
from app.plan.reading import plan_from
from tests.browser.conftest import playwright_api, settle, wait_until
from tests.documents.handed_over import SCRIPT, value

pytestmark = pytest.mark.browser
expect = playwright_api.expect
EDITION = Edition("7", "2026-03-02T09:30:00+00:00")


class Phone:
    """The page open at 390 × 844 with touch and no network."""

    def __init__(self, page: Any, path: Path) -> None:
        self.page = page
        self.asked: list[str] = []
        self.said: list[str] = []
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("console", lambda message: self.said.append(message.text))
        page.on("pageerror", lambda error: self.said.append(str(error)))
        page.on("dialog", lambda dialog: self.said.append(dialog.message))
        page.goto(path.as_uri())

    def tap(self, thing: str) -> None:
        self.page.locator(f'figure:not([hidden]) .taps [data-thing="{thing}"]').tap()

    def window(self) -> list[float]:
        """The picture's viewBox."""
        box = self.page.locator("figure:not([hidden]) > svg").get_attribute("viewBox")
        return [float(number) for number in box.split()]

    def wait_window(self, wide: float, within: float) -> None:
        """Wait until the picture's viewBox is so wide."""
        shown = "document.querySelector('figure:not([hidden]) > svg').getAttribute('viewBox').split(' ')[2]"
        wait_until(self.page, f"Math.abs({shown} - {wide}) <= {within}")


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("shared") / "share.html"
    path.write_bytes(share_page(PlanAnswers.of(plan_from(value())), EDITION))
    return path


@pytest.fixture
def phone(browser: Any, shared: Path) -> Iterator[Phone]:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, offline=True)
    opened = Phone(context.new_page(), shared)
    yield opened
    said, asked = opened.said, opened.asked
    context.close()
    assert said == []
    assert asked == [shared.as_uri()]


def test_fits_a_phone_and_axe_finds_nothing(phone: Phone) -> None:
    from axe_playwright_python.sync_playwright import Axe

    assert phone.page.evaluate("document.documentElement.scrollWidth") == 390
    for look in ("light", "dark"):
        if look == "dark":
            dark = phone.page.get_by_role("button", name="Dark")
            plain = phone.page.evaluate("getComputedStyle(document.body).backgroundColor")
            dark.tap()
            expect(phone.page.locator("body")).not_to_have_css("background-color", plain)
            settle(phone.page)
        found = Axe().run(phone.page).response["violations"]
        assert [(one["id"], [node["html"] for node in one["nodes"]]) for one in found] == []


def test_a_tap_on_a_device_tells_its_facts(phone: Phone) -> None:
    phone.tap("gb1")
    card = phone.page.locator("#card")
    for words in ("Glass-break detector", "9'-0\"", "22/4", "Great room"):
        expect(card).to_contain_text(words, use_inner_text=True)
    phone.page.keyboard.press("Escape")
    expect(card).to_be_hidden()


def test_a_finger_beside_a_symbol_means_it(phone: Phone) -> None:
    box = phone.page.locator('figure:not([hidden]) .taps [data-thing="can1"]').bounding_box()
    phone.page.touchscreen.tap(box["x"] + box["width"] + 6, box["y"] + box["height"] / 2)
    expect(phone.page.locator("#card h2")).to_have_text("can1", use_inner_text=True)


def test_a_tap_on_glass_tells_why_it_is_not_covered(phone: Phone) -> None:
    phone.tap("w2/1")
    expect(phone.page.locator("#card")).to_contain_text("not covered", use_inner_text=True)


def test_a_row_leads_to_its_thing_on_the_plan(phone: Phone) -> None:
    phone.page.locator("#devices > summary").tap()
    phone.page.locator('#devices a[data-show="sr1"]').tap()
    expect(phone.page.locator("figure:not([hidden])")).to_have_attribute("data-level", "L2")
    expect(phone.page.locator("#card h2")).to_have_text("sr1", use_inner_text=True)


def test_levels_and_cable_are_chosen_by_their_buttons(phone: Phone) -> None:
    expect(phone.page.locator("figure:visible")).to_have_count(1)
    phone.page.get_by_role("button", name="Obergeschoß").tap()
    phone.page.get_by_role("button", name="Cable").tap()
    shown = phone.page.locator("figure:visible")
    expect(shown).to_have_attribute("data-level", "L2")
    expect(shown).to_have_attribute("data-shows", "cable")


def test_two_fingers_bring_it_closer_about_their_middle(phone: Phone) -> None:
    before = phone.window()
    phone.page.evaluate(
        """() => {
            const svg = document.querySelector("figure:not([hidden]) > svg");
            const box = svg.getBoundingClientRect();
            const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
            const point = (type, pointerId, dx) =>
                svg.dispatchEvent(new PointerEvent(type, { pointerId, clientX: x + dx, clientY: y, bubbles: true }));
            svg.setPointerCapture = () => {};
            point("pointerdown", 1, -20);
            point("pointerdown", 2, 20);
            point("pointermove", 1, -40);
            point("pointermove", 2, 40);
            point("pointerup", 1, -40);
            point("pointerup", 2, 40);
        }"""
    )
    phone.wait_window(before[2] / 2, within=0.01 * before[2] / 2)
    phone.page.get_by_role("button", name="All").tap()
    phone.wait_window(before[2], within=1e-6 * before[2])
    assert phone.window() == pytest.approx(before)


def test_the_finder_leaves_the_rows_that_hold_every_word(phone: Phone) -> None:
    phone.page.get_by_label("Find in the tables").fill("glass-break great")
    rows = phone.page.locator("#devices tbody tr:visible")
    expect(rows).to_have_count(1)
    expect(rows).to_contain_text("GB-1", use_inner_text=True)
    expect(phone.page.locator(".found")).to_contain_text("rows found", use_inner_text=True)


def test_names_are_words_on_the_page(phone: Phone) -> None:
    expect(phone.page.locator("body")).to_contain_text(SCRIPT, use_inner_text=True)


def test_without_its_script_all_levels_and_tables_are_there(browser: Any, shared: Path) -> None:
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(shared.as_uri())
    expect(page.locator("figure:visible")).to_have_count(4)
    expect(page.locator(".bar")).to_be_hidden()
    context.close()


def test_print_shows_all_of_it(phone: Phone) -> None:
    phone.page.evaluate("dispatchEvent(new Event('beforeprint'))")
    phone.page.emulate_media(media="print")
    expect(phone.page.locator("figure:visible")).to_have_count(4)
    expect(phone.page.locator("details:not([open])")).to_have_count(0)
    expect(phone.page.locator(".bar")).to_be_hidden()
