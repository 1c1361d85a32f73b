"""The tools of the shell on the page: snaps, bays, curves, furniture, rooms by use, measuring, rulers, strings."""

from __future__ import annotations

import json
import math
import re
from itertools import pairwise
from typing import Any

import pytest

from app.plan import room_uses
from tests.browser.conftest import empty_plan, one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _use(house: Any, key: str, tool: str) -> None:
    """Take up a tool by its key; one that is fetched first is waited for."""
    house.page.locator("#drawing").focus()
    house.key(key)
    house.page.wait_for_selector(f'#drawing[data-tool="{tool}"]')


def _expect_snap(house: Any, kind: str) -> None:
    """The mark at the pointer says that it snapped to this."""
    expect(house.page.locator(".marks .snap")).to_have_class(f"snap {kind}")


def _wheel(house: Any, by: int) -> None:
    """Turn the wheel, and wait until what it zooms is drawn."""
    zoom = "document.querySelector('#drawing').style.getPropertyValue('--px')"
    before = house.page.evaluate(zoom)
    house.page.mouse.wheel(0, by)
    house.wait_until(f"{zoom} !== '{before}'")
    house.settle()


def test_each_snap_has_its_mark_and_a_held_key_suspends_it(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("w")
    for kind, at in {"end": (30.1, 20.1), "middle": (15.1, 20.1), "wall": (8.2, 20.1), "grid": (12.1, 7.1)}.items():
        house.move(*at)
        _expect_snap(house, kind)
    house.press(12, 7)
    house.move(12.1, 19.9)
    _expect_snap(house, "perpendicular")
    house.move(16.1, 11.05)
    _expect_snap(house, "angle")
    expect(house.page.locator("#beside")).to_contain_text("45°", use_inner_text=True)
    house.page.keyboard.down("Alt")
    house.move(16.1, 11.3)
    expect(house.page.locator(".marks .snap")).to_have_count(0)
    expect(house.page.locator("#beside")).not_to_contain_text("45°", use_inner_text=True)
    house.page.keyboard.up("Alt")


def test_walls_chain_with_live_length_and_angle_until_a_closing_press(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    house.key("w")
    house.press(5, 5)
    house.move(17, 5)
    expect(house.page.locator("#beside")).to_contain_text(re.compile("^12'-0\" 0°"), use_inner_text=True)
    for corner in ((17, 5), (17, 15), (5, 5)):
        house.press(*corner)
    house.move(25, 10)
    expect(house.page.locator(".wall-to-be")).to_have_count(0)  # the closing press ended the run
    assert len(house.saved()["levels"][0]["walls"]) == 3


def test_a_room_of_typed_sizes_gets_the_name_of_its_use(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    house.key("r")
    house.page.get_by_role("group", name="Use of the next room").get_by_role(
        "button", name="Bedroom", exact=True
    ).click()
    for start in ((0, 0), (20, 0)):
        house.press(*start)
        house.move(start[0] + 4, 4)
        house.type_length("12-6")
        house.type_length("10")
    level = house.saved()["levels"][0]
    assert [(room["name"], room["use"], room["at"]) for room in level["rooms"]] == [
        ("Bedroom", "bedroom", [6.25, 5]),
        ("Bedroom 2", "bedroom", [26.25, 5]),
    ]
    assert {round(math.dist(wall["a"], wall["b"]), 6) for wall in level["walls"]} == {12.5, 10}


def test_a_press_inside_closed_walls_names_the_room_by_the_use_chosen(open_plan: Any) -> None:
    plan = one_room()
    plan["levels"][0]["rooms"] = []
    plan["levels"][0]["walls"].append({"id": "w9", "a": [12, 0], "b": [12, 20]})
    house = open_plan(plan)
    house.key("l")
    house.page.get_by_label("Other uses").select_option(label="Great room")
    house.move(20, 10)
    expect(house.page.locator(".marks .sketch")).to_have_count(1)  # the face that it would name
    house.press(20, 10)
    house.page.get_by_role("group", name="Use of the next room").get_by_role("button", name="Kitchen").click()
    house.press(6, 10)
    rooms = house.saved()["levels"][0]["rooms"]
    assert [(room["name"], room["use"]) for room in rooms] == [("Great room", "great_room"), ("Kitchen", "kitchen")]
    house.wait_strip("0 of 1 panes covered")


def test_the_palette_of_uses_reaches_every_meaning_that_the_rules_know(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("l")
    house.page.wait_for_selector(".room-uses option", state="attached")
    offered = set(house.page.locator(".room-uses option").evaluate_all("all => all.map((one) => one.value)"))
    words = house.page.locator(".room-uses .chips button").all_inner_texts()
    offered |= {"_".join(word.lower().split()) for word in words}
    meanings = [value for name, value in vars(room_uses).items() if isinstance(value, frozenset) and name.isupper()]
    assert len(meanings) >= 7
    assert all(offered & meaning for meaning in meanings)


def test_a_bay_takes_the_place_of_a_stretch_with_three_windows(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.zoom_out()
    _use(house, "b", "bay")
    for label, value in (("Width", "9"), ("Projection", "2'"), ("Angle of its sides", "45")):
        house.page.locator(".options").get_by_label(label).fill(value)
        house.page.keyboard.press("Enter")
    house.move(26, 0)
    expect(house.page.locator("#beside")).to_contain_text("window o1 stands there", use_inner_text=True)
    house.press(15, 20)
    level = house.saved()["levels"][0]
    ends = [(wall["a"], wall["b"]) for wall in level["walls"] if wall["id"] not in ("w1", "w2", "w4")]
    assert ends == [
        ([30, 20], [19.5, 20]),
        ([19.5, 20], [17.5, 22]),
        ([17.5, 22], [12.5, 22]),
        ([12.5, 22], [10.5, 20]),
        ([10.5, 20], [0, 20]),
    ]
    new = level["openings"][1:]
    assert [round(opening["width"], 3) for opening in new] == [1.828, 4, 1.828]
    expect(house.page.locator("#strip")).to_contain_text(re.compile(r"^\s*0 of 4"), use_inner_text=True)
    house.key("Control+z")
    assert len(house.saved()["levels"][0]["walls"]) == 4


def test_a_curved_wall_is_short_walls_and_says_how_far_they_lie_off_it(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.zoom_out()
    _use(house, "a", "arc")
    house.press(30, 4)
    house.press(30, 16)
    house.move(33, 10)
    expect(house.page.locator("#beside")).to_contain_text("straight walls, at most", use_inner_text=True)
    house.type_length("6")  # a rise of 6 ft over a chord of 12: half a circle about (30, 10)
    walls = house.saved()["levels"][0]["walls"][4:]
    corners = [walls[0]["a"], *(wall["b"] for wall in walls)]
    assert (corners[0], corners[-1]) == ([30, 4], [30, 16])
    assert all(math.dist(corner, (30, 10)) == pytest.approx(6) for corner in corners)
    assert all(corner[0] > 29.99 for corner in corners)
    off = 6 - min(math.dist(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), (30, 10)) for a, b in pairwise(corners))
    assert 0 < off <= 1 / 24 + 1e-9
    house.key("Escape", "Control+z")
    assert len(house.saved()["levels"][0]["walls"]) == 4


def test_a_piece_takes_to_the_wall_and_the_corner_and_turns_by_a_key(open_plan: Any) -> None:
    house = open_plan(one_room())
    _use(house, "i", "piece")
    house.page.get_by_role("button", name="Wardrobe").click()
    house.page.wait_for_selector('#drawing[data-tool="piece"]')
    house.move(2.4, 18.9)
    expect(house.page.locator("#beside")).to_contain_text("in the corner", use_inner_text=True)
    house.press(2.4, 18.9)
    house.page.get_by_role("button", name="Dining table").click()
    house.move(15, 10)
    house.key("e")
    house.press(15, 10)
    wardrobe, table = house.saved()["levels"][0]["fixtures"]
    assert (wardrobe["label"], wardrobe["base"], round(wardrobe["top"], 2)) == ("Wardrobe", 0, 6.67)
    sides = [sorted({round(corner[axis], 3) for corner in wardrobe["polygon"]}) for axis in (0, 1)]
    assert sides == [[0.25, 4.25], [17.75, 19.75]]  # flush with both walls' faces
    wide, deep = (max(c[i] for c in table["polygon"]) - min(c[i] for c in table["polygon"]) for i in (0, 1))
    assert (wide, deep) == pytest.approx((40 / 12, 6))
    house.key("v")
    house.press(15, 11)
    fields = house.page.locator(".inspector")
    fields.get_by_label("Width").fill("8'")
    fields.get_by_label("Width").press("Enter")
    ring = house.saved()["levels"][0]["fixtures"][1]["polygon"]
    assert max(c[1] for c in ring) - min(c[1] for c in ring) == pytest.approx(8)


def test_a_piece_is_stopped_by_the_wall_at_its_side(open_plan: Any) -> None:
    house = open_plan(one_room())
    _use(house, "i", "piece")
    house.move(1.5, 18)  # the middle of a sofa of 7 ft, nearer to the west wall than to the north one
    house.press(1.5, 18)
    ring = house.saved()["levels"][0]["fixtures"][0]["polygon"]
    assert max(corner[1] for corner in ring) == pytest.approx(19.75)
    assert min(corner[0] for corner in ring) == pytest.approx(0.25)


def test_stairs_are_drawn_with_their_steps(open_plan: Any) -> None:
    house = open_plan(one_room())
    _use(house, "i", "piece")
    house.page.get_by_role("button", name="Stairs").click()
    house.page.wait_for_selector('#drawing[data-tool="piece"]')
    house.press(15, 10)
    assert house.saved()["levels"][0]["fixtures"][0]["top"] == 4.5
    steps = re.compile(rf"^(M[^M]*){{{12 + 2}}}$")  # 13 treads of about 10 in. on 11 ft, and the arrow
    expect(house.page.locator(".layer.fixtures .piece-lines")).to_have_attribute("d", steps)


def test_measuring_tells_distance_and_direction_and_changes_nothing(open_plan: Any) -> None:
    house = open_plan(one_room())
    before = house.saved()
    _use(house, "u", "measure")
    house.press(0, 0)
    house.press(30, 20)
    expect(house.page.locator("#said")).to_contain_text("36'-0 11/16\"")
    told = "30'-0\" east, 20'-0\" north, 33.7°"
    expect(house.page.locator("#beside")).to_contain_text(told, use_inner_text=True)
    assert house.saved() == before


def test_a_selected_wall_and_room_show_their_dimension_strings(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.zoom_out()
    house.press(10, 0)
    words = house.page.locator(".layer.handles .dimension-word")
    expect(words).to_have_text(["24'-0\"", "4'-0\"", "2'-0\"", "30'-0\""])
    house.press(6, 15)
    expect(words).to_have_text(["29'-6\"", "19'-6\""])


def test_rulers_follow_the_zoom_mark_the_pointer_and_can_be_hidden(open_plan: Any) -> None:
    house = open_plan(one_room())
    words = house.page.locator(".ruler-word")
    house.page.wait_for_selector(".ruler-word")
    house.move(10, 10)
    board = house.page.locator("#drawing").bounding_box()
    x, y = house.at(10, 10)
    across, down = (house.page.locator(f".ruler-pointer.{way}").bounding_box() for way in ("across", "down"))
    assert abs(across["x"] + across["width"] / 2 - x) < 1.5
    assert across["y"] == board["y"]
    assert abs(down["y"] + down["height"] / 2 - y) < 1.5
    assert down["x"] == board["x"]
    first = words.all_text_contents()
    assert "10'" in first
    house.key("+", "+", "+", "+", "+", "+")
    now = "[...document.querySelectorAll('.ruler-word')].map((word) => word.textContent)"
    house.wait_until(f"JSON.stringify({now}) !== JSON.stringify({json.dumps(first)})")
    house.page.locator(".shown summary").click()
    house.page.get_by_label("Rulers").uncheck()
    expect(house.page.locator(".rulers")).to_be_hidden()
    house.open()
    expect(house.page.locator(".rulers")).to_have_count(0)  # as it was left


def test_a_tool_of_a_step_is_laid_down_when_the_step_is_left(open_plan: Any) -> None:
    house = open_plan(one_room())
    board = house.page.locator("#drawing")
    house.key("w")
    expect(board).to_have_attribute("data-tool", "wall")
    house.page.get_by_role("button", name="Cable").first.click()
    expect(board).to_have_attribute("data-tool", "select")
    house.key("u")  # a measure belongs to every step
    house.page.get_by_role("button", name="Shell").first.click()
    expect(board).to_have_attribute("data-tool", "measure")


def test_the_menu_of_what_is_shown_leaves_the_drawing_by_escape_or_a_press_beside_it(open_plan: Any) -> None:
    house = open_plan(one_room())
    opener, menu = house.page.locator(".shown summary"), house.page.locator(".shown .menu")
    opener.click()
    expect(menu).to_be_visible()
    house.page.get_by_label("Grid", exact=True).uncheck()
    expect(menu).to_be_visible()
    house.page.keyboard.press("Escape")
    expect(menu).to_be_hidden()
    expect(opener).to_be_focused()
    house.page.keyboard.press("Enter")
    expect(menu).to_be_visible()
    house.press(10, 10)
    expect(menu).to_be_hidden()


@pytest.mark.parametrize(("width", "height"), [(1440, 900), (390, 844)])
def test_axe_finds_nothing_with_pieces_uses_and_many_selected(open_plan: Any, width: int, height: int) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    house = open_plan(one_room(at=[10, 10]))
    house.resize(width, height)
    for key, tool in (("i", "piece"), ("r", "room"), ("b", "bay"), ("v", "select")):
        _use(house, key, tool)
        if tool == "select":
            house.key("Control+a")
            house.page.wait_for_selector("#inspector :text('things selected')")
        house.settle()
        found = axe.Axe().run(house.page, context=".side").response["violations"]
        assert [(fault["id"], node["html"][:120]) for fault in found for node in fault["nodes"][:2]] == []


def test_kinds_of_thing_and_the_level_below_are_hidden_and_shown(open_plan: Any) -> None:
    plan = one_room(at=[10, 10])
    plan["levels"].append({"id": "L2", "name": "Upper floor", "elevation": 10})
    house = open_plan(plan)
    house.page.locator(".shown summary").click()
    for words, layer in (("Devices", "devices"), ("Room names", "rooms"), ("Grid", "grid")):
        house.page.locator(".menu").get_by_label(words).uncheck()
        expect(house.page.locator(f".layer.{layer}")).to_be_hidden()
        house.page.locator(".menu").get_by_label(words).check()
    house.page.locator("#levels").get_by_role("button", name="Upper floor").click()
    expect(house.page.locator(".layer.ghost path")).to_have_count(1)
    house.page.locator(".shown summary").click()
    house.page.locator(".menu").get_by_label("Level below").uncheck()
    expect(house.page.locator(".layer.ghost path")).to_have_count(0)


def test_wheel_zooms_about_the_pointer_and_never_loses_the_plan(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.move(25, 15)
    before = house.at(25, 15)
    _wheel(house, -300)
    assert house.at(25, 15) == pytest.approx(before, abs=1.5)
    assert house.at(0, 0)[0] < before[0] - 400  # it is larger
    weight = house.page.locator(".wall-edge").last.evaluate("(edge) => getComputedStyle(edge).vectorEffect")
    assert weight == "non-scaling-stroke"
    house.page.keyboard.down(" ")
    for _ in range(6):
        house.page.mouse.move(200, 450)
        house.page.mouse.down()
        house.page.mouse.move(1000, 450, steps=3)
        house.page.mouse.up()
    house.page.keyboard.up(" ")
    house.settle()
    box = house.page.locator("#drawing").bounding_box()
    assert house.at(0, 10)[0] < box["x"] + box["width"]  # some of it stays in the window
    house.page.mouse.move(600, 450)
    _wheel(house, 30000)
    assert abs(house.at(30, 0)[0] - house.at(0, 0)[0]) >= 14  # not smaller than half a pixel a foot
    house.key("f")
    assert house.at(30, 0)[0] - house.at(0, 0)[0] > box["width"] / 2
