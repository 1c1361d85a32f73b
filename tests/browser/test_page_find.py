"""Find anything by typing, the tour of the first run, and help: by keys alone, with roles that are read out."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import empty_plan, one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _two_levels() -> dict[str, Any]:
    plan = one_room(at=[4, 14])
    plan["levels"].append(
        {
            "id": "L2",
            "name": "Upper floor",
            "elevation": 10,
            "walls": [{"id": "u1", "a": [0, 0], "b": [30, 0]}],
            "devices": [{"id": "kp1", "kind": "keypad", "at": [12, 1], "label": "KP-hall"}],
        }
    )
    return plan


def _find(house: Any, words: str) -> None:
    house.key("/")
    house.page.wait_for_selector("#find[open]")
    house.page.keyboard.type(words)
    house.settle()


def test_a_thing_of_another_level_is_found_by_its_label_and_shown(open_plan: Any) -> None:
    house = open_plan(_two_levels())
    _find(house, "kp-hall")
    expect(house.page.locator("#find [role=option] b").first).to_have_text("KP-hall", use_inner_text=True)
    house.key("Enter")
    house.page.wait_for_selector("#find", state="hidden")
    expect(house.page.locator('#levels [aria-pressed="true"]')).to_have_text("Upper floor", use_inner_text=True)
    house.page.wait_for_selector(".device.selected[data-id=kp1]")
    house.settle()
    box = house.page.locator("#drawing").bounding_box()
    house.wait_at((12, 1), (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2), within=2)


@pytest.mark.parametrize(
    ("words", "group", "title"),
    [
        ("o1", "Opening", "Window o1"),
        ("great room", "Room", "Great room"),
        ("glass break", "Tool", "Glass-break detector"),
        ("glass.uncovered", "Finding", ""),
        ("o1/1 uncovered", "Pane", "Pane o1/1"),
        ("handover", "Step", "Handover"),
        ("upper", "Level", "Upper floor"),
        ("undo", "Command", "Undo"),
    ],
)
def test_what_is_found(open_plan: Any, words: str, group: str, title: str) -> None:
    house = open_plan(_two_levels())
    _find(house, words)
    line = house.page.locator("#find [role=option]").filter(has=house.page.locator(f".find-group:text-is('{group}')"))
    expect(line.first.locator("b")).to_contain_text(title, use_inner_text=True)


def test_the_list_is_driven_by_arrows_and_told_to_screen_readers(open_plan: Any) -> None:
    house = open_plan(_two_levels())
    house.key("Control+k")
    field = house.page.get_by_role("combobox", name="Find anything")
    expect(field).to_be_focused()
    expect(field).to_have_attribute("aria-expanded", "false")
    house.page.keyboard.type("wall")
    expect(field).to_have_attribute("aria-expanded", "true")
    expect(field).to_have_attribute("aria-activedescendant", "found-0")
    house.key("ArrowDown")
    expect(field).to_have_attribute("aria-activedescendant", "found-1")
    expect(house.page.get_by_role("option", selected=True)).to_have_attribute("id", "found-1")
    house.key("ArrowUp", "ArrowUp")
    last = house.page.get_by_role("option").count() - 1
    expect(field).to_have_attribute("aria-activedescendant", f"found-{last}")
    house.page.keyboard.type(" that is not there")
    expect(house.page.locator("#find [role=status]")).to_contain_text("Nothing is called")
    house.key("Escape")
    expect(house.page.locator("#find")).to_be_hidden()


def test_a_command_found_is_done_and_a_tool_found_is_taken(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    _find(house, "select all")
    house.key("Enter")
    house.page.wait_for_selector("#inspector :text('things selected')")
    _find(house, "siren")
    house.key("Enter")
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "siren")


def test_the_tour_of_a_newcomer_blocks_nothing_and_is_left_for_good(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]), newcomer=True)
    house.page.wait_for_selector(".tour")
    expect(house.page.locator(".tour")).to_contain_text("1 of 3")
    house.key("w")  # the drawing's keys are obeyed meanwhile
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "wall")
    house.key("Escape")
    house.page.wait_for_selector(".tour", state="detached")
    house.open()
    house.page.wait_for_timeout(300)
    expect(house.page.locator(".tour")).to_have_count(0)


def test_the_tour_goes_through_its_steps_and_back_when_called_from_help(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.page.get_by_role("button", name="Cable").first.click()
    house.key("?")
    house.page.get_by_role("button", name="Show the tour").click()
    step = house.page.locator(".step[aria-current]")
    for number, name in ((1, "Shell"), (2, "Devices"), (3, "Proof")):
        house.page.wait_for_selector(f".tour :text('{number} of 3')")
        house.page.wait_for_selector(f'body[data-step="{name.lower()}"]')
        expect(step).to_contain_text(name)
        house.key("Enter")  # the focus stands on Next, then on Done
    house.page.wait_for_selector(".tour", state="detached")
    expect(step).to_contain_text("Cable")


def test_help_tells_every_rule_with_its_source(open_plan: Any) -> None:
    house = open_plan(one_room())
    rules = house.page.evaluate("fetch('/api/rules').then((answer) => answer.json())")
    house.page.locator("#help-button").click()
    house.page.wait_for_selector("#help[open] .rules li")
    words = house.page.locator("#help .rules").inner_text()
    assert len(rules) > 30
    for rule in rules:
        assert rule["name"] in words
        assert rule["source"].strip() in words


def test_an_empty_plan_says_the_first_step(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    house.page.get_by_role("button", name="Draw the first room").click()
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "room")


def test_a_newcomer_finds_samples_and_opens_one(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.page.goto(house.server.url)
    card = house.page.locator(".card", has_text="Cobble Court").first
    assert card.locator("img").evaluate("(one) => one.decode().then(() => one.naturalWidth > 0)")
    card.locator("a.open").click()
    house.page.wait_for_selector("body[data-ready]")
    expect(house.page.locator(".layer.walls path")).not_to_have_count(0)
    covered = house.page.locator('#strip [data-part="covered"]')
    expect(covered).to_contain_text("panes covered")
    assert int(covered.inner_text().split(" of ")[1].split()[0]) > 20
