"""Panes that no place on a ceiling covers: named with the reason, and covered from a wall where one can."""

from __future__ import annotations

from app.review.check import check_plan
from tests.proposal.rooms import Value, drafted, house, proposed


def with_window(**window: object) -> Value:
    value = house()
    value["levels"][0]["openings"][1] |= window
    return value


def test_a_ceiling_too_high_is_told_and_the_pane_is_heard_from_a_wall() -> None:
    value = with_window(sill=0.5, head=6)
    value["levels"][0]["ceiling"] = 17
    draft = drafted(value)
    (one,) = draft.unreachable
    assert one.pane == "win/1"
    assert "16'-6\" below, beyond the 15'-0\" range" in one.why
    (mount,) = proposed(draft, "glass_break")
    assert one.instead == mount.id
    assert mount.mount == "wall"
    assert mount.height is not None
    assert mount.height <= 16
    assert draft.covers_all
    assert check_plan(draft.plan)["summary"]["uncovered"] == 0


def test_glass_too_large_for_the_range_is_told() -> None:
    value = house()
    value["levels"][0]["openings"][1] |= {"wall": "n", "offset": 13, "width": 18.9, "sill": 0, "head": 8.5}
    value["practice"] = {"glass.range": 12}
    (one,) = drafted(value).unreachable
    assert "too large for the range" in one.why
    assert one.instead is None


def test_glass_behind_a_tall_cupboard_is_told_with_what_hides_it() -> None:
    value = house()
    value["levels"][0]["fixtures"] = [
        {
            "id": "cupboard",
            "kind": "obstruction",
            "label": "the tall cupboard",
            "polygon": [[7.5, 15], [12.5, 15], [12.5, 16], [7.5, 16]],
            "top": 9,
        }
    ]
    draft = drafted(value)
    (one,) = draft.unreachable
    assert "hidden by the tall cupboard" in one.why
    assert not draft.covers_all


def test_glass_that_opens_to_no_closed_room_is_told() -> None:
    value = house()
    value["levels"][0]["walls"].append({"id": "stub", "a": [50, 0], "b": [60, 0]})
    value["levels"][0]["openings"].append(
        {"id": "lone", "wall": "stub", "kind": "window", "offset": 2, "width": 3, "sill": 2, "head": 6}
    )
    (one,) = drafted(value).unreachable
    assert one.pane == "lone/1"
    assert "opens to no closed room" in one.why


def test_nobody_is_hung_in_a_court_or_on_a_porch() -> None:
    value = house()
    value["levels"][0]["rooms"][1]["use"] = "porch"
    value["levels"][0]["openings"].append(
        {"id": "to-porch", "wall": "mid", "kind": "window", "offset": 11, "width": 3, "sill": 2.5, "head": 6.5}
        | {"exterior": True}
    )
    breaks = proposed(drafted(value), "glass_break")
    assert breaks
    assert all(one.at[0] < 20 for one in breaks)
