"""The fewest glass breaks against brute force: every spot of a fine grid over the floors, and every choice of them."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.geometry.eye import Eye, clear_eye
from app.geometry.pane_views import pane_views
from app.plan.model import Plan
from app.plan.reading import plan_from, plan_value
from app.proposal.draft import draft_plan
from app.proposal.listeners import TAPE
from app.review.house import House, Storey
from tests.proposal.bare_houses import bare_house

STEP = 1.0  # ft


def grid_of(storey: Storey) -> list[tuple[float, float]]:
    floor = shapely.union_all(storey.scene.faces.floors)
    low_x, low_y, high_x, high_y = floor.bounds
    x, y = np.meshgrid(np.arange(low_x, high_x, STEP), np.arange(low_y, high_y, STEP))
    inside = shapely.contains_xy(floor, x.ravel(), y.ravel())
    return [(float(a), float(b)) for a, b in zip(x.ravel()[inside], y.ravel()[inside], strict=True)]


def seen_whole_from(storey: Storey, spot: tuple[float, float], reach: float) -> frozenset[int]:
    """The panes seen whole from a spot and from all four corners of the square about it that the tape may err in."""
    seen: list[frozenset[int]] = []
    for east, north in ((0, 0), (TAPE, TAPE), (TAPE, -TAPE), (-TAPE, TAPE), (-TAPE, -TAPE)):
        eye = clear_eye(
            storey.scene.bodies, Eye(spot[0] + east, spot[1] + north, storey.level.ceiling), storey.level.ceiling
        )
        views = [] if eye is None else pane_views(storey.scene.panes, storey.scene.bodies, eye, reach)
        seen.append(frozenset(view.pane for view in views if view.fraction > 1 - 1e-9))
        if not seen[-1]:
            return frozenset()
    return frozenset.intersection(*seen)


def fewest_by_brute_force(sets: set[frozenset[int]]) -> int:
    """The size of the smallest family of sets that covers their union, by breadth over what is covered."""
    goal = frozenset().union(*sets)
    best = [one for one in sets if not any(one < other for other in sets)]
    reached, count = {frozenset[int]()}, 0
    while goal not in reached:
        reached = {covered | one for covered in reached for one in best}
        count += 1
    return count


def house_and_grid(plan: Plan) -> tuple[Storey, set[frozenset[int]]]:
    storey = next(iter(House(plan)))
    reach = plan.practice_in_force.number("glass.range")
    return storey, {seen_whole_from(storey, spot, reach) for spot in grid_of(storey)} - {frozenset()}


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 10_000))
def test_no_grid_of_spots_does_with_fewer(seed: int) -> None:
    plan = bare_house(seed)
    storey, sets = house_and_grid(plan)
    draft = draft_plan(plan)
    heard_by_grid = frozenset().union(*sets)
    deaf = {one.pane for one in draft.unreachable}
    # Every pane that some spot of the grid hears is heard; the first pass may hear more than the grid.
    assert not deaf & {storey.scene.panes.name[pane] for pane in heard_by_grid}
    assert draft.proof.optimal
    if len(deaf) + len(heard_by_grid) == len(storey.scene.panes):
        assert draft.proof.proposed <= fewest_by_brute_force(sets)


@settings(max_examples=8, deadline=None)
@given(st.integers(0, 10_000))
def test_each_proposal_does_what_it_says(seed: int) -> None:
    plan = bare_house(seed)
    draft = draft_plan(plan)
    after = plan_from(plan_value(draft.plan))
    storey = next(iter(House(after)))
    status = {storey.scene.panes.name[verdict.pane]: verdict for verdict in storey.verdicts}
    for proposal in draft.proposals:
        for pane in proposal.covers:
            assert status[pane].views[proposal.device.id].fraction >= 1 - 0.0005
    lost = {one.pane for one in draft.unreachable if one.instead is None}
    assert {pane for pane, verdict in status.items() if verdict.status != "covered"} == lost


def test_two_windows_of_one_corner_need_one() -> None:
    plan = bare_house(4)
    assert draft_plan(plan).proof.proposed == draft_plan(plan).proof.lower_bound


@pytest.mark.parametrize("seed", range(3))
def test_the_same_plan_gives_the_same_draft(seed: int) -> None:
    one, two = draft_plan(bare_house(seed)), draft_plan(bare_house(seed))
    assert one == two
