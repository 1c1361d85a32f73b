"""Editing on the page: many things at once, walls moved, cut and lengthened, levels copied, each one undo step."""

from __future__ import annotations

import math
from typing import Any

import pytest

from tests.browser.conftest import empty_plan, one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _two_rooms() -> dict[str, Any]:
    """Two rooms side by side, 20 and 10 ft wide, 14 ft deep; a door in the wall between."""
    plan = empty_plan("Two rooms")
    ends = {
        "w1": ([0, 0], [20, 0]),
        "w2": ([20, 0], [30, 0]),
        "w3": ([30, 0], [30, 14]),
        "w4": ([30, 14], [0, 14]),
        "w5": ([0, 14], [0, 0]),
        "w6": ([20, 0], [20, 14]),
    }
    level = plan["levels"][0]
    level["walls"] = [{"id": wall, "a": a, "b": b, "thickness": 0.5} for wall, (a, b) in ends.items()]
    level["openings"] = [
        {"id": "o1", "wall": "w6", "kind": "door", "offset": 2, "width": 3, "hinge": "a"},
        {"id": "o2", "wall": "w3", "kind": "window", "offset": 5, "width": 4, "sill": 3, "head": 6.5},
    ]
    level["rooms"] = [{"id": "r1", "name": "Den", "use": "den", "at": [8, 11]}]
    level["devices"] = [
        {"id": "m1", "kind": "motion", "label": "MD-1", "at": [0.5, 0.5], "facing": 30},
        {"id": "wc1", "kind": "window_contact", "label": "WC-1", "at": [30, 7], "serves": ["o2"]},
    ]
    return plan


def _wall(level: dict[str, Any], wall: str) -> tuple[list[float], list[float]]:
    found = next(entry for entry in level["walls"] if entry["id"] == wall)
    return found["a"], found["b"]


def _ends(level: dict[str, Any]) -> list[frozenset[tuple[float, ...]]]:
    return [frozenset(tuple(round(v, 3) for v in end) for end in (wall["a"], wall["b"])) for wall in level["walls"]]


def test_a_wall_is_dragged_square_to_itself_and_what_meets_it_follows(open_plan: Any) -> None:
    house = open_plan(_two_rooms())
    house.drag((20, 10), (17, 12))
    level = house.saved()["levels"][0]
    (a, b) = _wall(level, "w6")
    assert a[0] == b[0] == pytest.approx(17, abs=0.3)
    assert (a[1], b[1]) == (0, 14)  # it slid along the wall in one piece above, and along the two in line below
    assert _wall(level, "w1")[0] == [0, 0]
    assert len(level["openings"]) == 2
    house.key("Control+z")
    assert _wall(house.saved()["levels"][0], "w6") == ([20, 0], [20, 14])


def test_a_stretch_in_line_with_others_leaves_a_jog_closed_by_a_short_wall(open_plan: Any) -> None:
    house = open_plan(_two_rooms())
    house.drag((25, 0), (25, 3))  # inward: the wall between the rooms draws back with it
    level = house.saved()["levels"][0]
    (a, b) = _wall(level, "w2")
    up = a[1]
    assert a == [20, up]
    assert b == [30, up]
    assert up == pytest.approx(3, abs=0.3)
    assert _wall(level, "w1") == ([0, 0], [20, 0])
    assert frozenset({(20.0, 0.0), (20.0, round(up, 3))}) in _ends(level)
    assert len(level["walls"]) == 7


