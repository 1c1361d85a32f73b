"""A plan from a drawing on its page: by keyboard, as wide as a phone, clean for axe; what is taken opens as a plan."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.conftest import resize, settle, wait_until

FILES = Path(__file__).parents[1] / "intake" / "files"
DRAWING = FILES / "plum-lane-tarikjabiri-dxf.dxf"


@pytest.fixture
def intake(browser: Any, server: Any) -> Iterator[Any]:
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    context.set_default_timeout(30_000)
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda line: faults.append(line.text) if "Content Security Policy" in line.text else None)
    page.goto(f"{server.url}/intake")
    yield page
    context.close()
    assert not faults, faults


def _choose(page: Any, path: Path) -> None:
    page.set_input_files("#file", path)
    page.wait_for_selector("#take:not([disabled])")


def _violations(page: Any) -> list[str]:
    found = Axe().run(page).response["violations"]
    return [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in found]


def test_a_drawing_is_read_shown_and_taken(intake: Any, server: Any) -> None:
    _choose(intake, DRAWING)
    expect(intake.locator("#counts")).to_contain_text("8 walls")
    expect(intake.locator("#drawing g[data-layer]").nth(3)).to_be_attached()
    intake.locator("#take").click()
    intake.wait_for_url("**/plans/*")
    plan = server.plan(intake.url.rsplit("/", 1)[1])
    assert len(plan["levels"][0]["walls"]) == 8
    assert {room["name"] for room in plan["levels"][0]["rooms"]} >= {"Kitchen", "Study"}


def test_a_layer_left_out_is_gone_from_the_plan_and_told(intake: Any) -> None:
    _choose(intake, DRAWING)
    intake.get_by_label("A-DOOR").select_option("ignore")
    expect(intake.locator("#unread")).to_contain_text("the layer is left out")
    expect(intake.locator("#counts")).not_to_contain_text("6 doors")


def test_by_keyboard_alone(intake: Any) -> None:
    _choose(intake, DRAWING)
    intake.get_by_label("Window sill").focus()
    intake.keyboard.press("Control+A")
    intake.keyboard.type("2'-6\"")
    expect(intake.locator("#notes")).to_contain_text("2'-6\"")
    intake.keyboard.press("Enter")
    intake.wait_for_url("**/plans/*")


def test_a_length_that_cannot_be_read_is_told_beside_it(intake: Any) -> None:
    _choose(intake, DRAWING)
    intake.get_by_label("Ceiling").fill("nine")
    expect(intake.locator("#length-fault")).to_contain_text("is not a length")
    expect(intake.locator("#take")).to_be_disabled()


def test_another_file_is_refused_in_a_line(intake: Any, tmp_path: Path) -> None:
    other = tmp_path / "plan.dxf"
    other.write_bytes(b"%PDF-1.7 not a drawing")
    intake.set_input_files("#file", other)
    expect(intake.locator("#faults")).to_contain_text("PDF")


def test_axe_finds_nothing_wide_or_narrow(intake: Any) -> None:
    assert _violations(intake) == []
    _choose(intake, DRAWING)
    assert _violations(intake) == []
    resize(intake, 390, 844)
    assert _violations(intake) == []
    assert intake.evaluate("document.documentElement.scrollWidth") == 390


STOREYS = FILES / "two-storeys-makerjs.dxf"


def test_drawings_of_a_sheet_become_levels(intake: Any, server: Any) -> None:
    _choose(intake, STOREYS)
    expect(intake.locator("#notes")).to_contain_text("2 drawings stand apart")
    intake.locator("#drawing-2").select_option("1")
    intake.get_by_label("Name of the level of drawing 2").fill("Upstairs")
    expect(intake.locator("#notes")).to_contain_text("Upstairs is moved")
    expect(intake.locator("#drawing g.drawings text").nth(1)).to_have_text("2: level 2")
    intake.locator("#take:not([disabled])").click()
    intake.wait_for_url("**/plans/*")
    levels = server.plan(intake.url.rsplit("/", 1)[1])["levels"]
    assert [(level["name"], level["elevation"]) for level in levels] == [("Level 1", 0), ("Upstairs", 10)]


def test_a_shared_point_is_picked_in_the_picture(intake: Any) -> None:
    _choose(intake, STOREYS)
    intake.locator("#drawing-2").select_option("1")
    expect(intake.locator("#notes")).to_contain_text("is moved")
    answered = "!document.querySelector('#take').disabled || !document.querySelector('#faults').hidden"
    for number in (1, 2):
        wait_until(intake, answered)  # nothing moves under the press then
        intake.get_by_label(f"Pick the shared point of drawing {number}").click()
        settle(intake)  # the page has scrolled to the button
        frame = intake.locator("#drawing g.drawings rect").nth(number - 1).bounding_box()
        intake.mouse.click(frame["x"] + 2, frame["y"] + frame["height"] - 2)
        expect(intake.get_by_label(f"Shared point in drawing {number}")).not_to_have_value("")
    expect(intake.locator("#notes")).to_contain_text("by the point given in both drawings")
    expect(intake.locator("#notes")).to_contain_text("moved 18.898 m west")  # 62 ft, as drawn


def test_drawings_left_out_are_told_and_axe_finds_nothing(intake: Any) -> None:
    _choose(intake, FILES / "two-storeys-dxf-writer.dxf")
    expect(intake.locator("#unread")).to_contain_text("SOUTH ELEVATION")
    assert _violations(intake) == []
    resize(intake, 390, 844)
    assert _violations(intake) == []
    assert intake.evaluate("document.documentElement.scrollWidth") == 390
