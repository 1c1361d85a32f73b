"""Copper against published tables: ASTM B258's formula, a wire-gauge table, NEC Chapter 9 Table 8, and worked drops."""

import math

import fluids
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.wiring.electric.conductors import (
    STRANDED,
    TABLE_8,
    Make,
    circular_mils,
    cool_resistance,
    diameter,
    drop,
    hot_resistance,
    longest_run,
    make_of,
)


@pytest.mark.parametrize(("gauge", "inches"), [(22, 0.02535), (18, 0.04030), (36, 0.00500)])
def test_diameter_by_astm_b258(gauge, inches):
    assert diameter(gauge) == pytest.approx(inches, abs=5e-6)


@pytest.mark.parametrize("gauge", [12, 14, 16, 18, 20, 22, 24, 36])
def test_diameter_as_the_package_fluids_lists_it(gauge):
    assert diameter(gauge) == pytest.approx(fluids.t_from_gauge(gauge, SI=False, schedule="AWG"), abs=1e-4)


@pytest.mark.parametrize(
    ("gauge", "mils"),
    [(24, 404.0), (22, 642.4), (20, 1021.5), (18, 1624.3), (16, 2582.9), (14, 4106.8), (12, 6529)],
)
def test_circular_mils_of_the_wire_gauge_table(gauge, mils):
    assert circular_mils(gauge) == pytest.approx(mils, rel=4e-4)


@pytest.mark.parametrize(
    ("gauge", "ohms"),
    [(24, 25.67), (22, 16.14), (20, 10.15), (18, 6.385), (16, 4.016), (14, 2.525), (12, 1.588)],
)
def test_cool_resistance_of_the_wire_gauge_table(gauge, ohms):
    assert cool_resistance(gauge) == pytest.approx(ohms, rel=6e-4)


@pytest.mark.parametrize(("gauge", "ohms"), [(24, 31.22), (22, 19.63), (20, 12.34)])
def test_hot_resistance_of_sizes_that_table_8_lacks(gauge, ohms):
    assert hot_resistance(gauge) == pytest.approx(ohms, abs=0.01)


@pytest.mark.parametrize("gauge", TABLE_8)
def test_coefficient_reproduces_table_8(gauge):
    solid, stranded = TABLE_8[gauge]
    assert cool_resistance(gauge) * (1 + 0.00393 * 55) == pytest.approx(solid, rel=1.5e-3)
    assert hot_resistance(gauge) == solid
    assert hot_resistance(gauge, "stranded") == stranded


def test_stranded_has_about_two_per_cent_more():
    assert pytest.approx(1.023, abs=5e-4) == STRANDED
    assert cool_resistance(22, "stranded") == pytest.approx(16.5, abs=0.05)
    assert cool_resistance(24, "stranded") == pytest.approx(26.2, abs=0.1)


def test_a_cool_conductor_reads_82_per_cent_of_table_8():
    assert cool_resistance(18) / TABLE_8[18][0] == pytest.approx(0.8224, abs=1e-3)


def test_drop_of_the_electrical_course():
    assert drop(100, 4.99, 4) == pytest.approx(3.992)
    assert drop(100, 4.99, 4) / 24 == pytest.approx(0.1663, abs=1e-4)


@pytest.mark.parametrize(("ohms", "lost"), [(64.898, 6.490), (25.669, 2.567), (6.3851, 0.6385)])
def test_drop_of_three_gauges_in_the_question_and_answer_page(ohms, lost):
    assert drop(100, ohms, 0.5) == pytest.approx(lost, abs=1e-3)


def test_the_trap_of_loop_feet_taken_for_one_way_feet():
    # The page “Wiring and Voltage Loss” gives 2.91 V for 1500 ft: that is the loop; one way it is twice as much.
    assert drop(1500 / 2, 6.51, 0.3) == pytest.approx(2.930, abs=1e-3)
    assert drop(1500, 6.51, 0.3) == pytest.approx(5.859, abs=1e-3)


@pytest.mark.parametrize(
    ("gauge", "amperes", "one_volt", "third_of_a_volt"),
    [
        (22, 0.025, 1239.2, 371.7),
        (22, 0.160, 193.6, 58.1),
        (22, 0.500, 61.96, 18.6),
        (22, 1.200, 25.8, 7.7),
        (18, 0.025, 3132.3, 939.7),
        (18, 0.160, 489.4, 146.8),
        (18, 0.500, 156.6, 47.0),
        (18, 1.200, 65.3, 19.6),
    ],
)
def test_longest_runs(gauge, amperes, one_volt, third_of_a_volt):
    assert longest_run(1.0, cool_resistance(gauge), amperes) == pytest.approx(one_volt, rel=1e-3)
    assert longest_run(0.3, cool_resistance(gauge), amperes) == pytest.approx(third_of_a_volt, rel=6e-3)


def test_no_load_runs_for_ever():
    assert math.isinf(longest_run(1.0, 16.14, 0.0))


@given(st.floats(1, 1000), st.floats(1, 30), st.floats(0.001, 3))
def test_halving_length_or_resistance_halves_the_drop(feet, ohms, amperes):
    assert drop(feet / 2, ohms, amperes) == pytest.approx(drop(feet, ohms, amperes) / 2)
    assert drop(feet, ohms / 2, amperes) == pytest.approx(drop(feet, ohms, amperes) / 2)


@pytest.mark.parametrize(
    ("cable", "make"),
    [
        ("22/4", Make(22, 4)),
        (" 18/2 shielded", Make(18, 2)),
        ("cat6", None),
        ("", None),
        ("99/2", None),
        ("22/0", None),
    ],
)
def test_make_is_read_from_the_name(cable, make):
    assert make_of(cable) == make