def test_a_typed_length_keeps_the_room_square_and_the_end_that_stays(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.press(10, 0)
    fields = house.page.locator(".inspector")
    fields.get_by_label("End that stays").select_option(label="East end")
    fields.get_by_label("Length").fill("25'")
    fields.get_by_label("Length").press("Enter")
    level = house.saved()["levels"][0]
    assert _ends(level) == [
        frozenset(side) for side in ({(5, 0), (30, 0)}, {(30, 0), (30, 20)}, {(30, 20), (5, 20)}, {(5, 20), (5, 0)})
    ]
    assert level["openings"][0]["offset"] == pytest.approx(19)  # as far from the east end as before


def test_a_wall_is_cut_where_it_is_pressed_and_not_through_a_window(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.press(10, 0)
    house.page.get_by_role("button", name="Cut at a point").click()
    house.page.wait_for_selector('#drawing[data-tool="cut"]')
    house.press(26, 0)
    expect(house.page.locator("#said-urgent")).to_contain_text("Window o1 stands across")
    house.move(8, 0)
    house.type_length("7-6")
    level = house.saved()["levels"][0]
    lengths = [math.dist(wall["a"], wall["b"]) for wall in level["walls"]]
    assert len(lengths) == 5
    assert 7.5 in lengths
    assert level["openings"][0]["offset"] == pytest.approx(24 - 7.5)


def test_a_deleted_wall_names_the_openings_that_go_with_it(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.press(10, 0)
    house.key("Delete")
    expect(house.page.locator("#said-urgent")).to_contain_text("with window o1 deleted")
    house.key("Control+z")
    assert len(house.saved()["levels"][0]["openings"]) == 1


def test_all_is_mirrored_with_facings_and_hinges_in_one_step(open_plan: Any) -> None:
    house = open_plan(_two_rooms())
    house.page.locator("#drawing").focus()
    house.key("Control+a", "h")
    level = house.saved()["levels"][0]
    assert _wall(level, "w6") == ([10, 0], [10, 14])
    door = level["openings"][0]
    assert (door["offset"], door["hinge"]) == (2, "a")  # still at the jamb nearer to its wall's start
    assert [device["facing"] for device in level["devices"] if device["kind"] == "motion"] == [150]
    assert level["devices"][1]["at"] == [0, 7]
    house.key("Shift+H")
    assert house.saved()["levels"][0]["devices"][0]["facing"] == 210
    house.key("Control+z", "Control+z")
    expect(house.page.locator("#undo")).to_be_disabled()
    assert house.saved()["levels"][0]["devices"][0]["facing"] == 30


def test_all_is_turned_by_a_quarter_and_by_a_typed_angle(open_plan: Any) -> None:
    house = open_plan(_two_rooms())
    house.page.locator("#drawing").focus()
    house.key("Control+a", "q")
    level = house.saved()["levels"][0]
    assert level["devices"][0]["facing"] == 120
    assert _wall(level, "w6") == ([22, 12], [8, 12])  # about the middle, (15, 7)
    house.key("e")
    house.page.locator(".inspector").get_by_role("textbox", name="Turn by").fill("30")
    house.page.keyboard.press("Enter")
    level = house.saved()["levels"][0]
    assert level["devices"][0]["facing"] == 60
    (a, b) = _wall(level, "w6")
    assert math.dist(a, b) == pytest.approx(14)
    assert math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) == pytest.approx(120)
    assert len(level["openings"]) == 2


def test_a_door_alone_is_hung_on_its_other_jamb(open_plan: Any) -> None:
    house = open_plan(_two_rooms())
    house.press(20, 3.5)
    house.key("h")
    assert house.saved()["levels"][0]["openings"][0]["hinge"] == "b"


def test_copies_guard_the_copied_openings_under_the_next_labels(open_plan: Any) -> None:
    house = open_plan(_two_rooms())
    house.page.locator("#drawing").focus()
    house.key("Control+a", "Control+c", "Control+v")
    level = house.saved()["levels"][0]
    ids = [thing["id"] for family in ("walls", "openings", "rooms", "devices") for thing in level[family]]
    assert len(ids) == len(set(ids)) == 22
    assert level["devices"][3]["label"] == "WC-2"
    windows = [opening["id"] for opening in level["openings"] if opening["kind"] == "window"]
    assert level["devices"][3]["serves"] == [windows[1]] != ["o2"]
    assert level["devices"][3]["at"] == [32, 5]  # beside, not upon
    house.key("Control+z")
    house.key("Control+a", "Control+d")
    assert len(house.saved()["levels"][0]["walls"]) == 12


@pytest.mark.parametrize("with_devices", [False, True])
def test_a_level_is_copied_on_top_under_new_ids(open_plan: Any, with_devices: bool) -> None:
    house = open_plan(_two_rooms())
    house.page.get_by_label("with its devices").set_checked(with_devices)
    house.page.get_by_role("button", name="Copy this level above").click()
    below, above = house.saved()["levels"]
    assert above["elevation"] == 10  # a ceiling of 9 ft and a floor of 1 ft
    assert [len(above[family]) for family in ("walls", "openings", "rooms")] == [6, 2, 1]
    assert [device["label"] for device in above["devices"]] == (["MD-2", "WC-2"] if with_devices else [])
    assert {wall["id"] for wall in above["walls"]}.isdisjoint(wall["id"] for wall in below["walls"])
    expect(house.page.locator(".layer.ghost path")).to_have_count(1)
    house.page.locator("#drawing").focus()
    house.key("PageDown")
    expect(house.page.locator('#levels [aria-pressed="true"]')).to_have_text("Main floor", use_inner_text=True)
    house.key("PageUp", "Control+z")
    assert len(house.saved()["levels"]) == 1


def test_marks_of_the_proof_never_stand_on_another_level(open_plan: Any) -> None:
    house = open_plan(one_room(at=[10, 10]))
    marks = house.page.locator(".layer.proof-under > *, .layer.proof-over > *")
    expect(marks).not_to_have_count(0)
    held: list[Any] = []
    house.page.route(
        "**/api/plans/*", lambda route: held.append(route) if route.request.method == "PUT" else route.fallback()
    )
    house.page.get_by_role("button", name="Copy this level above").click()
    house.page.wait_for_selector('#saved[data-state="saving"]')
    house.settle()
    expect(marks).to_have_count(0)  # the copy is not proven yet
    house.page.wait_for_timeout(100)  # nor do they come back of themselves
    assert marks.count() == 0
    held[0].continue_()
    house.wait_saved()
    expect(house.page.locator(".layer.proof-over > *")).not_to_have_count(0)


def test_arrows_nudge_by_an_inch_and_with_shift_by_a_foot(open_plan: Any) -> None:
    house = open_plan(one_room(at=[10, 10]))
    house.press(10, 10)
    house.key("ArrowRight", "Shift+ArrowUp")
    assert house.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([10 + 1 / 12, 11])


def test_a_nudged_wall_keeps_its_room_square(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.press(10, 0)
    house.key("Shift+ArrowDown", "ArrowRight")
    expect(house.page.locator("#said")).to_contain_text("moves square to itself")
    level = house.saved()["levels"][0]
    assert _wall(level, "w1") == ([0, -1], [30, -1])
    assert _wall(level, "w2") == ([30, -1], [30, 20])


def test_a_drag_of_many_is_one_step(open_plan: Any) -> None:
    house = open_plan(one_room(at=[10, 10]))
    house.page.locator("#drawing").focus()
    house.key("Control+a")
    house.drag((10, 10), (12, 11))
    level = house.saved()["levels"][0]
    assert level["devices"][0]["at"] == pytest.approx([12, 11], abs=0.3)
    moved = [level["devices"][0]["at"][i] - (10, 10)[i] for i in (0, 1)]
    assert _wall(level, "w1")[0] == pytest.approx(moved)
    house.key("Control+z")
    expect(house.page.locator("#undo")).to_be_disabled()
    assert _wall(house.saved()["levels"][0], "w1")[0] == [0, 0]


def test_a_dragged_piece_takes_to_the_face_of_the_wall(open_plan: Any) -> None:
    plan = one_room()
    ring = [[10, 8], [16, 8], [16, 10], [10, 10]]
    plan["levels"][0]["fixtures"] = [
        {"id": "f1", "kind": "obstruction", "polygon": ring, "label": "Bookcase", "top": 6}
    ]
    house = open_plan(plan)
    house.drag((12, 9), (14, 18.6))
    moved = house.saved()["levels"][0]["fixtures"][0]["polygon"]
    assert max(corner[1] for corner in moved) == pytest.approx(19.75)


def test_five_hundred_steps_can_be_taken_back(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    names = house.page.evaluate(
        """async () => {
            const start = document.querySelector("script[src$='/start.js']").src;
            const { PlanStore } = await import(new URL("plan/store.js", start).href);
            const first = { format: "studbay-plan/1", name: "0", levels: [{ id: "L1", name: "Main floor" }] };
            const store = new PlanStore(first);
            for (let step = 1; step <= 500; step++) store.commit(`step ${step}`, { ...store.plan, name: String(step) });
            const end = store.plan.name;
            while (store.undo() !== null);
            const back = store.plan.name;
            while (store.redo() !== null);
            return [end, back, store.plan.name];
        }"""
    )
    assert names == ["500", "0", "500"]


def test_escape_leaves_the_gesture_then_the_tool_then_the_selection(open_plan: Any) -> None:
    house = open_plan(one_room(at=[10, 10]))
    before = house.saved()
    house.key("w")
    house.press(5, 5)
    house.move(12, 5)
    expect(house.page.locator(".wall-to-be")).to_have_count(1)
    house.key("Escape")
    expect(house.page.locator(".wall-to-be")).to_have_count(0)
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "wall")
    house.key("Escape")
    expect(house.page.locator("#drawing")).to_have_attribute("data-tool", "select")
    house.drag((10, 10), (20, 15), hold=True)
    house.key("Escape")
    house.page.mouse.up()
    house.key("Escape")
    expect(house.page.locator(".inspector")).to_be_hidden()
    assert house.saved() == before
