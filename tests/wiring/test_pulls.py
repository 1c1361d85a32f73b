"""Which devices get a pull, what it is called, and the room it serves."""

import pytest

from app.wiring.pulls import compile_pulls
from tests.wiring.houses import device, level, plan

CAN = device("can", "can", (35, 6))
KINDS = (
    "keypad",
    "door_contact",
    "window_contact",
    "overhead_door_contact",
    "motion",
    "glass_break",
    "siren",
    "flood",
    "other",
)


def pulls(*devices, **practice):
    return compile_pulls(plan([level(0, [CAN, *devices])], **practice))


def test_every_kind_but_the_can_gets_one_pull():
    made = pulls(*(device(kind, kind, (5, 5)) for kind in KINDS))
    assert [pull.label for pull in made] == list(KINDS)


def test_cables_are_those_of_the_practice():
    cables = {pull.label: pull.cable for pull in pulls(*(device(kind, kind, (5, 5)) for kind in KINDS))}
    assert cables["window_contact"] == "22/2"
    assert cables["glass_break"] == "22/4"
    assert cables["siren"] == "18/2"
    assert cables["other"] == "22/4"


def test_smoke_gets_a_pull_only_where_its_cable_is_given():
    made = pulls(device("s1", "smoke", (5, 5)), device("s2", "smoke", (6, 5), cable="18/4"))
    assert [(pull.label, pull.cable) for pull in made] == [("s2", "18/4")]


def test_device_that_says_it_has_no_cable_gets_no_pull():
    assert pulls(device("wc", "window_contact", (5, 5), cable="")) == ()


def test_wireless_device_with_a_cable_is_wired_for_power_only():
    (pull,) = pulls(device("md", "motion", (5, 5), cable="18/2", note="Wireless; plug-in supply at the can"))
    assert (pull.carries, pull.cable) == ("power only", "18/2")


def test_thing_not_yet_chosen_says_so_and_a_spare_says_spare():
    made = pulls(device("x", "other", (5, 5)), device("y", "other", (6, 5), label="Spare to attic"))
    assert [pull.carries for pull in made] == ["not yet chosen", "spare"]


def test_spares_run_beside_keypads_under_labels_of_their_own():
    made = pulls(device("kp", "keypad", (5, 5)), device("gb", "glass_break", (5, 9)), cable__spares_at_keypads=2)
    assert [pull.label for pull in made] == ["kp", "kp/S1", "kp/S2", "gb"]
    assert len({pull.cut_ft for pull in made[:3]}) == 1


def test_labels_survive_edits_and_deletions():
    devices = [device(f"gb{n}", "glass_break", (n, 5), label="Glass break") for n in range(5)]
    before = {pull.device.id: pull.label for pull in pulls(*devices)}
    after = {pull.device.id: pull.label for pull in pulls(devices[3], devices[1] | {"label": "Moved", "at": [9, 9]})}
    assert len(set(before.values())) == 5
    assert after == {id: before[id] for id in after}


def test_device_is_named_by_its_own_label_else_by_kind_and_room():
    made = pulls(device("a", "motion", (5, 5), label="Den corner"), device("b", "motion", (30, 20)))
    assert [pull.name for pull in made] == ["Den corner", "Motion detector, Bedroom"]


def test_room_is_the_one_that_the_device_stands_in():
    made = pulls(device("a", "motion", (5, 5)), device("b", "motion", (30, 20)), device("c", "motion", (30, 3)))
    assert [pull.room for pull in made] == ["den-L0", "bed-L0", "hall-L0"]


def test_contact_belongs_to_the_room_of_the_opening_that_it_serves():
    opening = {"id": "w1", "wall": "east-L0", "kind": "window", "offset": 2, "width": 3, "sill": 2, "head": 6}
    house = plan([level(0, [CAN, device("wc", "window_contact", (40, 21), serves=["w1"])], openings=[opening])])
    assert compile_pulls(house)[0].room == "bed-L0"


@pytest.mark.parametrize(("facing", "room"), [(180, "den-L0"), (0, "hall-L0")])
def test_device_on_a_wall_line_belongs_to_the_room_that_it_faces(facing, room):
    (pull,) = pulls(device("kp", "keypad", (20, 5), facing=facing))
    assert pull.room == room


def test_device_far_outside_has_no_room():
    (pull,) = pulls(device("sr", "siren", (-30, 5)))
    assert (pull.room, pull.room_name) == (None, "")


def test_plan_without_devices_has_no_pulls():
    assert compile_pulls(plan([level(0, [])])) == ()
