"""What spares actions while a house is drawn: partitions in one press, sizes typed in one line, rooms named in turn,
furniture dragged to its size, devices that know wall from ceiling."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from tests.browser.conftest import one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _say(house: Any, text: str) -> None:
    """Type at the pointer: a first digit, or Enter, opens the field."""
    house.key(text[0] if text[0].isdigit() else "Enter")
    house.page.wait_for_selector("#length-box:not([hidden])")
    house.page.keyboard.insert_text(text[1:] if text[0].isdigit() else text)
    house.key("Enter")


def _level(house: Any) -> dict[str, Any]:
    level: dict[str, Any] = house.saved()["levels"][0]
    return level


def _ends(wall: dict[str, Any]) -> list[list[float]]:
    return sorted([[round(v, 3) for v in wall["a"]], [round(v, 3) for v in wall["b"]]])


def test_a_press_beside_a_wall_runs_a_partition_to_the_next_one(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("j")
    house.press(12, 0.9)
    house.move(0.9, 6)
    _say(house, "7'")  # from the corner, up to the partition that stands now
    house.press(12.9, 10)  # from the partition, the other way: in the middle of its room's side
    walls = _level(house)["walls"]
    assert [_ends(wall) for wall in walls[4:]] == [
        [[12, 0], [12, 20]],
        [[0, 7], [12, 7]],
        [[12, 10], [30, 10]],
    ]
    expect(house.page.locator("#hint")).to_contain_text("beside a wall")


def test_an_end_that_only_abuts_lets_a_partition_pass(open_plan: Any) -> None:
    plan = one_room()
    plan["levels"][0]["walls"].append({"id": "stub", "a": [10, 20], "b": [10, 8]})
    house = open_plan(plan)
    house.key("j")
    house.press(0.9, 8)
    assert _ends(_level(house)["walls"][-1]) == [[0, 8], [30, 8]]


def test_a_run_ends_at_the_wall_that_it_meets(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("w")
    for corner in ((10, 0), (10, 9), (0, 9), (20, 0), (20, 20)):  # no Esc between the two runs
        house.press(*corner)
    walls = _level(house)["walls"][4:]
    assert [_ends(wall) for wall in walls] == [[[10, 0], [10, 9]], [[0, 9], [10, 9]], [[20, 0], [20, 20]]]


def test_a_size_and_its_place_are_typed_in_one_line(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("n")
    house.move(5, 0)
    _say(house, "4'6 x 4', 2 panes, fixed at 2'3")
    house.move(20, 20)
    _say(house, "3'")  # the size is that of the one before
    house.key("d")
    house.move(0, 14)
    _say(house, "2868 at 1'6")  # a call-out: 2'-8" by 6'-8"
    made = _level(house)["openings"]
    assert len(made) == 4
    for window in made[1:3]:
        assert (window["width"], window["panes"], window["operable"]) == (4.5, 2, False)
        assert window["head"] - window["sill"] == pytest.approx(4)
    assert made[1]["offset"] == 2.25
    assert made[3]["width"] == pytest.approx(2 + 8 / 12)
    assert made[3]["head"] == pytest.approx(6 + 8 / 12)
    house.key("n")
    _say(house, "3' x 2', 4 sashes")
    expect(house.page.locator("#length-box output")).to_contain_text("a size reads")


def test_the_last_opening_is_repeated_at_an_equal_pitch(open_plan: Any) -> None:
    plan = one_room()
    plan["levels"][0]["openings"] = []
    house = open_plan(plan)
    house.key("n")
    house.move(4, 20)
    _say(house, "2'6 x 4' at 2'")
    _say(house, "3 @ 5'")
    windows = _level(house)["openings"]
    middles = sorted(one["offset"] + 1.25 for one in windows)
    assert len(windows) == 4
    assert [b - a for a, b in pairwise(middles)] == pytest.approx([5, 5, 5])
    _say(house, "9 @ 5'")
    expect(house.page.locator("#length-box output")).to_contain_text("does not fit")
    house.key("Escape", "Control+z")
    assert len(_level(house)["openings"]) == 1  # a row is one step


def test_sizes_of_the_plan_are_offered_again(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("n")
    house.move(5, 20)
    _say(house, "2' x 3' at 3'")
    used = house.page.get_by_role("group", name="Sizes in this plan").get_by_role("button")
    expect(used).to_have_count(2)
    used.nth(1).click()
    house.settle()
    house.press(0, 10)
    made = _level(house)["openings"]
    assert made[2]["width"] == made[0]["width"] != made[1]["width"]


def test_a_door_hangs_at_the_corner_it_stands_nearer_to(open_plan: Any) -> None:
    plan = one_room()
    plan["levels"][0]["walls"].append({"id": "part", "a": [18, 0], "b": [18, 20]})
    house = open_plan(plan)
    house.key("d")
    house.press(4, 20)
    house.press(15, 20)
    doors = [one for one in _level(house)["openings"] if one["kind"] == "door"]
    walls = {wall["id"]: wall for wall in _level(house)["walls"]}
    jambs = []
    for door in doors:
        wall = walls[door["wall"]]
        u = door["offset"] + (0 if door["hinge"] == "a" else door["width"])
        jambs.append(wall["a"][0] + (u if wall["b"][0] > wall["a"][0] else -u))
    assert jambs[0] < 4
    assert jambs[1] > 15  # the partition is nearer than the house's corner


def test_rooms_are_named_in_turn_with_the_use_that_the_name_tells(open_plan: Any) -> None:
    plan = one_room()
    plan["levels"][0]["walls"] += [{"id": "p1", "a": [12, 0], "b": [12, 20]}, {"id": "p2", "a": [0, 9], "b": [12, 9]}]
    plan["levels"][0]["rooms"] = []
    house = open_plan(plan)
    house.key("l", "Enter")
    field = house.page.locator("#length-box input")
    for name in ("Bedroom 2", "Dining room", ""):
        field.wait_for()
        field.fill(name)
        field.press("Enter")
    house.page.wait_for_selector("#length-box", state="hidden")
    house.settle()
    assert {(room["name"], room["use"]) for room in _level(house)["rooms"]} == {
        ("Bedroom 2", "bedroom"),
        ("Dining room", "dining"),
    }
    house.key("Enter")  # the one that was passed over
    field.fill("Main bath")
    field.press("Enter")
    house.page.wait_for_selector("#length-box", state="hidden")
    assert _level(house)["rooms"][2]["use"] == "main_bath"


def test_a_piece_is_named_and_dragged_to_its_size_at_the_walls_faces(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("i")
    house.wait_until("document.querySelector('#drawing').dataset.tool === 'piece'")
    _say(house, "wardr")
    house.drag((0.4, 19.6), (5, 17.5))
    _say(house, "bench 4' x 1'6 x 1'8")
    house.press(15, 8)
    wardrobe, bench = _level(house)["fixtures"]
    assert (wardrobe["label"], wardrobe["top"]) == ("Wardrobe", pytest.approx(20 / 3))
    xs, ys = zip(*wardrobe["polygon"], strict=True)
    assert (min(xs), max(ys)) == (0.25, 19.75)  # the faces of both walls
    assert (max(xs), min(ys)) == pytest.approx((5, 17.5), abs=0.3)
    assert (bench["label"], bench["top"]) == ("Bench", pytest.approx(20 / 12))


def test_a_flight_of_stairs_rises_the_way_it_is_dragged(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("i")
    house.wait_until("document.querySelector('#drawing').dataset.tool === 'piece'")
    _say(house, "stair up")
    house.drag((10, 3), (13, 15))
    blocks = _level(house)["fixtures"]
    assert [block["top"] for block in blocks] == [3, 6, 9]
    middles = [sum(y for _, y in block["polygon"]) / 4 for block in blocks]
    assert middles == pytest.approx([5, 9, 13], abs=0.4)
    house.key("Control+z")
    assert not _level(house)["fixtures"]


def test_a_siren_takes_to_the_wall_or_else_to_the_ceiling(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("s")
    house.press(12, 10)
    house.press(0.6, 10)
    ceiling, wall = _level(house)["devices"]
    assert (ceiling["mount"], ceiling["height"]) == ("ceiling", 9)
    assert wall["mount"] is None
    assert wall["facing"] == 0
    assert wall["at"][0] == pytest.approx(0.33, abs=0.01)  # off the face


def test_an_outlet_takes_to_the_face_of_the_wall(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("Shift+O")
    house.press(0.7, 7)
    assert _level(house)["fixtures"][0]["at"] == pytest.approx([0.33, 7], abs=0.1)


def test_a_riser_is_placed_by_a_press(open_plan: Any) -> None:
    plan = one_room()
    plan["levels"].append({"id": "L2", "name": "Upper floor", "elevation": 10})
    house = open_plan(plan)
    house.key("z")
    house.press(10, 10)
    (riser,) = house.saved()["risers"]
    assert (riser["from"], riser["to"], riser["at"]) == ("L1", "L2", [10, 10])
