"""Rooms: the fast way to the floors against the plain one."""

from __future__ import annotations

import numpy as np
import shapely

from app.geometry.rooms import compile_faces
from app.plan.reading import plan_from
from tests.houses import sized_house


def test_floors_found_by_the_lot_are_those_of_each_face_less_its_walls() -> None:
    [level] = plan_from(sized_house("L")).levels
    faces = compile_faces(level.walls)
    assert len(faces) > 512  # more than are taken together
    near = [faces.wall_tree.query(face, predicate="intersects") for face in faces.outline]
    walls = np.array([shapely.union_all(faces.wall_bodies[one]) for one in near])
    plain = shapely.difference(faces.outline, walls)
    assert np.abs(shapely.area(shapely.symmetric_difference(faces.floors, plain))).max() < 1e-9
    assert shapely.area(faces.floors).min() > 0
