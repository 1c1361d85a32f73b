"""Motion where the answer can be written down: whole rooms, sectors of a circle, shadows by similar triangles.

Formulas are elementary geometry; each is derived beside its check.
"""

import math

import pytest

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.houses import moved

THICK = 0.4
HALF = THICK / 2
WIDE, DEEP = 20.0, 12.0  # clear floor


def house(device, *, fixtures=(), walls=(), ceiling=9.0, turn=33.0):
    """One room of clear floor 20 × 12 ft, its south-west corner at the origin, turned by some angle."""
    corners = [(-HALF, -HALF), (WIDE + HALF, -HALF), (WIDE + HALF, DEEP + HALF), (-HALF, DEEP + HALF)]
    shell = [
        {"id": f"w{k}", "a": list(corners[k]), "b": list(corners[(k + 1) % 4]), "thickness": THICK} for k in range(4)
    ]
    level = {"id": "one", "name": "One", "ceiling": ceiling, "walls": [*shell, *walls], "fixtures": list(fixtures)}
    level["rooms"] = [{"id": "room", "name": "Room", "at": [19.5, 11.5]}]
    level["devices"] = [{"id": "md", "kind": "motion"} | device]
    return moved({"format": "studbay-plan/1", "name": "One", "levels": [level]}, turn=turn, shift=(80, -35))


def watched(*args, **more):
    answer = check_plan(plan_from(house(*args, **more)))
    [motion], [room] = answer["motions"], answer["rooms"]
    assert room["motions"].get("md", 0.0) == pytest.approx(motion["area_sqft"], abs=1e-3)
    return motion["area_sqft"]


def box(x, y, wide, deep, **more):
    corners = [[x, y], [x + wide, y], [x + wide, y + deep], [x, y + deep]]
    return {"id": f"box{x:g}-{y:g}", "kind": "obstruction", "polygon": corners} | more


def test_a_corner_detector_watches_the_whole_room():
    assert watched({"at": [0, 0], "facing": 45}) == pytest.approx(WIDE * DEEP, abs=0.01)


def test_range_cuts_the_room_as_a_quarter_disc():
    assert watched({"at": [0, 0], "facing": 45, "range": 10}) == pytest.approx(math.pi * 100 / 4, rel=1e-4)


def test_a_disc_that_reaches_over_a_wall_loses_its_segment():
    # A quarter disc of radius 15 above y = 12: what lies beyond is half the segment of half angle acos(12 / 15).
    lost = (225 * math.acos(12 / 15) - 12 * math.sqrt(225 - 144)) / 2
    assert watched({"at": [0, 0], "facing": 45, "range": 15}) == pytest.approx(math.pi * 225 / 4 - lost, rel=1e-4)


@pytest.mark.parametrize("angle", [20, 90, 140, 250, 360])
def test_view_angle_is_a_sector(angle):
    told = watched({"at": [10, 6], "facing": 77, "view_angle": angle, "range": 5})
    assert told == pytest.approx(math.radians(angle) / 2 * 25, rel=1e-4)


def test_a_narrow_view_from_a_corner_is_a_triangle():
    # 30° about the east wall's direction + 15°: the ray at 30° leaves the room through the east side at 20·tan 30°.
    told = watched({"at": [0, 0], "facing": 15, "view_angle": 30})
    assert told == pytest.approx(WIDE * WIDE * math.tan(math.radians(30)) / 2, rel=1e-4)


def test_a_full_pillar_hides_itself_and_a_trapezoid_behind():
    # From the middle of the west wall, a pillar 1 ft square on the axis, near face 8 ft off: rays by its near corners
    # open to ±0.5·20/8 at the east wall.
    pillar = box(8, 5.5, 1, 1)
    far_half = 0.5 * WIDE / 8
    hidden = (0.5 + far_half) * (WIDE - 8)
    told = watched({"at": [0, 6], "facing": 0, "view_angle": 180}, fixtures=[pillar])
    assert told == pytest.approx(WIDE * DEEP - hidden, rel=1e-4)


def test_a_low_wall_shadows_a_strip_behind_it():
    # Eye 7 ft, target 3 ft, top 4 ft: a ray passes 4 ft at 3/4 of its way, so a far edge at 5.1 ft hides to 5.1·4/3,
    # along the whole width; the floor under the low wall itself is no floor.
    low = {"id": "low", "a": [5, -HALF], "b": [5, DEEP + HALF], "thickness": 0.2, "height": 4.0}
    level_floor = WIDE * DEEP - 0.2 * DEEP
    told = _total_of_both_rooms({"at": [0, 6], "facing": 0, "view_angle": 180}, low)
    assert told == pytest.approx(level_floor - (5.1 / 0.75 - 5.1) * DEEP, rel=2e-4)


def test_a_wall_no_higher_than_the_target_hides_nothing():
    low = {"id": "low", "a": [5, -HALF], "b": [5, DEEP + HALF], "thickness": 0.2, "height": 3.0}
    told = _total_of_both_rooms({"at": [0, 6], "facing": 0, "view_angle": 180}, low)
    assert told == pytest.approx(WIDE * DEEP - 0.2 * DEEP, rel=1e-4)


def _total_of_both_rooms(device, low):
    [motion] = check_plan(plan_from(house(device, walls=[low])))["motions"]
    return motion["area_sqft"]


def test_a_low_table_is_floor_that_is_seen_over():
    table = box(8, 4, 3, 3, top=2.5)
    assert watched({"at": [0, 0], "facing": 45}, fixtures=[table]) == pytest.approx(WIDE * DEEP, abs=0.01)


def test_a_high_cupboard_takes_its_own_floor_and_a_strip():
    # The eye looks straight east from far; a cupboard across the whole room, top 5 ft: hides from its far edge 10 ft to
    # 10 / (2/4): a ray of 7 → 3 ft passes 5 ft halfway, so up to the east wall exactly.
    cupboard = box(8, 0, 2, DEEP, top=5.0)
    told = watched({"at": [0, 6], "facing": 0, "view_angle": 180}, fixtures=[cupboard])
    assert told == pytest.approx(8 * DEEP, rel=1e-4)


def test_a_soffit_hides_what_the_sight_line_meets_below_the_ceiling():
    # Soffit from 6 ft up, near edge 2 ft, far edge 4 ft off, eye 7 ft, target 3 ft: a ray falls below 6 ft after a
    # quarter of its way, so it is hidden when the quarter lies beyond the near edge: targets farther than 8 ft.
    soffit = box(2, 0, 2, DEEP, base=6.0)
    told = watched({"at": [0, 6], "facing": 0, "view_angle": 180}, fixtures=[soffit])
    assert told == pytest.approx(8 * DEEP, rel=1e-4)


def test_a_detector_in_a_wall_watches_nothing_and_is_found():
    plan = plan_from(house({"at": [10, -HALF], "facing": 90}))
    answer = check_plan(plan)
    assert answer["motions"][0]["area_sqft"] == 0
    assert any("md" in finding["things"] for finding in answer["findings"])
