"""The two-storey sample drawn from nothing through the page, by pointer and keys: how many actions, how many seconds.

By hand: ``pytest tests/benchmarks/test_drawing_script.py -s -o addopts=``. An action is a press, a drag, a key, or a
field filled in. What is drawn is held against the sample: openings, rooms, detectors and contacts of both levels.
"""

from __future__ import annotations

import json
import time
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from tests.browser.conftest import PlanPage, browser, empty_plan, open_plan, server

__all__ = ["browser", "open_plan", "server"]

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "cobble-court.json"
MOST_ACTIONS = 285
GRID = 0.51  # ft: what is drawn by eye falls on the nearest grid step
SHAPES = {"window": (3, 3, 6.667, 1), "door": (3, 0, 6.667, 1), "cased": (4, 0, 7, 1)}
KEYS = {"window": "n", "door": "d", "cased": "c"}
LABELS = ("Width", "Sill (AFF)", "Head (AFF)", "Panes")

pytestmark = pytest.mark.browser


class Hand:
    """Somebody at the page, whose actions are counted by what they are for."""

    def __init__(self, house: PlanPage) -> None:
        self.house = house
        self.counts: Counter[str] = Counter()
        self.subject = ""
        self.shapes = dict(SHAPES)

    def press(self, x: float, y: float) -> None:
        self.counts[self.subject] += 1
        self.house.press(x, y)

    def key(self, key: str) -> None:
        self.counts[self.subject] += 1
        self.house.key(key)

    def fill(self, label: str, value: float | None) -> None:
        self.counts[self.subject] += 1
        field = self.house.page.locator(".options").get_by_label(label, exact=True)
        field.fill("" if value is None else f"{value:g}")
        field.press("Enter")
        self.house.page.locator("#drawing").focus()

    def click(self, name: str, where: str = "body") -> None:
        self.counts[self.subject] += 1
        self.house.page.locator(where).get_by_role("button", name=name).first.click()

    def fit(self) -> None:
        """Bring the level and some ground about it into view."""
        for key in ("f", "-", "-"):
            self.key(key)
        self.house.page.wait_for_timeout(150)  # a few frames


def _outline(hand: Hand, corners: list[tuple[float, float]]) -> None:
    hand.key("r")
    for x, y in corners:
        hand.press(x, y)


def _inner_walls(hand: Hand, walls: list[dict[str, Any]]) -> None:
    hand.key("w")
    hand.fill("Thickness", 0.375)
    for wall in walls:
        if hand.shapes.get("height") != wall.get("height"):
            hand.shapes["height"] = wall.get("height")
            hand.fill("Height", wall.get("height"))
        hand.press(*wall["a"])
        hand.press(*wall["b"])
        hand.key("Escape")


def _openings(hand: Hand, level: dict[str, Any]) -> None:
    """Every opening, those of one kind and shape one after the other: a shape is set once, then repeated."""
    walls = {wall["id"]: wall for wall in level["walls"]}

    def shape(opening: dict[str, Any]) -> tuple[float, float, float, int]:
        usual = SHAPES[opening["kind"]]
        panes = opening.get("panes", 1) if opening["kind"] == "window" else 1  # a door's lites are set on the door
        return (opening["width"], opening.get("sill", 0), opening.get("head", usual[2]), panes)

    taken = ""
    for opening in sorted(level["openings"], key=lambda one: (one["kind"], shape(one))):
        kind = opening["kind"]
        if kind != taken:
            hand.key(KEYS[kind])
            taken = kind
        for label, before, after in zip(LABELS, hand.shapes[kind], shape(opening), strict=True):
            if before != after:
                hand.fill(label, after)
        hand.shapes[kind] = shape(opening)
        wall = walls[opening["wall"]]
        length = sum((b - a) ** 2 for a, b in zip(wall["a"], wall["b"], strict=True)) ** 0.5
        share = (opening["offset"] + opening["width"] / 2) / length
        hand.press(*(a + (b - a) * share for a, b in zip(wall["a"], wall["b"], strict=True)))


def _rooms(hand: Hand, level: dict[str, Any]) -> None:
    hand.key("l")
    for room in level["rooms"]:
        hand.press(*room["at"])
        hand.counts[hand.subject] += 1
        name = hand.house.page.locator('#inspector [data-key="name"]')
        name.fill(room["name"])
        name.press("Enter")
    hand.key("Escape")  # from the field back to the drawing


def _detectors(hand: Hand, level: dict[str, Any]) -> None:
    for kind, key in (("glass_break", "g"), ("motion", "m"), ("keypad", "k"), ("can", "p"), ("siren", "s")):
        places = [device["at"] for device in level["devices"] if device["kind"] == kind]
        if places:
            hand.key(key)
        for place in places:
            hand.press(*place)


def _draw(house: PlanPage, sample: dict[str, Any]) -> Counter[str]:
    hand = Hand(house)
    first, second = sample["levels"]
    house.zoom_out()
    hand.subject = "outline"
    hand.key("r")
    hand.fill("Thickness", 0.5417)
    _outline(hand, [(0, 0), (38, 32)])
    hand.fit()
    _outline(hand, [(-22, 2), (0, 24)])
    for number, level in enumerate((first, second)):
        if number:
            hand.subject = "outline"
            hand.key("v")
            hand.click("Add a level above", ".panel:not([hidden])")
            hand.key("r")
            hand.fill("Thickness", 0.5417)
            _outline(hand, [(0, 0), (38, 32)])
        hand.fit()
        hand.subject = "inner walls"
        _inner_walls(hand, [wall for wall in level["walls"] if wall.get("thickness") is None])
        hand.subject = "openings"
        _openings(hand, level)
        house.wait_saved()  # rooms are the server's to find
        hand.subject = "rooms"
        _rooms(hand, level)
        hand.subject = "devices"
        _detectors(hand, level)
    hand.subject = "contacts"
    hand.click("Devices")
    hand.click("Put contacts")
    house.page.get_by_text("contacts put").wait_for()
    return hand.counts


def test_the_two_storey_sample_is_drawn_with_no_action_wasted(open_plan: Any) -> None:
    sample = json.loads(SAMPLE.read_text("utf-8"))
    house = open_plan(empty_plan())
    begun = time.monotonic()
    counts = _draw(house, sample)
    seconds = time.monotonic() - begun
    drawn = house.saved()
    things = sum(
        len(level[family]) for level in drawn["levels"] for family in ("walls", "openings", "rooms", "devices")
    )
    print(f"\ndrawn from nothing: {counts.total()} actions for {things} things in {seconds:.1f} s; {dict(counts)}")
    for want, got in zip(sample["levels"], drawn["levels"], strict=True):
        for family in ("openings", "rooms"):
            assert len(got[family]) == len(want[family]), family
        assert Counter(opening["kind"] for opening in got["openings"]) == Counter(
            opening["kind"] for opening in want["openings"]
        )
        assert sorted(room["name"] for room in got["rooms"]) == sorted(room["name"] for room in want["rooms"])
        for kind in ("glass_break", "motion", "keypad", "can"):
            places = [[one["at"] for one in level["devices"] if one["kind"] == kind] for level in (want, got)]
            assert len(places[0]) == len(places[1]), kind
            if kind == "glass_break":
                assert all(
                    abs(a - b) <= GRID for one, two in zip(*places, strict=True) for a, b in zip(one, two, strict=True)
                )
        assert any(device["kind"] == "window_contact" for device in got["devices"])
    assert counts.total() <= MOST_ACTIONS
