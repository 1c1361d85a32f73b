"""The sample houses: valid files, closed rooms, sizes of real houses, and exactly the faults each was drawn with."""

import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from app.geometry.scene import compile_level
from app.plan.model import Plan
from app.plan.reading import plan_from, plan_value, read_plan_file
from app.proposal.draft import draft_plan
from app.review.check import check_plan
from app.storage.samples import sample_files

FOLDER = Path(__file__).resolve().parents[2] / "sample_plans"
FEET_A_METRE = 1 / 0.3048
SQFT = {
    "amber-ridge": (2300, 2700),
    "birch-cottage": (850, 1050),
    "cobble-court": (2500, 2900),
    "drover-bend": (1650, 1950),
    "elder-rise": (1100, 1300),
}


@dataclass(frozen=True)
class Faults:
    """What is wrong with a sample: panes by status, openings without a contact, and other rules that speak."""

    partial: frozenset[str] = frozenset()
    uncovered: frozenset[str] = frozenset()
    no_contact: frozenset[str] = frozenset()
    should: frozenset[str] = frozenset()


DRAWN_WITH = {
    "amber-ridge": Faults(
        partial=frozenset(("win-great-1/2", "win-main-w1/1")),  # behind the fireplace; 9 in too far
        uncovered=frozenset(("win-garage/1",)),
        no_contact=frozenset(("win-laundry",)),
    ),
    "birch-cottage": Faults(),
    "cobble-court": Faults(
        partial=frozenset(("win-living-e2/1", "door-terrace/2")),  # behind the bookcase; 10 in too far
        no_contact=frozenset(("door-garage-rear",)),
    ),
    "drover-bend": Faults(
        partial=frozenset(("win-sink/1", "win-sink/2", "win-bed3/1")),  # above the soffit; behind the wardrobe
        uncovered=frozenset(("win-bath2/1",)),
        no_contact=frozenset(("win-dining-w",)),
        should=frozenset(("motion.faces_glass",)),
    ),
    "elder-rise": Faults(
        partial=frozenset(("win-bay-3/1",)),  # behind the stove
        uncovered=frozenset(("door-utility/1",)),
        no_contact=frozenset(("win-bed3",)),
    ),
}
BARE = "fernhollow-bare"  # walls and furniture alone, to try the first pass on
each_sample = pytest.mark.parametrize("stem", sorted(DRAWN_WITH))


@cache
def plan_of(stem: str) -> Plan:
    return read_plan_file(FOLDER / f"{stem}.json")


@cache
def check_of(stem: str) -> dict:
    return check_plan(plan_of(stem))


def test_every_sample_is_spoken_of_here():
    assert {path.stem for path in sample_files()} == set(DRAWN_WITH) | {BARE}


def test_the_bare_house_goes_to_no_must_by_one_first_pass():
    plan = plan_of(BARE)
    assert not any(level.devices for level in plan.levels)
    assert check_of(BARE)["summary"]["uncovered"] == check_of(BARE)["summary"]["panes"] == 27
    draft = draft_plan(plan)
    summary = check_plan(draft.plan)["summary"]
    assert summary["covered"] == 27
    assert summary["must"] == 0
    assert draft.proof.optimal


@each_sample
def test_a_sample_survives_writing_and_reading(stem):
    plan = plan_of(stem)
    assert plan_from(json.loads(json.dumps(plan_value(plan)))) == plan


@each_sample
def test_every_room_is_closed_and_every_space_has_one_name(stem):
    for level in plan_of(stem).levels:
        scene = compile_level(level)
        faces = list(scene.face_of_room.values())
        assert -1 not in faces
        assert sorted(faces) == list(range(len(scene.faces)))


@each_sample
def test_a_sample_has_the_size_of_a_house(stem):
    low, high = SQFT[stem]
    assert low <= sum(room["area_sqft"] for room in check_of(stem)["rooms"]) <= high


@each_sample
def test_panes_stand_as_they_were_drawn(stem):
    by_status: dict[str, set[str]] = {"partial": set(), "uncovered": set(), "covered": set()}
    for pane in check_of(stem)["panes"]:
        by_status[pane["status"]].add(pane["id"])
    assert by_status["partial"] == DRAWN_WITH[stem].partial
    assert by_status["uncovered"] == DRAWN_WITH[stem].uncovered
    assert len(by_status["covered"]) >= 15


@each_sample
def test_what_must_be_mended_is_glass_or_a_missing_contact(stem):
    drawn = DRAWN_WITH[stem]
    found = [(one["rule"], one["things"][0]) for one in check_of(stem)["findings"] if one["severity"] == "must"]
    expected = [("glass.partial", pane) for pane in drawn.partial]
    expected += [("glass.uncovered", pane) for pane in drawn.uncovered]
    expected += [("contact.missing", opening) for opening in drawn.no_contact]
    assert sorted(found) == sorted(expected)


@each_sample
def test_no_other_fault_has_crept_in(stem):
    should = {one["rule"] for one in check_of(stem)["findings"] if one["severity"] == "should"}
    assert should == DRAWN_WITH[stem].should


@each_sample
def test_every_room_can_be_walked_to_from_outdoors(stem):
    """Doors and cased openings join the rooms of a level; an upper floor is entered by its stairs."""
    for level in plan_of(stem).levels:
        scene = compile_level(level)
        ways: dict[int, set[int]] = {}
        for opening in level.openings:
            if opening.kind != "window":
                left, right = scene.sides[opening.id]
                ways.setdefault(left, set()).add(right)
                ways.setdefault(right, set()).add(left)
        upper_start = [scene.face_of_room[room.id] for room in level.rooms if room.use == "stairs"]
        reached, waiting = set(), upper_start or [-1]
        while waiting:
            face = waiting.pop()
            if face not in reached:
                reached.add(face)
                waiting += ways.get(face, ())
        assert {room.id for room in level.rooms if scene.face_of_room[room.id] not in reached} == set()


@each_sample
def test_the_cable_of_every_device_is_measured(stem):
    cables = [one for one in check_of(stem)["findings"] if one["rule"].startswith("cable.")]
    assert [one for one in cables if one["severity"] == "must"] == []


def test_the_first_sample_shows_every_state_of_glass():
    first = sample_files()[0].stem
    assert {pane["status"] for pane in check_of(first)["panes"]} == {"covered", "partial", "uncovered"}


def test_lengths_of_the_metric_house_are_whole_centimetres():
    plan = plan_of("elder-rise")
    assert plan.units == "metric"
    for opening in plan.levels[0].openings:
        centimetres = opening.width / FEET_A_METRE * 100
        assert centimetres == pytest.approx(round(centimetres), abs=0.01)


def test_the_wing_of_the_bent_house_is_turned_by_30_degrees():
    walls = plan_of("drover-bend").levels[0].wall_by_id
    (ax, ay), (bx, by) = walls["w-wing-north"].a, walls["w-wing-north"].b
    assert (by - ay) / (bx - ax) == pytest.approx(0.57735, abs=1e-4)
