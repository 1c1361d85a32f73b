"""The published JSON Schema under a validator that is not ours: it takes what we take, and refuses wrong shapes."""

import json
from pathlib import Path

import jsonschema_rs
import pytest

from app.plan.reading import plan_from, plan_schema, plan_value
from tests.houses import random_house
from tests.plan.a_plan import a_plan

SAMPLES = sorted(Path(__file__).parents[2].joinpath("sample_plans").glob("*.json"))


@pytest.fixture(scope="module")
def validator():
    schema = plan_schema()
    jsonschema_rs.meta.validate(schema)
    return jsonschema_rs.validator_for(schema)


def test_there_are_samples():
    assert len(SAMPLES) >= 4


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_samples(path, validator):
    value = json.loads(path.read_text("utf-8"))
    validator.validate(value)
    plan = plan_from(value)
    validator.validate(plan_value(plan))
    assert plan_from(plan_value(plan)) == plan


def test_random_houses(validator):
    for seed in range(20):
        value = random_house(seed)
        validator.validate(value)
        validator.validate(plan_value(plan_from(value)))


def test_it_refuses_shapes_that_we_refuse(validator):
    for key, wrong in (("format", "other/1"), ("levels", []), ("name", 7), ("colour", "red"), ("units", "cubits")):
        assert not validator.is_valid(a_plan() | {key: wrong}), key
    spoiled = a_plan()
    spoiled["levels"][0]["walls"][0]["b"] = [1]
    assert not validator.is_valid(spoiled)


def test_a_written_plan_has_every_default():
    value = plan_value(plan_from(a_plan()))
    wall, window, door = value["levels"][0]["walls"][0], *value["levels"][0]["openings"]
    assert wall["thickness"] == 0.375
    assert wall["height"] is None
    assert value["levels"][0]["ceiling"] == 9
    assert value["levels"][0]["elevation"] == 0
    assert door["head"] == 6.667
    assert window["panes"] == 1
    assert value["risers"][0]["from"] == "ground"
