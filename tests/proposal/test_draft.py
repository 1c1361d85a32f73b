"""The first pass as a whole: what it keeps, what it leaves unsaid, how it ends when told to stop, the samples."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from app.plan.reading import plan_from, plan_value
from app.proposal.draft import draft_answer, draft_plan, with_proposals
from app.review.check import check_plan
from tests import houses
from tests.proposal.rooms import drafted, house, proposed

SAMPLES = sorted((Path(__file__).parents[2] / "sample_plans").glob("*.json"))


def musts(value: Any) -> list[str]:
    return [found["message"] for found in check_plan(value)["findings"] if found["severity"] == "must"]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_bare_sample_is_left_without_a_must(path: Path) -> None:
    value = json.loads(path.read_text())
    for level in value["levels"]:
        level["devices"] = []
    draft = draft_plan(plan_from(value))
    after = plan_from(plan_value(draft.plan))
    assert not musts(after)
    assert draft.proof.optimal
    unheard = {one["id"] for one in check_plan(after)["panes"] if one["exterior"] and one["status"] != "covered"}
    assert unheard == {one.pane for one in draft.unreachable if one.instead is None}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_keeps_all_that_its_designer_placed(path: Path) -> None:
    plan = plan_from(json.loads(path.read_text()))
    draft = draft_plan(plan)
    for before, after in zip(plan.levels, draft.plan.levels, strict=True):
        assert after.devices[: len(before.devices)] == before.devices
        assert after.model_copy(update={"devices": ()}) == before.model_copy(update={"devices": ()})
    assert draft.plan.practice == plan.practice


@pytest.mark.parametrize("seed", range(12))
def test_a_random_house_gets_no_new_must(seed: int) -> None:
    value = houses.random_house(seed)
    before = set(musts(plan_from(value)))
    draft = draft_plan(plan_from(value))
    left = {one.pane for one in draft.unreachable if one.instead is None}
    after = check_plan(plan_from(plan_value(draft.plan)))
    new = [
        found
        for found in after["findings"]
        if found["severity"] == "must" and found["message"] not in before and not left & set(found["things"])
    ]
    assert not new


def test_a_plan_that_is_done_gets_nothing_more() -> None:
    done = drafted(house()).plan
    again = draft_plan(done)
    assert not again.proposals
    assert not again.risers
    assert again.plan == done


def test_detectors_that_stand_are_counted_and_not_doubled() -> None:
    value = house()
    value["levels"][0]["devices"] = [{"id": "gb-1", "kind": "glass_break", "at": [10, 10]}]
    draft = drafted(value)
    assert not proposed(draft, "glass_break")
    assert (draft.proof.kept, draft.proof.panes, draft.proof.optimal) == (1, 0, True)


def test_ids_are_new_and_simple() -> None:
    value = house()
    value["levels"][0]["rooms"][1]["id"] = "gb-1"
    (one,) = proposed(drafted(value), "glass_break")
    assert one.id == "gb-2"


def test_a_proposal_can_be_taken_alone() -> None:
    plan = plan_from(house())
    draft = draft_plan(plan)
    for proposal in draft.proposals:
        taken = with_proposals(plan, [proposal])
        assert [device.id for device in taken.levels[0].devices] == [proposal.device.id]
        plan_from(plan_value(taken))


def test_no_smoke_alarm_is_ever_proposed() -> None:
    for seed in range(6):
        assert not proposed(drafted(houses.random_house(seed)), "smoke", "flood", "other")


def test_glass_between_rooms_is_nobody_s_business() -> None:
    value = house()
    value["levels"][0]["openings"] = [
        {"id": "between", "wall": "mid", "kind": "window", "offset": 2, "width": 4, "sill": 2, "head": 6}
    ]
    assert not proposed(drafted(value), "glass_break", "window_contact")


def test_a_kitchen_is_a_detector_s_last_resort_and_is_noted() -> None:
    value = house()
    # The kitchen opens to the great room, from which its window is heard as well.
    value["levels"][0]["openings"][1] |= {"offset": 13.5, "width": 3}
    value["levels"][0]["openings"][2] |= {"kind": "cased", "offset": 3, "width": 12.5, "head": 9}
    value["levels"][0]["rooms"][1] |= {"name": "Kitchen", "use": "kitchen"}
    (free,) = proposed(drafted(value), "glass_break")
    assert free.at[0] < 20
    assert free.note is None
    shut = copy.deepcopy(value)
    shut["levels"][0]["openings"][2] |= {"kind": "door", "width": 3}
    shut["levels"][0]["openings"][1] |= {"offset": 3}
    (inside,) = proposed(drafted(shut), "glass_break")
    assert inside.at[0] > 20
    assert inside.note is not None
    assert "Kitchen" in inside.note


def test_a_register_is_kept_clear_of_where_it_costs_nothing() -> None:
    value = house()
    (alone,) = proposed(drafted(value), "glass_break")
    value["levels"][0]["fixtures"] = [{"id": "air", "kind": "supply_register", "at": list(alone.at)}]
    (clear,) = proposed(drafted(value), "glass_break")
    assert (clear.at[0] - alone.at[0]) ** 2 + (clear.at[1] - alone.at[1]) ** 2 >= 9


def test_less_than_whole_panes_may_be_asked_for() -> None:
    value = house()
    value["levels"][0]["fixtures"] = [
        {"id": "post", "kind": "obstruction", "polygon": [[7.8, 15], [8.4, 15], [8.4, 15.8], [7.8, 15.8]]}
    ]
    whole = drafted(value)
    assert whole.proof.exact
    value["practice"] = {"glass.required_fraction": 0.6}
    part = drafted(value)
    assert not part.unreachable
    assert not part.proof.exact
    assert "not proven" in part.proof.words


def test_progress_runs_from_nought_to_one() -> None:
    told: list[float] = []
    draft_plan(plan_from(houses.sized_house("S")), progress=lambda share, _words: told.append(share))
    assert told[0] == 0.0
    assert told[-1] == 1.0
    assert told == sorted(told)


def test_a_stopped_pass_gives_what_it_has_and_names_the_rest() -> None:
    plan = plan_from(houses.sized_house("S"))
    asked = 0

    def after_five() -> bool:
        nonlocal asked
        asked += 1
        return asked > 5

    draft = draft_plan(plan, stop=after_five)
    assert draft.untried
    assert not draft.covers_all
    plan_from(plan_value(draft.plan))
    covered = {pane for proposal in draft.proposals for pane in proposal.covers}
    assert not covered & set(draft.untried)


def test_the_answer_is_plain_json() -> None:
    answer = json.loads(json.dumps(draft_answer(drafted(house()))))
    assert set(answer) == {"proposals", "risers", "proof", "unreachable", "untried"}
    assert answer["proof"]["optimal"] is True


@pytest.mark.parametrize(
    "level",
    [
        {"walls": [], "openings": [], "rooms": [], "devices": []},
        {"rooms": []},
        {"openings": []},
        {"ceiling": 1.0, "openings": []},
        {"ceiling": 100.0},
    ],
    ids=["nothing", "no rooms", "no openings", "a crawl space", "a tower"],
)
def test_odd_levels_get_an_answer(level: dict[str, Any]) -> None:
    draft = drafted(house(**level))
    plan_from(plan_value(draft.plan))
    assert draft.proof.words
