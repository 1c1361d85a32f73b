"""Where the first pass puts contacts, motions, keypads, the can, sirens and risers, and what it leaves alone."""

from __future__ import annotations

import math

import pytest

from app.geometry.corners import corner_at
from app.review.check import check_plan
from app.review.house import House
from tests.proposal.rooms import Value, drafted, house, proposed

MOST = "must", "should"


def with_openings(*changed: Value) -> Value:
    value = house()
    by_id = {opening["id"]: opening for opening in value["levels"][0]["openings"]}
    for change in changed:
        by_id[change["id"]] = by_id.get(change["id"], {}) | change
    value["levels"][0]["openings"] = list(by_id.values())
    return value


# --- contacts --------------------------------------------------------------------------------------------------------


def test_each_operable_exterior_opening_gets_its_contact_and_no_other() -> None:
    contacts = proposed(drafted(house()), "door_contact", "window_contact", "overhead_door_contact")
    assert {contact.serves: contact.kind for contact in contacts} == {
        ("front",): "door_contact",
        ("win",): "window_contact",
    }


def test_a_door_contact_is_in_the_head_on_the_latch_side() -> None:
    (contact,) = proposed(drafted(house()), "door_contact")
    assert contact.at == (6.5, 0.0)  # hinge at a, 4 ft along: the latch is 7 ft along
    assert contact.height == pytest.approx(6.667)
    (other,) = proposed(drafted(with_openings({"id": "front", "hinge": "b"})), "door_contact")
    assert other.at == (4.5, 0.0)


def test_an_overhead_door_gets_an_overhead_door_contact_low_at_its_track() -> None:
    (contact,) = proposed(drafted(with_openings({"id": "front", "leaf": "overhead"})), "overhead_door_contact")
    assert contact.height is None
    assert contact.at[1] == 0.0
    assert 4 <= contact.at[0] <= 7


@pytest.mark.parametrize(("sill", "head"), [(2.5, 6.5), (0.0, 8.0), (5.0, 6.2), (6.0, 6.8)])
def test_a_window_contact_keeps_clear_of_the_track_s_ends(sill: float, head: float) -> None:
    (contact,) = proposed(drafted(with_openings({"id": "win", "sill": sill, "head": head})), "window_contact")
    assert contact.height is not None
    clear = min(0.5, (head - sill) / 2)
    assert sill + clear - 1e-9 <= contact.height <= head - clear + 1e-9


def test_a_fixed_window_and_a_served_door_get_none() -> None:
    value = with_openings({"id": "win", "operable": False})
    mine = {"id": "mine", "kind": "door_contact", "at": [5, 0], "serves": ["front"]}
    value["levels"][0]["devices"] = [mine]
    assert not proposed(drafted(value), "door_contact", "window_contact")


def test_an_opening_accepted_without_a_contact_gets_none() -> None:
    value = house()
    value["site"] = {"notes": "accepted contact.missing win: painted shut - A. Marsh"}
    assert not proposed(drafted(value), "window_contact")


def test_the_door_to_the_garage_gets_one_like_a_door_outdoors() -> None:
    value = house()
    value["levels"][0]["rooms"][1]["use"] = "garage"
    contacts = proposed(drafted(value), "door_contact")
    assert {contact.serves for contact in contacts} == {("front",), ("inner",)}


# --- motion detectors ------------------------------------------------------------------------------------------------


def test_a_gathering_room_gets_a_motion_in_an_inside_corner_along_its_bisector() -> None:
    draft = drafted(house())
    (motion,) = proposed(draft, "motion")
    storey = next(iter(House(draft.plan)))
    corner = corner_at(storey.scene.bodies, *motion.at, 7.0, 0.5)
    assert corner is not None
    assert motion.facing == pytest.approx(corner.bisector, abs=25)
    assert storey.room_of_device[motion.id] == storey.room_by_id["great"]


def test_the_corner_that_sees_most_wins() -> None:
    value = house()
    # A wardrobe to above the target fills the way out of the south-west corner.
    value["levels"][0]["fixtures"] = [
        {"id": "robe", "kind": "obstruction", "polygon": [[1, 1], [3, 1], [3, 3], [1, 3]], "top": 8}
    ]
    (motion,) = proposed(drafted(value), "motion")
    assert math.dist(motion.at, (0, 0)) > 5


def test_a_watched_room_a_closet_and_a_garage_get_none() -> None:
    value = house()
    value["levels"][0]["devices"] = [{"id": "m", "kind": "motion", "at": [0.25, 0.25], "facing": 45}]
    assert not proposed(drafted(value), "motion")
    bare = house()
    bare["levels"][0]["rooms"][0]["use"] = "garage"
    assert not proposed(drafted(bare), "motion")


