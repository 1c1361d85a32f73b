"""The drag call against a whole check: one device moved, added or changed gives the answer of the plan so changed."""

import copy
import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from app.coverage.one_more import OneMore
from app.plan.model import Device
from app.plan.reading import plan_from
from app.review.check import check_plan
from app.review.trial import TrialBench
from app.review.without_one import WithoutOne
from tests.houses import random_house

FAR = 15.0  # ft: twice the least range of these houses is more than this from a pane's end


def with_device(plan, device):
    other = copy.deepcopy(plan)
    devices = other["levels"][0]["devices"]
    kept = [device if one["id"] == device["id"] else one for one in devices]
    other["levels"][0]["devices"] = kept if device in kept else [*kept, device]
    return other


def told(panes):
    """What a trial tells of panes as a check does: all but what would mend them, which a drag has no time for.

    A device that the plan does not hold yet has no name but its id.
    """
    return {pane["id"]: pane | {"mend": None, "why": pane["why"].replace("GB new", "new")} for pane in panes}


@settings(max_examples=10, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    which=st.sampled_from(["gb0", "gb1", "md5", "new"]),
    toward=st.integers(0, 3),
    share=st.floats(0.05, 0.95),
)
@example(seed=128102, which="gb0", toward=0, share=0.5)  # it leaves a room of which it is spoken afar
@example(seed=872, which="gb0", toward=1, share=0.84375)  # another detector reaches a sliver of the pane
def test_a_trial_is_the_check_of_the_plan_so_changed(seed, which, toward, share):
    plan = random_house(seed)
    level = plan["levels"][0]
    start, goal = level["rooms"][0]["at"], level["rooms"][-1 - toward]["at"]
    at = [start[k] + share * (goal[k] - start[k]) for k in (0, 1)]
    device = {"id": which, "kind": "motion" if which == "md5" else "glass_break", "at": at, "facing": 30.0}
    trial = TrialBench(plan_from(plan)).answer("ground", Device.model_validate(device))
    whole = check_plan(plan_from(with_device(plan, device)))
    mine, its, before = told(trial["panes"]), told(whole["panes"]), told(check_plan(plan_from(plan))["panes"])
    assert mine.keys() == its.keys()
    for pane in mine:
        if mine[pane]["why"] != its[pane]["why"]:
            # A far pane of another room may still speak of the one that was nearest, but not of the one on trial.
            assert mine[pane]["why"] == before[pane]["why"]
            assert which not in mine[pane]["why"]
            assert math.dist(its[pane]["segment"][0], at) > FAR
            its[pane]["why"] = mine[pane]["why"]
        assert mine[pane] == its[pane]
    assert {motion["id"]: motion["area_sqft"] for motion in trial["motions"]} == pytest.approx(
        {motion["id"]: motion["area_sqft"] for motion in whole["motions"]}, abs=1e-3
    )
    assert [room["motion_fraction"] for room in trial["rooms"]] == pytest.approx(
        [room["motion_fraction"] for room in whole["rooms"]], abs=1e-5
    )


def test_a_trial_leaves_the_bench_as_it_was():
    plan = plan_from(random_house(3))
    bench = TrialBench(plan)
    stored = next(device for device in plan.levels[0].devices if device.id == "gb0")
    before = bench.answer("ground", stored)
    bench.answer("ground", stored.model_copy(update={"at": plan.levels[0].rooms[0].at}))
    assert bench.answer("ground", stored) == before


def test_an_unknown_level_is_told():
    plan = plan_from(random_house(3))
    with pytest.raises(KeyError):
        TrialBench(plan).answer("attic", plan.levels[0].devices[0])


@pytest.mark.parametrize("seed", [3, 41, 872])
def test_a_drag_says_at_each_position_what_a_bench_asked_once_says(seed):
    plan = plan_from(random_house(seed))
    level = plan.levels[0]
    dragged = TrialBench(plan)
    for step in range(12):
        start, goal = level.rooms[step % len(level.rooms)].at, level.rooms[-1 - step % 3].at
        at = [start[k] + 0.31 * (goal[k] - start[k]) for k in (0, 1)]
        said = {"id": ("gb0", "new")[step % 2], "kind": ("glass_break", "keypad")[step % 5 == 4], "at": at}
        device = Device.model_validate(said)
        assert dragged.answer("ground", device) == TrialBench(plan).answer("ground", device)


@pytest.mark.parametrize("seed", [3, 41, 872])
def test_the_face_of_a_place_is_remembered_no_farther_than_the_next_wall(seed):
    bench = TrialBench(plan_from(random_house(seed))).level("ground")
    faces, kept = bench.storey.scene.faces, WithoutOne(bench.storey, bench.panes, "gb0")
    x0, y0, x1, y1 = faces.building.bounds
    across = [(x0 - 1 + (x1 - x0 + 2) * step / 400, y0 - 1 + (y1 - y0 + 2) * step / 400) for step in range(401)]
    assert [kept.face_at(*at) for at in across] == [faces.face_at(*at) for at in across]
    assert len({kept.face_at(*at) for at in across}) > 2


@pytest.mark.parametrize("seed", [5, 12, 29])
def test_others_and_one_more_name_the_same_first_as_all_together(seed):
    storey = TrialBench(plan_from(random_house(seed))).house.storeys["ground"]
    detectors, proofs = storey.devices("glass_break"), storey.glass
    for last in range(len(detectors)):
        others = [index for index in range(len(detectors)) if index != last]
        fewer = storey.listening_by([detectors[index] for index in others], [proofs[index] for index in others])
        more = OneMore.beside(fewer, detectors[last], proofs[last], storey.scene.faces.face_at(*detectors[last].at))
        whole = storey.listening_by(list(more.detectors), list(more.proofs))
        for pane in range(len(storey.verdicts)):
            assert more.first(pane) is next(iter(whole.nearest(pane)), None)
            assert more.is_listened_in(whole.face_of_pane(pane)) == whole.is_listened_in(whole.face_of_pane(pane))
