"""The main axes: the direction that carries most wall length, however the house is turned."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.plan.model import Wall
from app.wiring.routes.axes import main_axes, main_direction
from tests.wiring.houses import level, plan, turned, value


def wall(number, a, b):
    return Wall(id=f"w{number}", a=a, b=b)


def apart(one, other):
    return abs((one - other + 45) % 90 - 45)


def test_house_along_the_grid_has_exactly_east_and_north():
    axes = main_axes(plan([level(0, [])]))
    assert axes.angle == 0.0
    assert axes.trunk == (1.0, 0.0)
    assert axes.branch == (0.0, 1.0)


def test_trunk_lies_along_the_longer_side_of_the_building():
    narrow = {"a": ((0, 0), (10, 0)), "b": ((10, 0), (10, 50)), "c": ((10, 50), (0, 50)), "d": ((0, 50), (0, 0))}
    axes = main_axes(plan([level(0, [], walls=narrow)]))
    assert abs(axes.trunk[1]) == 1.0


def test_most_wall_length_decides_not_most_walls():
    short = [wall(n, (n, 0), (n + 1, 1)) for n in range(12)]  # twelve walls at 45°, 17 ft together
    assert main_direction([*short, wall(99, (0, 5), (20, 5))]) == pytest.approx(0.0)


def test_walls_at_right_angles_are_weighed_together():
    walls = [wall(1, (0, 0), (9, 0)), wall(2, (0, 0), (0, 9)), wall(3, (0, 0), (8, 8))]  # 18 ft against 11.3 ft
    assert main_direction(walls) == pytest.approx(0.0)


def test_equal_directions_are_settled_by_the_earliest_wall():
    straight, slanted = wall(1, (0, 0), (10, 0)), wall(2, (0, 0), (6, 8))
    assert main_direction([straight, slanted]) == pytest.approx(0.0)
    assert main_direction([slanted, straight]) == pytest.approx(math.degrees(math.atan2(8, 6)))


def test_no_wall_gives_east_and_north():
    assert main_axes(plan([level(0, [], walls={})])).trunk == (1.0, 0.0)


def test_slop_of_a_file_in_three_decimals_does_not_split_a_direction():
    turn = math.radians(0.37)
    walls = [
        wall(n, (0.0, float(n)), (round(12 * math.cos(turn), 3), round(n + 12 * math.sin(turn), 3))) for n in range(8)
    ]
    assert apart(main_direction(walls), 0.37) < 0.003


@given(st.floats(-360, 360))
def test_axes_turn_with_the_house(degrees):
    axes = main_axes(turned(value([level(0, [])]), degrees))
    assert apart(axes.angle, degrees) < 1e-9
    assert abs(axes.trunk[0] * axes.branch[0] + axes.trunk[1] * axes.branch[1]) < 1e-12