def test_a_motion_turns_from_the_glass_ahead_or_takes_another_corner() -> None:
    draft = drafted(house())
    rules = {finding["rule"] for finding in check_plan(draft.plan)["findings"] if finding["severity"] in MOST}
    assert "motion.faces_glass" not in rules
    assert "motion.off_bisector" not in rules


def test_a_room_lower_than_the_usual_height_gets_its_motion_below_the_ceiling() -> None:
    (motion,) = proposed(drafted(house(ceiling=6.9)), "motion")
    assert motion.height is not None
    assert motion.height < 6.9


# --- keypads ---------------------------------------------------------------------------------------------------------


def test_a_keypad_stands_above_the_switch_of_the_entry() -> None:
    value = house()
    value["levels"][0]["rooms"][0]["use"] = "entry"
    value["levels"][0]["fixtures"] = [
        {"id": "far", "kind": "light_switch", "at": [0.2, 14], "height": 4},
        {"id": "near", "kind": "light_switch", "at": [8, 0.2], "height": 4},
    ]
    (keypad,) = proposed(drafted(value), "keypad")
    assert math.dist(keypad.at, (8, 0.2)) < 0.1
    assert keypad.facing == pytest.approx(90)
    assert keypad.height is None  # 5 ft by the practice


def test_without_a_switch_the_keypad_stands_at_the_latch_side_of_the_door() -> None:
    value = house()
    value["levels"][0]["rooms"][0]["use"] = "entry"
    (keypad,) = proposed(drafted(value), "keypad")
    assert 7 < keypad.at[0] < 8.5
    assert 0 < keypad.at[1] < 0.3
    assert keypad.note is not None


def test_a_house_without_a_named_entry_gets_one_keypad_inside_its_door() -> None:
    (keypad,) = proposed(drafted(house()), "keypad")
    assert math.dist(keypad.at, (7.6, 0.2)) < 0.5


def test_a_main_bedroom_gets_its_own() -> None:
    value = house()
    value["levels"][0]["rooms"][1]["use"] = "main_bedroom"
    draft = drafted(value)
    rooms = [next(iter(House(draft.plan))).room_of_device[one.id] for one in proposed(draft, "keypad")]
    assert [room.id for room in rooms if room is not None] == ["closet"]


# --- the can, sirens, risers -----------------------------------------------------------------------------------------


def test_the_can_goes_to_the_closet_on_its_interior_wall() -> None:
    (can,) = proposed(drafted(house()), "can")
    assert can.at[0] == pytest.approx(20 + 0.1875 + 0.02)
    assert can.facing == pytest.approx(0)


def test_a_plan_with_a_can_gets_no_second() -> None:
    value = house()
    value["levels"][0]["devices"] = [{"id": "panel", "kind": "can", "at": [20.3, 2]}]
    assert not proposed(drafted(value), "can")


def test_a_siren_stands_beside_the_chime() -> None:
    value = house()
    value["levels"][0]["fixtures"] = [{"id": "bell", "kind": "chime", "at": [0.2, 8], "height": 7}]
    (siren,) = proposed(drafted(value), "siren")
    assert math.dist(siren.at, (0.2, 8)) == pytest.approx(1.0, abs=0.05)


def two_levels() -> Value:
    value = house()
    upper = house()["levels"][0]
    for family in ("walls", "openings", "rooms"):
        for thing in upper[family]:
            thing["id"] = f"u-{thing['id']}"
            if "wall" in thing:
                thing["wall"] = f"u-{thing['wall']}"
    value["levels"].append(upper | {"id": "L2", "name": "Upper", "elevation": 10})
    return value


def test_a_riser_links_the_levels_where_interior_walls_stand_over_each_other() -> None:
    draft = drafted(two_levels())
    (riser,) = (one.riser for one in draft.risers)
    assert {riser.from_level, riser.to_level} == {"L1", "L2"}
    assert riser.at[0] == pytest.approx(20)
    assert not [f for f in check_plan(draft.plan)["findings"] if f["severity"] == "must"]


def test_levels_that_are_linked_get_no_riser() -> None:
    value = two_levels()
    value["risers"] = [{"id": "shaft", "at": [20, 8], "from": "L1", "to": "L2"}]
    assert not drafted(value).risers


def test_every_floor_of_a_large_home_gets_a_siren() -> None:
    value = two_levels()
    value["practice"] = {"siren.large_home": 500}
    draft = drafted(value)
    assert {one.level for one in draft.proposals if one.device.kind == "siren"} == {"L1", "L2"}
