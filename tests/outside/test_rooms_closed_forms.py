"""Rooms where the area can be written down: rectangles less half the thickness of the walls around them."""

import pytest

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.houses import moved


def plan_of(walls, spots, openings=(), **turned):
    level = {"id": "one", "name": "One", "walls": walls, "openings": list(openings)}
    level["rooms"] = [{"id": name, "name": name, "at": list(at)} for name, at in spots.items()]
    return moved({"format": "studbay-plan/1", "name": "Rooms", "levels": [level]}, **turned)


def areas(*args, **more):
    return {room["id"]: room["area_sqft"] for room in check_plan(plan_from(plan_of(*args, **more)))["rooms"]}


def wall(name, a, b, thickness):
    return {"id": name, "a": list(a), "b": list(b), "thickness": thickness}


def shell(wide, deep, thickness):
    corners = [(0, 0), (wide, 0), (wide, deep), (0, deep)]
    return [wall(f"s{k}", corners[k], corners[(k + 1) % 4], thickness) for k in range(4)]


TURNS = [{}, {"turn": 90.0}, {"turn": 31.7, "shift": (412.3, -77.1)}, {"turn": -123.4, "mirror": True}]


@pytest.mark.parametrize("turned", TURNS)
@pytest.mark.parametrize("thickness", [0.1, 0.375, 0.5, 1.0])
def test_one_room(thickness, turned):
    told = areas(shell(20, 12, thickness), {"room": (3, 3)}, **turned)
    assert told["room"] == pytest.approx((20 - thickness) * (12 - thickness), abs=2e-4)


@pytest.mark.parametrize("turned", TURNS)
def test_two_rooms_and_a_passage_that_closes_both(turned):
    middle = wall("mid", (8, 0), (8, 12), 0.3)
    way = {"id": "way", "wall": "mid", "kind": "cased", "offset": 2, "width": 8, "head": 9}
    told = areas([*shell(20, 12, 0.5), middle], {"west": (3, 3), "east": (15, 3)}, [way], **turned)
    assert told["west"] == pytest.approx((8 - 0.25 - 0.15) * 11.5, abs=2e-4)
    assert told["east"] == pytest.approx((12 - 0.15 - 0.25) * 11.5, abs=2e-4)


@pytest.mark.parametrize("turned", TURNS)
def test_a_right_triangle_loses_a_margin_of_its_perimeter(turned):
    # Offsetting a triangle inward by d takes d·perimeter less d²·Σcot(half angles); 3-4-5 has Σcot(½) = 1 + 2 + 3.
    corners = [(0, 0), (12, 0), (0, 9)]
    walls = [wall(f"t{k}", corners[k], corners[(k + 1) % 3], 0.5) for k in range(3)]
    told = areas(walls, {"attic": (3, 3)}, **turned)
    assert told["attic"] == pytest.approx(54 - 0.25 * 36 + 0.25**2 * 6, abs=2e-4)


def test_a_free_standing_wall_takes_its_own_plan():
    told = areas([*shell(20, 12, 0.5), wall("free", (5, 6), (9, 6), 0.4)], {"room": (2, 2)})
    assert told["room"] == pytest.approx(19.5 * 11.5 - 4 * 0.4, abs=2e-4)


def test_a_room_within_a_room():
    inner = [
        wall(f"i{k}", a, b, 0.5)
        for k, (a, b) in enumerate([((6, 4), (12, 4)), ((12, 4), (12, 8)), ((12, 8), (6, 8)), ((6, 8), (6, 4))])
    ]
    told = areas([*shell(20, 12, 0.5), *inner], {"core": (9, 6), "around": (2, 2)})
    assert told["core"] == pytest.approx(5.5 * 3.5, abs=2e-4)
    # Flat ends: each inner corner lacks the outer quarter square of ¼ × ¼ ft.
    assert told["around"] == pytest.approx(19.5 * 11.5 - (6.5 * 4.5 - 4 * 0.25**2), abs=2e-4)


def test_a_point_outside_has_no_room():
    answer = check_plan(plan_from(plan_of(shell(20, 12, 0.5), {"lost": (30, 3)})))
    assert answer["rooms"][0]["area_sqft"] == 0
    assert any("lost" in finding["things"] for finding in answer["findings"])
