"""Plans spoiled at random, in any number of places: a plan or a refusal comes out, nothing else."""

import copy
import json
import math

from hypothesis import example, given, settings
from hypothesis import strategies as st

from app.plan.faults import PlanRefused
from app.plan.model import Plan
from app.plan.reading import plan_from, plan_value, read_plan
from app.review.check import check_plan
from tests.plan.a_plan import a_plan

VALUES = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.sampled_from(
        [0, -1, 1e-300, 1e300, math.nan, math.inf, 10**400, "", "gb", "\ud800", "\x00", "x" * 5000, [], {}]
    )
    | st.text(max_size=8)
    | st.lists(st.floats() | st.text(max_size=3), max_size=4)
    | st.dictionaries(st.text(max_size=8), st.none() | st.floats(), max_size=3)
)


def places(value, way=()):
    """Every place of a JSON value: ways of keys and indices."""
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in steps:
        yield (*way, step)
        yield from places(inner, (*way, step))


PLACES = list(places(a_plan()))
SPOIL = st.tuples(
    st.sampled_from(PLACES), st.sampled_from(["put", "drop", "twice", "add"]), VALUES, st.text(max_size=6)
)


def spoiled(changes):
    plan = a_plan()
    for way, what, value, key in changes:
        holder = plan
        try:
            for step in way[:-1]:
                holder = holder[step]
            if what == "put":
                holder[way[-1]] = value
            elif what == "drop":
                del holder[way[-1]]
            elif what == "twice" and isinstance(holder, list):
                holder.append(copy.deepcopy(holder[way[-1]]))
            elif isinstance(holder[way[-1]], dict):
                holder[way[-1]][key] = value
        except (KeyError, IndexError, TypeError):
            continue  # an earlier change took the place away
    return plan


def outcome(read, source):
    """What reading gives: a plan or a refusal; anything else that is raised is raised on."""
    try:
        return read(source)
    except PlanRefused as refused:
        return refused


@settings(max_examples=300, deadline=None)
@given(changes=st.lists(SPOIL, min_size=1, max_size=4))
@example(changes=[(("practice",), "twice", None, "\n")])
def test_a_plan_or_a_refusal(changes):
    found = outcome(plan_from, spoiled(changes))
    if isinstance(found, PlanRefused):
        assert found.faults
        for fault in found.faults:
            assert fault.message
            assert "\n" not in str(fault)
            str(fault).encode()
    else:
        assert isinstance(found, Plan)
        assert plan_from(plan_value(found)) == found
        json.dumps(plan_value(found), allow_nan=False).encode()


@settings(max_examples=150, deadline=None)
@given(source=st.binary(max_size=60) | st.text(alphabet='{}[]":,0eE+-. ntfu\\', max_size=60).map(str.encode))
def test_bytes_are_refused(source):
    assert str(outcome(read_plan, source))


NUMBERS = st.floats(-30, 30) | st.sampled_from([0.0, 6.0, 12.0, 20.0, 1e-9, 10_000.0])
FIELDS = (0, 1, "height", "width", "offset", "sill", "top")
NUMERIC = [way for way in PLACES if way[0] == "levels" and way[-1] in FIELDS]
NUDGE = st.tuples(st.sampled_from(NUMERIC), st.just("put"), NUMBERS, st.just(""))


@settings(max_examples=60, deadline=None)
@given(changes=st.lists(NUDGE, min_size=1, max_size=5))
def test_what_is_taken_can_be_checked(changes):
    found = outcome(plan_from, spoiled(changes))
    if isinstance(found, Plan):
        json.dumps(check_plan(found), allow_nan=False)
