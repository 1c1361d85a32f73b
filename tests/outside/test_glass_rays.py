"""Coverage of glass against rays: random houses, every pane and detector, to the width of the rays' grid.

References: trimesh (meshes) and embreex (Embree's ray casting); the reading of the contract is ``solids``, not ours.
"""

import math

import numpy as np
import pytest

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.houses import random_house
from tests.outside.rays import Caster, PaneSampler, glass_break_eyes, grid_error
from tests.outside.solids import Solid, panes_of, solids_of

COUNT, FINER = 56, 500
SEEDS = range(36)


def room(**level):
    corners = [(0, 0), (20, 0), (20, 12), (0, 12)]
    walls = [{"id": f"w{k}", "a": list(corners[k]), "b": list(corners[(k + 1) % 4])} for k in range(4)]
    window = {"id": "win", "wall": "w0", "kind": "window", "offset": 8, "width": 4, "sill": 2, "head": 6}
    return {"id": "one", "name": "One", "walls": walls, "openings": [window], "devices": []} | level


def share(level, eye, reach=15.0, count=200):
    sampler = PaneSampler({}, level, count)
    return float(sampler.seen(sampler.panes[0], np.array(eye, dtype=float), reach).mean())


def test_the_rays_see_a_whole_window_across_an_empty_room():
    assert share(room(), (10, 8, 9)) == 1.0


def test_the_rays_stop_at_the_range_as_a_circle_on_the_glass():
    # The eye stands before the window's middle, 5 ft off: on the glass the range 5.385 is a disc of radius 2.
    level = room()
    assert share(level, (10, 5, 4), math.hypot(5, 2)) == pytest.approx(math.pi / 4, abs=2e-3)


def test_the_rays_are_hidden_by_a_half_wall_as_similar_triangles_say():
    # Eye 6 ft high and 8 ft off, a thin half wall 4 ft high, 4 ft off: its top's shadow is at 2 ft + the near face's.
    low = {"id": "low", "a": [0, 4], "b": [20, 4], "thickness": 0.01, "height": 4.0}
    level = room()
    level["walls"].append(low)
    shadow_top = 6 - 2 * 8 / (8 - 3.995)
    assert share(level, (10, 8, 6)) == pytest.approx((6 - max(2, shadow_top)) / 4, abs=3e-3)
    low["height"] = 5.0
    assert share(level, (10, 8, 6)) == pytest.approx((6 - (6 - 8 / (8 - 3.995))) / 4, abs=3e-3)


def test_the_rays_pass_a_cased_opening_below_its_header():
    level = room()
    level["walls"].append({"id": "mid", "a": [0, 4], "b": [20, 4], "thickness": 0.01})
    level["openings"].append({"id": "way", "wall": "mid", "kind": "cased", "offset": 0, "width": 20, "head": 5})
    # Eye at 6: rays under the header's bottom at 5 reach below 6 − 8 / (8 − 4.005) = 3.997 on the glass.
    assert share(level, (10, 8, 6)) == pytest.approx((6 - 8 / (8 - 4.005) - 2) / 4, abs=3e-3)


def test_a_detector_in_a_wall_or_over_its_top_plate_sees_nothing():
    assert share(room(), (20.1, 6, 7)) == 0.0
    assert share(room(), (20.1, 6, 9)) == 0.0


def test_meshes_are_closed_and_have_the_solids_volume():
    concave = Solid(np.array([(0, 0), (4, 0), (4, 1), (1, 1), (1, 3), (0, 3)], dtype=float), 1.0, 3.5)
    assert concave.mesh.is_watertight
    assert concave.mesh.volume == pytest.approx(6 * 2.5)
    assert not Caster([concave], np.array([2.0, 2.0, 2.0])).sees(np.array([[0.5, 0.5, 2.0]]))[0]
    assert Caster([concave], np.array([2.0, 2.0, 2.0])).sees(np.array([[3.9, 2.9, 2.0]]))[0]


def test_the_random_houses_hold_everything_that_hides_glass():
    """The oracle is only worth its houses: each feature must be there, and sights must be cut in part."""
    levels = [random_house(seed)["levels"][0] for seed in SEEDS]
    assert sum(wall.get("height") is not None for level in levels for wall in level["walls"]) >= 10
    assert sum(opening["kind"] == "cased" and opening["head"] < 9 for x in levels for opening in x["openings"]) >= 10
    assert sum(fixture["base"] > 0 for level in levels for fixture in level["fixtures"]) >= 10
    assert sum(len(panes_of(level)) for level in levels) >= 36 * 5
    assert all(solids_of({}, level) for level in levels)


@pytest.mark.parametrize("seed", SEEDS)
def test_fractions_agree_with_rays(seed):
    plan = random_house(seed)
    level = plan["levels"][0]
    answers = {pane["id"]: pane for pane in check_plan(plan_from(plan))["panes"]}
    sampler, finer = PaneSampler(plan, level, COUNT), PaneSampler(plan, level, FINER)
    assert set(answers) == {pane.name for pane in sampler.panes}
    differences = []
    for pane in sampler.panes:
        assert answers[pane.name]["area_sqft"] == pytest.approx(
            np.hypot(*(pane.end - pane.start)) * (pane.head - pane.sill), abs=1e-4
        )
        for device, (eye, reach) in glass_break_eyes(level).items():
            seen = sampler.seen(pane, eye, reach)
            told = answers[pane.name]["fractions"].get(device, 0.0)
            if abs(told - seen.mean()) > grid_error(seen):
                # A strip of sight thinner than a cell can slip between the middles of a coarse grid.
                seen = finer.seen(pane, eye, reach)
            differences.append(told - seen.mean())
            assert abs(told - seen.mean()) <= grid_error(seen), (pane.name, device, told, float(seen.mean()))
    # Errors of the grid have either sign; a mistake of the program's would lean one way.
    assert abs(np.mean(differences)) < 2e-3
