"""The practice table walked: every value has what people need of it, and no override outside its bounds is taken."""

import math

import pytest

from app.plan.faults import PlanRefused
from app.plan.practice import DESIGN_VALUES, Practice
from app.plan.reading import plan_from
from tests.plan.a_plan import a_plan

BY_KEY = pytest.mark.parametrize("value", DESIGN_VALUES, ids=lambda value: value.key)
UNITLESS = ("choice", "numbers", "word")


def taken(key, value):
    plan = a_plan() | {"practice": {key: value}}
    return plan_from(plan).practice_in_force


def refused(key, value):
    with pytest.raises(PlanRefused) as refusal:
        taken(key, value)
    assert [fault.at for fault in refusal.value.faults] == [f"practice.{key}"]


def test_keys_are_unique_and_grouped():
    keys = [value.key for value in DESIGN_VALUES]
    assert len(set(keys)) == len(keys)
    assert all("." in key for key in keys)


@BY_KEY
def test_each_value_says_what_it_is(value):
    assert value.words
    assert value.words[0].isupper()
    assert value.source
    assert value.unit or value.kind == "choice"


@BY_KEY
def test_the_default_is_within_bounds_and_taken(value):
    if value.kind == "number":
        assert value.low <= value.default <= value.high
    if value.kind == "numbers":
        assert all(value.low <= member <= value.high for member in value.default)
    if value.kind == "choice":
        assert value.default in value.choices
    plain = list(value.default) if value.kind == "numbers" else value.default
    assert not taken(value.key, plain).is_default(value.key)


@BY_KEY
def test_overrides_outside_the_bounds_are_refused(value):
    for nonsense in (None, True, {}, [], "", math.nan, math.inf, -math.inf):
        refused(value.key, nonsense)
    if value.kind == "number":
        for outside in (value.low - 0.001, value.high + 0.001, str(value.default)):
            refused(value.key, outside)
        assert taken(value.key, value.low).number(value.key) == value.low
        assert taken(value.key, value.high).number(value.key) == value.high
    if value.kind == "numbers":
        for outside in ([value.low - 0.001], [value.high + 1, value.low], [value.low] * 13, value.low):
            refused(value.key, outside)
        assert taken(value.key, [value.high, value.low]).numbers(value.key) == (value.low, value.high)
    if value.kind == "choice":
        refused(value.key, "neither")
    if value.kind == "word":
        refused(value.key, "x" * 41)
        refused(value.key, 22)
        assert taken(value.key, "22/4 shielded").text(value.key) == "22/4 shielded"


def test_contract_values():
    """Contract §3 and §6 fix these."""
    practice = Practice()
    assert practice.number("glass.range") == 15
    assert practice.number("glass.required_fraction") == 1
    assert practice.number("motion.range") == 40
    assert practice.number("motion.view_angle") == 90
    assert practice.number("motion.target_height") == 3
    assert practice.number("motion.height") == 7
    assert practice.number("keypad.height") == 5
    assert practice.text("doors.taken_as") == "closed"
    assert practice.text("cable.way") == "overhead"
    assert practice.number("cable.above_ceiling") == 0.5
    assert practice.number("cable.waste") == 0.10
    assert practice.number("cable.slack_at_device") == 1.5
    assert practice.number("cable.slack_at_can") == 6
    assert practice.numbers("cable.box_sizes") == (500, 1000)


def test_nested_overrides_read_like_dotted_ones():
    plan = a_plan() | {"practice": {"doors": {"taken_as": "open"}}}
    assert plan_from(plan).practice_in_force.text("doors.taken_as") == "open"
