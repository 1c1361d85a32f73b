"""What must hold of coverage in any house: the same wherever it stands, never more for a wall, never less for reach."""

import copy
import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.geometry.pane_views import Sight, blockers_of_many
from app.plan.reading import plan_from
from app.review.check import check_plan
from app.review.house import House
from tests.houses import each, moved, random_house, walls_reversed

SEEDS = st.integers(0, 10**6)
LOOK = settings(max_examples=15, deadline=None)
CLOSE = 2e-6


def fractions(plan, rename=lambda pane: pane):
    """Every share above nought, by pane and detector, without the findings that a whole check works out."""
    return {
        (rename(storey.scene.panes.name[verdict.pane]), device): view.fraction
        for storey in House(plan_from(plan))
        for verdict in storey.verdicts
        for device, view in verdict.views.items()
    }


def watched(plan):
    return {proof.device: proof.area for storey in House(plan_from(plan)) for proof in storey.motions}


def assert_alike(one, other, *, within=CLOSE):
    for key in one.keys() | other.keys():
        assert one.get(key, 0.0) == pytest.approx(other.get(key, 0.0), abs=within), key


def floors(plan):
    return {
        room: float(storey.scene.faces.floors[face].area)
        for storey in House(plan_from(plan))
        for room, face in storey.scene.face_of_room.items()
    }


@LOOK
@given(seed=SEEDS, turn=st.floats(-360, 360), east=st.floats(-5000, 5000), north=st.floats(-5000, 5000))
def test_a_turned_and_shifted_house_is_covered_the_same(seed, turn, east, north):
    plan = random_house(seed)
    other = moved(moved(plan, turn=turn), shift=(east, north))
    assert_alike(fractions(plan), fractions(other))
    assert_alike(watched(plan), watched(other), within=2e-3)
    assert_alike(floors(plan), floors(other), within=1e-3)


@LOOK
@given(seed=SEEDS)
def test_a_mirrored_house_is_covered_the_same(seed):
    plan = random_house(seed)
    assert_alike(fractions(plan), fractions(moved(plan, mirror=True)))
    assert_alike(watched(plan), watched(moved(plan, mirror=True)), within=2e-3)


@LOOK
@given(seed=SEEDS)
def test_swapping_the_ends_of_walls_counts_lites_from_the_other_end(seed):
    plan = random_house(seed)
    lites = {opening["id"]: opening.get("panes", 1) for opening in each(plan, "openings")}

    def from_other_end(pane):
        opening, index = pane.split("/")
        return f"{opening}/{lites[opening] + 1 - int(index)}"

    assert_alike(fractions(plan, from_other_end), fractions(walls_reversed(plan)))


@LOOK
@given(seed=SEEDS)
def test_a_new_wall_never_adds_coverage(seed):
    plan = random_house(seed)
    rng = random.Random(seed)
    ends = [wall["a"] for wall in each(plan, "walls")]
    a, b = rng.sample(ends, 2)
    start = [a[k] + rng.uniform(0, 0.6) * (b[k] - a[k]) for k in (0, 1)]
    end = [start[0] + rng.uniform(-6, 6), start[1] + rng.uniform(1, 6)]
    other = copy.deepcopy(plan)
    wall = {"id": "new", "a": start, "b": end}
    other["levels"][0]["walls"].append(wall | rng.choice([{}, {"height": 4.0}, {"thickness": 1.0}]))
    before, after = fractions(plan), fractions(other)
    assert all(after[key] <= before.get(key, 0.0) + CLOSE for key in after)
    was, now = watched(plan), watched(other)
    assert all(now[motion] <= was[motion] + 1e-3 for motion in now)


@LOOK
@given(seed=SEEDS, reach=st.floats(5, 25), more=st.floats(0.01, 10))
def test_coverage_grows_with_range(seed, reach, more):
    near, far = random_house(seed), random_house(seed)
    for plan, ft in ((near, reach), (far, reach + more)):
        for device in each(plan, "devices"):
            device["range"] = ft
    before, after = fractions(near), fractions(far)
    assert all(before[key] <= after.get(key, 0.0) + CLOSE for key in before)
    was, now = watched(near), watched(far)
    assert all(was[motion] <= now[motion] * (1 + 1e-5) + 1e-3 for motion in was)


@LOOK
@given(seed=SEEDS)
def test_the_lites_of_a_window_add_up(seed):
    plan, whole = random_house(seed), random_house(seed)
    for opening in each(whole, "openings"):
        opening["panes"] = 1
    lites = {opening["id"]: opening.get("panes", 1) for opening in each(plan, "openings")}
    added: dict[tuple[str, str], float] = {}
    for (pane, device), fraction in fractions(plan).items():
        opening = pane.split("/")[0]
        added[opening, device] = added.get((opening, device), 0.0) + fraction / lites[opening]
    assert_alike(added, {(pane.split("/")[0], device): share for (pane, device), share in fractions(whole).items()})


@settings(max_examples=6, deadline=None)
@given(seed=SEEDS)
def test_what_is_told_of_a_pane_hangs_together(seed):
    plan = random_house(seed)
    shares = fractions(plan)
    for pane in check_plan(plan_from(plan))["panes"]:
        told = {device: share for (name, device), share in shares.items() if name == pane["id"]}
        assert_alike(pane["fractions"], told)
        best = pane["best"]
        if best is None:
            assert pane["fractions"] == {}
            assert pane["status"] == "uncovered"
        else:
            assert best["fraction"] == max(pane["fractions"].values())
            assert best["farthest_ft"] == pane["distances"][best["device"]]
            share = best["fraction"]
            assert pane["status"] == ("covered" if share >= 0.9995 else "partial" if share > 0.0005 else "uncovered")
        (x0, y0), (x1, y1) = pane["segment"]
        width = math.hypot(x1 - x0, y1 - y0)
        assert pane["area_sqft"] == pytest.approx(width * (pane["head"] - pane["sill"]), abs=2e-3)
        for low, high in pane["stretches"]:
            assert -1e-4 <= low < high <= width + 1e-3
        hidden = sum(abs(_area(ring)) for ring in pane["gaps"])
        share = 0.0 if best is None else best["fraction"]
        if share < 0.9995:
            # Outer rings only, a range drawn as a polygon: never less than what is hidden.
            assert hidden >= (1 - share) * pane["area_sqft"] * (1 - 2e-3) - 2e-3


def _area(ring):
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True)) / 2


@LOOK
@given(seed=SEEDS)
def test_what_hides_many_panes_is_what_hides_each(seed):
    for storey in House(plan_from(random_house(seed))):
        panes, bodies = storey.scene.panes, storey.scene.bodies
        eyes = [proof.eye for proof in storey.glass if proof.eye is not None]
        sights = [Sight(pane, eye, 15.0 + pane) for eye in eyes for pane in range(len(panes))]
        alone = [blockers_of_many(panes, bodies, [sight])[0] for sight in sights]
        assert blockers_of_many(panes, bodies, sights) == alone
