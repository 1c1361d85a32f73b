"""Lengths as people read and type them: what is written is read back, and the grammar of contract §1."""

import math

import pytest

from app.plan.measures import FEET_PER_METRE, area_text, feet_inches, length_text, metres, parse_length

SIXTEENTHS = range(60 * 12 * 16 + 1)


def test_every_sixteenth_up_to_60_ft_is_read_back():
    for count in SIXTEENTHS:
        feet = count / 192
        text = feet_inches(feet)
        assert parse_length(text) == pytest.approx(feet, abs=1e-12), text
        assert parse_length("-" + text) == pytest.approx(-feet, abs=1e-12), text
        assert feet_inches(parse_length(text)) == text


def test_every_sixteenth_up_to_60_ft_through_metres():
    for count in SIXTEENTHS:
        feet = count / 192
        text = length_text(feet, "metric")
        # Written to the millimetre: half of one off at most, which is less than half a sixteenth.
        assert parse_length(text, "metric") == pytest.approx(feet, abs=0.0005001 * FEET_PER_METRE)
        assert feet_inches(parse_length(text)) == feet_inches(feet)
        assert length_text(parse_length(text), "metric") == text


def test_every_millimetre_up_to_20_m_is_read_back():
    for millimetres in range(20_001):
        feet = millimetres / 1000 * FEET_PER_METRE
        assert parse_length(f"{millimetres} mm") == pytest.approx(feet, abs=1e-12)
        assert metres(feet) == f"{millimetres / 1000:g} m"


TYPED = {
    "12'-6\"": 12.5,
    "12' 6 1/2\"": 12 + 6.5 / 12,
    "12-6": 12.5,
    "12.5'": 12.5,
    '150"': 12.5,
    "3.81 m": 12.5,
    "381 cm": 12.5,
    "3810 mm": 12.5,
    "12'": 12,
    "12'6": 12.5,
    "12' 6": 12.5,
    "12'6\"": 12.5,
    "12'-6 1/2\"": 12 + 6.5 / 12,
    "12-6 1/2": 12 + 6.5 / 12,
    "12' 1/2\"": 12 + 0.5 / 12,
    '6 1/2"': 6.5 / 12,
    '1/2"': 0.5 / 12,
    '.5"': 0.5 / 12,
    "12ft 6in": 12.5,
    "12 feet 6 inches": 12.5,
    "12’ 6½”": 12 + 6.5 / 12,
    "12′ 6″": 12.5,
    "3.81m": 12.5,
    " 12'-6\" ": 12.5,
    "-3'-6\"": -3.5,
    "−3.5'": -3.5,
    "0": 0,
    "0'-0\"": 0,
}


@pytest.mark.parametrize("text", TYPED)
@pytest.mark.parametrize("units", ["imperial", "metric"])
def test_typed_lengths(text, units):
    assert parse_length(text, units) == pytest.approx(TYPED[text], abs=1e-12)


def test_a_bare_number_is_the_plans_unit():
    assert parse_length("12.5") == 12.5
    assert parse_length("3.81", "metric") == pytest.approx(12.5, abs=1e-12)


NO_LENGTHS = ["", " ", "x", "'", '"', "-", '1/0"', "12 6", "6/", "1e5", "nan", "inf", "12''6''7", "1,5", "5 km"]


@pytest.mark.parametrize("text", [*NO_LENGTHS, "9" * 400])
def test_what_is_no_length_says_what_to_type(text):
    with pytest.raises(ValueError, match="length"):
        parse_length(text)


def test_written_lengths():
    assert length_text(12.5) == "12'-6\""
    assert length_text(12 + 6.5 / 12) == "12'-6 1/2\""
    assert length_text(11.9999) == "12'-0\""
    assert length_text(-0.0001) == "0'-0\""
    assert length_text(12.5, "metric") == "3.81 m"
    assert metres(-1e-9) == "0 m"
    assert metres(10 * FEET_PER_METRE) == "10 m"
    assert area_text(100.0) == "100.0 sq ft"
    assert area_text(100.0, "metric") == "9.3 m²"
    assert math.isclose(FEET_PER_METRE * 0.3048, 1)
