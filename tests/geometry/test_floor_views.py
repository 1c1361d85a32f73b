"""Many eyes swept together see what each sees alone."""

import pytest
import shapely

from app.geometry.eye import Eye, clear_eyes
from app.geometry.floor_view import Watch, floor_view, floor_views
from app.geometry.scene import compile_level
from app.plan.reading import plan_from
from tests.houses import random_house

TARGET = 3.0


@pytest.mark.parametrize("seed", range(6))
def test_many_eyes_see_what_each_sees_alone(seed):
    level = plan_from(random_house(seed)).levels[0]
    bodies = compile_level(level).bodies
    motions = [device for device in level.devices if device.kind == "motion"]
    eyes = clear_eyes(bodies, [Eye(*device.at, 7.0) for device in motions], level.ceiling)
    watches = [
        Watch(eye, reach, device.facing or 0.0, angle)
        for eye, device in zip(eyes, motions, strict=True)
        if eye is not None
        for reach, angle in ((40.0, 90.0), (12.0, 360.0), (0.5, 60.0))
    ]
    together = floor_views(bodies, watches, TARGET)
    alone = [floor_view(bodies, one.eye, one.reach, one.facing, one.angle, TARGET) for one in watches]
    assert watches
    for one, other in zip(together, alone, strict=True):
        assert one.area > 0
        assert shapely.symmetric_difference(one, other).area < 1e-9


def test_no_eye_sees_nothing():
    bodies = compile_level(plan_from(random_house(1)).levels[0]).bodies
    assert floor_views(bodies, [], TARGET) == []
