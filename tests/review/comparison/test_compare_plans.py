"""Comparing plans: nothing in a plan and itself, a mirror both ways, and every edit of a set found, no more."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.review.comparison.changes import Change
from app.review.comparison.plans import compare_plans
from app.review.comparison.wording import change_words, count_words
from tests.review.comparison.edits import Edit, Value, edits, house, plan, shuffled, thing

EDITS = edits()
SETS = st.sets(st.integers(0, len(EDITS) - 1), max_size=len(EDITS)).map(lambda chosen: [EDITS[i] for i in chosen])


def edited(chosen: list[Edit], seed: int = 0) -> Value:
    value = house()
    for edit in chosen:
        edit.apply(value)
    return shuffled(value, seed)


def found(changes: tuple[Change, ...]) -> set[tuple[str, str, str]]:
    return {(change.what, change.family, change.id) for change in changes}


@given(SETS, st.integers(0, 1000))
@settings(max_examples=60, deadline=None)
def test_a_plan_and_itself_in_another_order_differ_in_nothing(chosen: list[Edit], seed: int) -> None:
    value = edited(chosen)
    assert compare_plans(plan(value), plan(shuffled(value, seed))) == ()


@given(SETS, st.integers(0, 1000))
@settings(max_examples=60, deadline=None)
def test_a_set_of_edits_is_found_exactly(chosen: list[Edit], seed: int) -> None:
    changes = compare_plans(plan(house()), plan(edited(chosen, seed)))
    assert found(changes) == {(edit.what, edit.family, edit.id) for edit in chosen}
    assert [change.number for change in changes] == list(range(1, len(changes) + 1))


@given(SETS, SETS)
@settings(max_examples=60, deadline=None)
def test_the_way_back_mirrors_the_way_there(one: list[Edit], two: list[Edit]) -> None:
    before, after = plan(edited(one)), plan(edited(two))
    there, back = compare_plans(before, after), compare_plans(after, before)
    mirrored = {"added": "removed", "removed": "added"}
    assert {(mirrored.get(change.what, change.what), change.family, change.was_id or change.id) for change in back} == {
        (change.what, change.family, change.id) for change in there
    }
    fields = {(c.family, f.field, f.old, f.new) for c in there for f in c.fields}
    assert fields == {(c.family, f.field, f.new, f.old) for c in back for f in c.fields}
    far = sorted(round(move.feet, 9) for change in there for move in change.moves)
    assert far == sorted(round(move.feet, 9) for change in back for move in change.moves)


def change_of(value: Value, before: Value | None = None) -> Change:
    (change,) = compare_plans(plan(before or house()), plan(value))
    return change


def test_a_moved_device_is_told_how_far_and_which_way() -> None:
    value = house()
    thing(value, "L1-g0").update(at=[15, 2])
    change = change_of(value)
    assert [move.feet for move in change.moves] == [5.0]
    assert change_words(change, "imperial") == "moved 5'-0\" (3'-0\" east, 4'-0\" south)"
    assert change_words(change, "metric") == "moved 1.524 m (0.914 m east, 1.219 m south)"


def test_a_changed_field_is_told_from_what_to_what() -> None:
    value = house()
    thing(value, "L1-m0").update(height=8.5, cable="22/4 shielded")
    assert change_words(change_of(value), "imperial") == "height 7'-0\" → 8'-6\"; cable 22/4 → 22/4 shielded"


def test_a_default_written_out_is_no_change() -> None:
    value = house()
    thing(value, "L1-m0").update(height=7, range=40, cable="22/4")
    thing(value, "L1-o0").update(glazed=True, operable=True)
    thing(value, "L1-w0").update(thickness=0.375)
    assert compare_plans(plan(house()), plan(value)) == ()


def test_openings_that_ride_on_a_moved_wall_are_told_with_it() -> None:
    value = house()
    thing(value, "L1-w2").update(a=[30, 23], b=[0, 23])
    change = change_of(value)
    assert (change.id, change.carries) == ("L1-w2", ("L1-o2",))
    assert change_words(change, "imperial") == "moved 3'-0\" north; with its opening L1-o2"


def test_a_wall_drawn_the_other_way_with_its_openings_where_they_were_is_no_change() -> None:
    value = house()
    wall = thing(value, "L1-w0")
    wall["a"], wall["b"] = wall["b"], wall["a"]
    thing(value, "L1-o0").update(offset=22)
    thing(value, "L1-o1").update(offset=13, hinge="b")
    assert compare_plans(plan(house()), plan(value)) == ()


def test_a_wall_that_one_end_was_drawn_out_of_is_told_with_its_lengths() -> None:
    value = house()
    thing(value, "L1-w0").update(b=[32, 0])
    assert change_words(change_of(value), "imperial") == "one end moved 2'-0\" east; length 30'-0\" → 32'-0\""


def test_a_window_made_wider_has_not_moved() -> None:
    value = house()
    thing(value, "L1-o0").update(width=5)
    change = change_of(value)
    assert (change.what, change.moves) == ("changed", ())
    assert change_words(change, "imperial") == "width 4'-0\" → 5'-0\""


def test_a_device_taken_to_another_level_is_told_so() -> None:
    value = house()
    device = thing(value, "L1-g0")
    value["levels"][0]["devices"].remove(device)
    value["levels"][1]["devices"].append(device)
    change = change_of(value)
    assert (change.what, change.was_level, change.level) == ("moved", "L1", "L2")
    assert change_words(change, "imperial") == "moved from level L1"


def test_a_renamed_wall_and_window_change_nothing_else() -> None:
    value = house()
    thing(value, "L1-w0").update(id="south")
    for name, new in (("L1-o0", "W1"), ("L1-o1", "D1")):
        thing(value, name).update(wall="south", id=new)
    thing(value, "L1-c0").update(serves=["D1"])
    changes = compare_plans(plan(house()), plan(value))
    assert found(changes) == {
        ("renamed", "walls", "south"),
        ("renamed", "openings", "W1"),
        ("renamed", "openings", "D1"),
    }
    assert count_words(changes) == "3 renamed"


def test_two_of_a_kind_at_one_place_are_not_guessed_at() -> None:
    before = house()
    before["levels"][0]["devices"] += [
        {"id": "x1", "kind": "flood", "at": [3, 3]},
        {"id": "x2", "kind": "flood", "at": [3, 3]},
    ]
    value = copy.deepcopy(before)
    for old, new in (("x1", "y1"), ("x2", "y2")):
        thing(value, old).update(id=new)
    changes = compare_plans(plan(before), plan(value))
    assert found(changes) == {
        ("removed", "devices", "x1"),
        ("removed", "devices", "x2"),
        ("added", "devices", "y1"),
        ("added", "devices", "y2"),
    }


def test_a_renamed_level_takes_its_things_along() -> None:
    value = house()
    value["levels"][1].update(id="upper")
    value["risers"][0].update(to="upper")
    assert found(compare_plans(plan(house()), plan(value))) == {("renamed", "levels", "upper")}


def test_a_level_taken_out_is_told_with_all_that_was_on_it() -> None:
    value = house()
    del value["levels"][1]
    value["risers"] = []
    changes = compare_plans(plan(house()), plan(value))
    assert {change.what for change in changes} == {"removed"}
    assert len(changes) == 1 + 4 + 3 + 2 + 1 + 4 + 1
    assert changes[-1].family == "levels"


def test_an_id_that_passed_to_a_thing_of_another_family_is_another_thing() -> None:
    value = house()
    value["levels"][0]["fixtures"] = [f for f in value["levels"][0]["fixtures"] if f["id"] != "L1-f1"]
    value["levels"][0]["devices"].append({"id": "L1-f1", "kind": "siren", "at": [14, 0.3]})
    assert found(compare_plans(plan(house()), plan(value))) == {
        ("removed", "fixtures", "L1-f1"),
        ("added", "devices", "L1-f1"),
    }


@pytest.mark.parametrize("facing", [315 + 360, -45, 315.0])
def test_an_angle_written_another_way_is_no_change(facing: float) -> None:
    value: Any = house()
    thing(value, "L1-m0").update(facing=facing)
    assert compare_plans(plan(house()), plan(value)) == ()
