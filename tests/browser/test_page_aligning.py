"""Many chosen things are aligned in one undo step, by button and by keys; what cannot move is told."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import empty_plan, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _house() -> dict[str, Any]:
    """Two levels of 30 × 20 ft, the upper parted at x = 18; windows, detectors and two benches on the upper one."""
    plan = empty_plan("Aligning")
    corners = [(0, 0), (30, 0), (30, 20), (0, 20)]

    def shell(prefix: str) -> list[dict[str, Any]]:
        return [{"id": f"{prefix}{i}", "a": corners[i], "b": corners[(i + 1) % 4], "thickness": 0.5} for i in range(4)]

    def window(name: str, wall: str, offset: float) -> dict[str, Any]:
        return {"id": name, "wall": wall, "kind": "window", "offset": offset, "width": 3, "sill": 3}

    below = plan["levels"][0]
    below["walls"] = shell("a")
    below["openings"] = [window("low1", "a0", 4), window("low2", "a0", 20)]
    above = {
        "id": "L2",
        "name": "Upper floor",
        "elevation": 10,
        "walls": [*shell("b"), {"id": "part", "a": [18, 0], "b": [18, 20], "thickness": 0.5}],
        "openings": [window("n1", "b0", 5.2), window("n2", "b0", 21), window("e1", "b1", 3)],
        "rooms": [{"id": "r1", "name": "Den", "use": "den", "at": [9, 10]}],
        "fixtures": [
            {"id": "bench", "kind": "obstruction", "polygon": [[3, 16], [6, 16], [6, 17], [3, 17]], "top": 2},
            {
                "id": "shelf",
                "kind": "obstruction",
                "polygon": [[9, 17.5], [11, 17.5], [11, 19.75], [9, 19.75]],
                "top": 6,
            },
        ],
        "devices": [
            {"id": "g1", "kind": "glass_break", "label": "GB-1", "at": [4, 5]},
            {"id": "g2", "kind": "glass_break", "label": "GB-2", "at": [9, 6]},
            {"id": "g3", "kind": "glass_break", "label": "GB-3", "at": [16, 4.5]},
        ],
    }
    plan["levels"].append(above)
    return plan


@pytest.fixture
def house(open_plan: Any) -> Any:
    opened = open_plan(_house())
    opened.page.locator("#levels").get_by_role("button", name="Upper floor").click()
    opened.page.wait_for_selector('.device[data-id="g3"]', state="attached")
    opened.page.locator("#drawing").focus()
    opened.key("f")
    return opened


def _choose(house: Any, *ids: str) -> None:
    """Press each, with Shift from the second on."""
    house.key("Escape")
    for i, name in enumerate(ids):
        at = house.page.evaluate(
            """(id) => {
                const box = document.querySelector(`#drawing [data-id="${id}"]`).getBoundingClientRect();
                return [box.x + box.width / 2, box.y + box.height / 2];
            }""",
            name,
        )
        if i:
            house.page.keyboard.down("Shift")
        house.page.mouse.move(*at)
        house.settle()
        house.page.mouse.click(*at)
        house.page.keyboard.up("Shift")
        house.settle()
    house.page.wait_for_selector("#inspector section.align")


def _align(house: Any, words: str) -> None:
    house.page.get_by_role("button", name=words).click()


def _upper(house: Any) -> dict[str, Any]:
    level: dict[str, Any] = house.saved()["levels"][1]
    return level


def _devices(house: Any) -> dict[str, list[float]]:
    return {device["id"]: device["at"] for device in _upper(house)["devices"]}


def _offsets(house: Any) -> dict[str, float]:
    return {opening["id"]: opening["offset"] for opening in _upper(house)["openings"]}


def test_devices_come_on_one_line_by_keys_in_one_step(house: Any) -> None:
    _choose(house, "g1", "g2", "g3")
    house.key("Control+ArrowUp")
    expect(house.page.locator("#said")).to_contain_text("2 moved")
    assert _devices(house) == {"g1": [4, 6], "g2": [9, 6], "g3": [16, 6]}
    house.key("Control+z")
    assert _devices(house) == {"g1": [4, 5], "g2": [9, 6], "g3": [16, 4.5]}


def test_the_middle_line_is_the_middle_of_what_is_chosen(house: Any) -> None:
    _choose(house, "g1", "g2", "g3")
    _align(house, "Middles on one level line")
    assert {y for _, y in _devices(house).values()} == {5.25}


def test_equal_gaps_leave_the_first_and_the_last(house: Any) -> None:
    _choose(house, "g2", "g1", "g3")
    _align(house, "Equal gaps from left to right")
    assert _devices(house) == {"g1": [4, 5], "g2": [10, 6], "g3": [16, 4.5]}


def test_furniture_comes_as_far_off_the_wall_as_the_first(house: Any) -> None:
    _choose(house, "shelf", "bench")  # the shelf stands at the face of the wall
    _align(house, "As far off the wall as the first")
    bench = next(one for one in _upper(house)["fixtures"] if one["id"] == "bench")
    assert bench["polygon"][2] == pytest.approx([6, 19.75])
    assert bench["polygon"][0][0] == 3


def test_a_window_stands_in_the_middle_of_the_rooms_wall(house: Any) -> None:
    _choose(house, "n1", "n2")
    _align(house, "Middle of the room's wall")
    assert _offsets(house) == {"n1": pytest.approx(7.5), "n2": pytest.approx(22.5), "e1": 3}


def test_windows_stand_over_those_of_the_level_below(house: Any) -> None:
    _choose(house, "n1", "n2", "e1")
    _align(house, "Over the openings below")
    expect(house.page.locator("#said-urgent")).to_contain_text("e1: no opening of the level below")
    assert _offsets(house) == {"n1": pytest.approx(4), "n2": pytest.approx(20), "e1": 3}


def test_what_cannot_move_is_told_and_stays(house: Any) -> None:
    _choose(house, "n1", "n2", "g1")
    _align(house, "Right sides on one line")
    expect(house.page.locator("#said-urgent")).to_contain_text("n1: it overlaps window n2")
    assert _offsets(house) == {"n1": 5.2, "n2": 21, "e1": 3}
    assert _devices(house)["g1"] == [24, 5]
    house.key("Control+z")
    _choose(house, "e1", "g1")
    _align(house, "Left sides on one line")
    expect(house.page.locator("#said-urgent")).to_contain_text("e1: its wall runs the other way")
    assert _offsets(house)["e1"] == 3


def test_a_key_leads_to_all_ways(house: Any) -> None:
    _choose(house, "g1", "g2")
    house.key(".")
    house.wait_until("document.activeElement.getAttribute('aria-label') === 'Left sides on one line'")
    house.key("Enter")
    house.wait_step("Left sides on one line")
    assert _devices(house)["g2"] == [4, 6]
