"""Drawing on the page: walls by typed lengths, openings on them, undo to the start."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest

from tests.browser.conftest import empty_plan, one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def test_every_plane_of_the_drawing_lets_the_planes_beneath_show(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.press(4, 14)  # selected
    grounds = house.page.evaluate(
        "[...document.querySelectorAll('.plane, .plane *')].filter((part) => getComputedStyle(part).backgroundColor"
        " !== 'rgba(0, 0, 0, 0)' || getComputedStyle(part).backgroundImage !== 'none').map((part) => part.outerHTML)"
    )
    assert grounds == []
    assert house.page.locator(".plane").count() > 5


def test_a_room_is_drawn_by_typed_lengths_and_gets_a_window(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    house.key("w")
    house.press(5, 5)
    for toward, typed in (((20, 5), "14-6"), ((19.5, 18), "12'"), ((6, 17), '174"'), ((5, 6), "12")):
        house.move(*toward)
        house.type_length(typed)
    walls = house.saved()["levels"][0]["walls"]
    assert [round(math.dist(wall["a"], wall["b"]), 6) for wall in walls] == [14.5, 12, 14.5, 12]
    assert walls[-1]["b"] == pytest.approx([5, 5])

    house.key("n")
    house.move(12, 5)
    house.type_length("4-3")
    level = house.saved()["levels"][0]
    assert [(o["kind"], o["wall"], o["width"]) for o in level["openings"]] == [("window", walls[0]["id"], 3)]
    assert min(level["openings"][0]["offset"], 14.5 - level["openings"][0]["offset"] - 3) == pytest.approx(4.25)
    house.wait_strip("0 of 1 panes covered")


def test_a_rectangle_takes_two_presses_and_shares_the_wall_that_stands(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.zoom_out()
    house.key("r")
    house.press(30, 20)
    house.press(40, 10)
    walls = house.saved()["levels"][0]["walls"]
    assert len(walls) == 4 + 3  # the side along x = 30 stands already


def test_undo_leads_back_to_the_start_and_redo_to_the_end(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    start = house.saved()
    house.key("r")
    house.press(0, 0)
    house.press(20, 14)
    house.key("d")
    house.press(10, 0)
    house.key("v", "g")
    house.press(8, 8)
    end = house.saved()
    assert [len(end["levels"][0][family]) for family in ("walls", "openings", "devices")] == [4, 1, 1]
    for _ in range(3):
        house.key("Control+z")
    assert house.saved() == start
    expect(house.page.locator("#undo")).to_be_disabled()
    house.key("Control+y", "Control+Shift+z", "Control+y")
    assert house.saved() == end


def test_a_corner_takes_both_its_walls_and_a_window_keeps_to_its_wall(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.press(30, 10)
    house.drag((30, 20), (33, 20))
    level = house.saved()["levels"][0]
    ends = {wall["id"]: (wall["a"], wall["b"]) for wall in level["walls"]}
    assert ends["w2"][1] == ends["w3"][0] != [30, 20]
    assert level["openings"][0]["offset"] == 24


def test_a_wall_too_short_for_its_window_says_so_and_undo_brings_it_back(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.press(10, 0)
    house.page.locator(".inspector").get_by_label("Length").fill("3'")
    house.page.keyboard.press("Enter")
    expect(house.page.locator("#said-urgent")).to_contain_text("no longer fits")
    assert house.saved()["levels"][0]["openings"] == []
    house.page.locator("#undo").click()
    assert len(house.saved()["levels"][0]["openings"]) == 1


def test_a_bound_is_told_beside_the_field_and_nothing_changes(open_plan: Any) -> None:
    house = open_plan(one_room())
    before = house.saved()
    house.press(26, 0)
    width = house.page.locator(".inspector").get_by_label("Width")
    width.fill("40'")
    expect(house.page.locator(".inspector .fault:visible")).to_contain_text("wider than its wall", use_inner_text=True)
    width.press("Enter")
    house.settle()
    assert house.saved() == before


def test_shift_adds_to_the_selection_and_a_box_selects_what_lies_in_it(open_plan: Any) -> None:
    house = open_plan(one_room(at=[10, 10]))
    house.press(10, 10)
    house.page.keyboard.down("Shift")
    house.press(10, 0)
    house.page.keyboard.up("Shift")
    expect(house.page.locator(".inspector h2")).to_have_text("2 things selected")
    house.key("Escape")
    expect(house.page.locator(".inspector")).to_be_hidden()
    house.drag((5, 5), (15, 17))
    expect(house.page.locator(".inspector h2")).to_have_text("2 things selected")  # the device and the room's name
    house.key("Delete")
    level = house.saved()["levels"][0]
    assert (level["devices"], level["rooms"]) == ([], [])


def test_a_window_slides_along_its_wall_and_shows_both_distances(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.drag((26, 0), (12, 0.5), hold=True)
    words = house.page.locator(".marks .dimension-word")
    expect(words).to_have_count(3)
    expect(words.filter(has_text=re.compile(r"^4'-0\"$"))).not_to_have_count(0)
    house.page.mouse.up()
    opening = house.saved()["levels"][0]["openings"][0]
    assert (opening["wall"], opening["width"]) == ("w1", 4)
    assert opening["offset"] == pytest.approx(10, abs=0.3)


def test_a_split_wall_is_joined_again_with_its_window_in_place(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.press(10, 0)
    house.page.get_by_role("button", name="Split in the middle").click()
    level = house.saved()["levels"][0]
    assert len(level["walls"]) == 5
    assert level["openings"][0]["offset"] == 9
    house.press(10, 0)
    house.page.keyboard.down("Shift")
    house.press(20, 0)
    house.page.keyboard.up("Shift")
    house.page.get_by_role("button", name="Join into one wall").click()
    level = house.saved()["levels"][0]
    assert len(level["walls"]) == 4
    assert level["openings"][0]["offset"] == pytest.approx(24)


def test_things_are_pasted_on_a_level_added_above(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.page.locator("#drawing").focus()
    house.key("Control+a", "Control+c")
    house.page.get_by_role("button", name="Add a level above").click()
    house.page.locator("#drawing").focus()
    house.key("Control+v")
    below, above = house.saved()["levels"]
    assert [len(above[family]) for family in ("walls", "openings", "rooms")] == [4, 1, 1]
    assert {wall["id"] for wall in above["walls"]}.isdisjoint(wall["id"] for wall in below["walls"])
    assert above["openings"][0]["wall"] in {wall["id"] for wall in above["walls"]}
    expect(house.page.locator(".layer.ghost path")).to_have_count(1)
