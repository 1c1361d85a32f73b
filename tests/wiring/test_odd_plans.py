"""Odd but allowed plans get an answer: walls that lie on one another, things in one spot, values at their bounds."""

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from app.plan.reading import plan_from
from app.wiring.answer import wiring_answer
from app.wiring.judgements import wiring_findings
from app.wiring.schedule.text import schedule_csv, schedule_text
from app.wiring.wiring import Wiring

near = st.sampled_from([0.0, 0.01, 5.0, 5.005, 10.0, 10.0000001, 20.0, -3.0])
spot = st.tuples(near, near).map(list)
kinds = st.sampled_from(
    ["can", "keypad", "door_contact", "window_contact", "motion", "glass_break", "siren", "smoke", "other"]
)
cables = st.sampled_from([None, "", "22/4", "24/2", "cat6", "=1+1", "12/2", "0/0"])
notes = st.sampled_from([None, "wireless", "cable via (5, 5)", "cable via (5, 5) (5, 5) (0, 20)", "cable via (1"])
practices = st.fixed_dictionaries(
    {
        "cable.way": st.sampled_from(["overhead", "in_walls"]),
        "cable.box_sizes": st.sampled_from([[500, 1000], [50], [50.5, 77]]),
        "cable.waste": st.sampled_from([0, 0.1, 1]),
        "cable.slack_at_device": st.sampled_from([0, 1.5]),
        "cable.slack_at_can": st.sampled_from([0, 6]),
        "cable.spares_at_keypads": st.sampled_from([0, 3]),
        "power.supply_volts": st.sampled_from([5, 12, 30]),
        "power.siren_alarm": st.sampled_from([0, 500, 5000]),
        "battery.basis": st.sampled_from(["burglary_4h", "premises_24h", "fire_24h", "en_12h"]),
        "zone.grouping": st.sampled_from(["as_needed", "always", "never"]),
        "zone.inputs": st.sampled_from([1, 16]),
    }
)


@st.composite
def odd_plans(draw):
    storeys = draw(st.integers(1, 3))
    levels = []
    for number in range(storeys):
        walls = [pair for pair in draw(st.lists(st.tuples(spot, spot), max_size=8)) if pair[0] != pair[1]]
        walls = [pair for pair in walls if abs(pair[0][0] - pair[1][0]) + abs(pair[0][1] - pair[1][1]) > 0.02]
        things = draw(st.lists(st.tuples(kinds, spot, cables, notes), max_size=6))
        levels.append(
            {
                "id": f"L{number}",
                "name": f"{number}",
                "elevation": draw(st.sampled_from([0, 10, -10])),
                "walls": [{"id": f"w{number}.{n}", "a": a, "b": b} for n, (a, b) in enumerate(walls)],
                "devices": [
                    {"id": f"d{number}.{n}", "kind": kind, "at": at, "cable": cable, "note": note}
                    for n, (kind, at, cable, note) in enumerate(things)
                ],
            }
        )
    links = draw(st.lists(st.tuples(spot, st.integers(0, storeys - 1), st.integers(0, storeys - 1)), max_size=5))
    risers = [
        {"id": f"r{n}", "at": at, "from": f"L{low}", "to": f"L{high}"}
        for n, (at, low, high) in enumerate(links)
        if low != high
    ]
    return {"format": "studbay-plan/1", "name": "Odd", "levels": levels, "risers": risers, "practice": draw(practices)}


@given(odd_plans())
@settings(max_examples=150, deadline=None)
def test_odd_plan_has_an_answer(given):
    wiring = Wiring(plan_from(given))
    answer = wiring_answer(wiring)
    json.dumps([answer, wiring_findings(wiring)], allow_nan=False)
    assert schedule_text(wiring.schedule)
    assert schedule_csv(wiring.schedule)
    boxed = [label for box in answer["boxes"] for label in box["pulls"]]
    too_long = [label for packing in answer["packing"].values() for label in packing["too_long"]]
    routed = [pull["label"] for pull in answer["pulls"] if pull["route"]]
    assert sorted(boxed + too_long) == sorted(routed)
    assert len({pull["label"] for pull in answer["pulls"]}) == len(answer["pulls"])
