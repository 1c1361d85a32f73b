"""A check answers any plan that the reader takes, however odd, and every finding of it can be shown."""

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from app.plan.faults import PlanRefused
from app.plan.reading import plan_from
from app.review.check import check_plan
from app.review.findings import SEVERITIES
from app.review.house import House
from app.review.protection import protection
from app.review.rulebook import all_rules

spot = st.tuples(st.integers(-4, 30), st.integers(-4, 30)).map(lambda at: [at[0] / 2, at[1] / 2])
USES = ("bedroom", "main bedroom", "Great room", "kitchen", "entry", "garage", "closet", "stairs", "", "x")
KINDS = (
    "can",
    "keypad",
    "door_contact",
    "window_contact",
    "overhead_door_contact",
    "motion",
    "glass_break",
    "siren",
    "flood",
    "smoke",
    "other",
)


@st.composite
def levels(draw, number):
    walls = [
        {"id": f"l{number}w{index}", "a": a, "b": b, "thickness": draw(st.sampled_from([0.02, 0.375, 3.0]))}
        | draw(st.sampled_from([{}, {}, {"height": 3.5}]))
        for index, (a, b) in enumerate(draw(st.lists(st.tuples(spot, spot), max_size=9)))
        if a != b
    ]
    openings = [
        {
            "id": f"l{number}o{index}",
            "wall": wall["id"],
            "kind": draw(st.sampled_from(["window", "door", "cased"])),
            "offset": 0,
            "width": draw(st.sampled_from([0.3, 1.0, 3.0])),
            "sill": draw(st.sampled_from([0, 3, 8.9])),
            "head": draw(st.sampled_from([6.667, 9.5, 12])),
        }
        | draw(st.sampled_from([{}, {"hinge": "a"}, {"panes": 3}, {"leaf": "overhead"}, {"exterior": True}]))
        for index, wall in enumerate(walls)
        if draw(st.booleans())
    ]
    openings = [one for one in openings if one["head"] > one["sill"]]
    fixtures = [
        {"id": f"l{number}f{index}", "kind": kind, "at": at}
        for index, (kind, at) in enumerate(
            draw(
                st.lists(
                    st.tuples(st.sampled_from(["bed", "chime", "light_switch", "supply_register"]), spot), max_size=3
                )
            )
        )
    ]
    rooms = [
        {"id": f"l{number}r{index}", "name": draw(st.sampled_from(["", "Main one"])), "use": use or "x", "at": at}
        for index, (use, at) in enumerate(draw(st.lists(st.tuples(st.sampled_from(USES), spot), max_size=4)))
    ]
    devices = [
        {"id": f"l{number}d{index}", "kind": kind, "at": at}
        | draw(
            st.sampled_from([{}, {"height": 0}, {"facing": 45}, {"cable": ""}, {"cable": "24/1"}, {"mount": "plunger"}])
        )
        | {"serves": [one["id"] for one in openings if draw(st.booleans())] if "contact" in kind else []}
        for index, (kind, at) in enumerate(draw(st.lists(st.tuples(st.sampled_from(KINDS), spot), max_size=8)))
    ]
    return {
        "id": f"L{number}",
        "name": "Level",
        "elevation": 10 * number,
        "walls": walls,
        "openings": openings,
        "fixtures": fixtures,
        "rooms": rooms,
        "devices": devices,
    }


@st.composite
def odd_plans(draw):
    count = draw(st.integers(1, 2))
    value = {"format": "studbay-plan/1", "name": "Odd", "levels": [draw(levels(number)) for number in range(count)]}
    value["practice"] = draw(
        st.sampled_from([{}, {"doors.taken_as": "open"}, {"cable.way": "in_walls"}, {"siren.large_home": 0}])
    )
    if count == 2 and draw(st.booleans()):
        value["risers"] = [{"id": "rise", "at": draw(spot), "from": "L0", "to": "L1"}]
    return value


@settings(max_examples=150, deadline=None)
@given(odd_plans())
def test_check_answers_every_plan_that_can_be_read(value):
    try:
        plan = plan_from(value)
    except PlanRefused:
        return
    answer = check_plan(plan)
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer
    ids = {level["id"] for level in value["levels"]}
    for level in value["levels"]:
        for family in ("walls", "openings", "fixtures", "rooms", "devices"):
            ids.update(one["id"] for one in level[family])
    ids.update(pane["id"] for pane in answer["panes"])
    names = {rule.name for rule in all_rules()}
    for finding in answer["findings"]:
        assert finding["rule"] in names
        assert finding["severity"] in SEVERITIES
        assert set(finding["things"]) <= ids, finding
        assert "nan" not in finding["message"]


@settings(max_examples=100, deadline=None)
@given(odd_plans())
def test_protection_answers_every_plan_that_can_be_read(value):
    try:
        plan = plan_from(value)
    except PlanRefused:
        return
    answer = protection(House(plan))
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer
    for walk in answer["ways_in"]:
        for state in ("stay", "away"):
            assert 0 <= walk[state]["unseen_ft"] <= walk["feet"] + 1e-3
