"""The told mend does mend: applying the smallest move of a detector covers the pane and loses none that stood."""

from __future__ import annotations

import copy
import math
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.plan.reading import plan_from
from app.review.check import check_plan


def den(at: tuple[float, float], *, case_top: float = 7.0, turn: float = 0.0) -> dict[str, Any]:
    """A den of 20 × 14 ft with two windows and a bookcase that stands out between them, a detector at ``at``."""
    cosine, sine = math.cos(turn), math.sin(turn)

    def place(x: float, y: float) -> list[float]:
        return [cosine * x - sine * y, sine * x + cosine * y]

    corners = [(0, 0), (20, 0), (20, 14), (0, 14)]
    walls = [
        {"id": f"w{k}", "a": place(*corners[k]), "b": place(*corners[(k + 1) % 4]), "thickness": 0.5} for k in range(4)
    ]
    openings = [
        {"id": "left", "wall": "w0", "kind": "window", "offset": 3, "width": 4, "sill": 2.5, "panes": 2},
        {"id": "right", "wall": "w0", "kind": "window", "offset": 13, "width": 4, "sill": 2.5},
    ]
    case = [place(9, 0.25), place(10.5, 0.25), place(10.5, 2.5), place(9, 2.5)]
    level = {
        "id": "ground",
        "name": "Ground",
        "walls": walls,
        "openings": openings,
        "rooms": [{"id": "den", "name": "Den", "at": place(10, 7)}],
        "fixtures": [{"id": "case", "kind": "obstruction", "polygon": case, "top": case_top, "label": "bookcase"}],
        "devices": [{"id": "gb", "kind": "glass_break", "at": place(*at), "label": "GB-1"}],
    }
    return {"format": "studbay-plan/1", "name": "Den", "levels": [level]}


def moved(plan: dict[str, Any], device_id: str, move: list[float]) -> dict[str, Any]:
    other = copy.deepcopy(plan)
    for device in other["levels"][0]["devices"]:
        if device["id"] == device_id:
            device["at"] = [device["at"][0] + move[0], device["at"][1] + move[1]]
    return other


@settings(max_examples=60, deadline=None)
@given(
    x=st.floats(0.5, 19.5),
    y=st.floats(0.5, 13.5),
    top=st.sampled_from([4.0, 7.0, 9.0]),
    turn=st.floats(0, 2 * math.pi),
)
def test_the_told_move_covers_the_pane_and_keeps_what_was_covered(x: float, y: float, top: float, turn: float) -> None:
    plan = den((x, y), case_top=top, turn=turn)
    before = {pane["id"]: pane for pane in check_plan(plan_from(plan))["panes"]}
    mends = {name: pane["mend"] for name, pane in before.items() if pane["mend"]}
    assume(mends)
    for name, mend in mends.items():
        after = {pane["id"]: pane for pane in check_plan(plan_from(moved(plan, mend["device"], mend["move"])))["panes"]}
        assert after[name]["status"] == "covered"
        if not mend["uncovers"]:
            stood = [pane for pane, answer in before.items() if answer["status"] == "covered"]
            assert all(after[pane]["status"] == "covered" for pane in stood)


def test_the_move_is_the_smallest_that_brings_the_far_corner_into_range() -> None:
    # The detector hangs on the window's axis; only the distance north must shrink.
    # Farthest corner: half width 2, drop 9 - 2.5 = 6.5, so y² = 15² - 2² - 6.5², y = 13.37.
    plan = den((15, 13.6))
    plan["levels"][0]["fixtures"] = []
    plan["levels"][0]["openings"] = plan["levels"][0]["openings"][1:]
    pane = check_plan(plan_from(plan))["panes"][0]
    needed = 13.6 - math.sqrt(15**2 - 2**2 - 6.5**2)
    assert pane["status"] == "partial"
    assert pane["mend"]["device"] == "gb"
    assert pane["mend"]["move"][0] == 0
    assert -needed - 0.15 < pane["mend"]["move"][1] <= -needed
    assert "south" in pane["mend"]["words"]


def test_a_pane_that_no_move_covers_is_told_to_have_a_detector_added() -> None:
    plan = den((10, 12))
    plan["levels"][0]["devices"] = []
    finding = next(f for f in check_plan(plan_from(plan))["findings"] if f["rule"] == "glass.uncovered")
    assert "no glass-break detector on this level" in finding["message"]
    assert "add a detector in Den" in finding["message"]


def test_a_pane_too_wide_for_the_range_says_that_no_place_on_the_ceiling_serves() -> None:
    plan = den((10, 7))
    plan["practice"] = {"glass.range": 5}
    findings = [f for f in check_plan(plan_from(plan))["findings"] if f["rule"].startswith("glass.")]
    assert findings
    assert all("No place on the ceiling in Den reaches all of it" in f["message"] for f in findings)
