"""Motion against rays: the watched floor of random houses, past half walls, headers, furniture and soffits.

References: trimesh (meshes) and embreex (Embree's ray casting) on a grid over the floor.
"""

import pytest

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.houses import random_house
from tests.outside.rays import watched_area

STEP = 0.17  # ft


@pytest.mark.parametrize("seed", range(100, 132))
def test_watched_floor_agrees_with_rays(seed):
    plan = random_house(seed)
    level = plan["levels"][0]
    told = {motion["id"]: motion["area_sqft"] for motion in check_plan(plan_from(plan))["motions"]}
    watches = [device for device in level["devices"] if device["kind"] == "motion"]
    assert set(told) == {device["id"] for device in watches}
    for device in watches:
        area, error = watched_area(plan, level, device, STEP)
        assert abs(told[device["id"]] - area) <= error + 0.2, (device["id"], told[device["id"]], area, error)
