"""Every rule finds its fault and stays silent where the fault is nearly there, as ``check_plan`` tells it."""

import pytest

from app.plan.reading import plan_from
from app.review.check import check_plan
from app.review.rulebook import all_rules
from tests.review.pairs import PAIRS
from tests.review.sound_house import SoundHouse


def findings(house, rule=None):
    found = check_plan(plan_from(house.value))["findings"]
    return found if rule is None else [finding for finding in found if finding["rule"] == rule]


def test_a_well_planned_house_has_no_finding_at_all():
    assert findings(SoundHouse()) == []


def test_every_rule_has_a_pair_of_houses_and_every_pair_a_rule():
    assert sorted(PAIRS) == sorted(rule.name for rule in all_rules())


@pytest.mark.parametrize("name", PAIRS)
def test_fault_is_found(name):
    found = findings(PAIRS[name][0], name)
    assert found
    for finding in found:
        assert finding["message"][0].isupper() or finding["message"][0].isdigit()
        assert finding["message"].endswith(".")


@pytest.mark.parametrize("name", PAIRS)
def test_near_fault_is_not_found(name):
    assert findings(PAIRS[name][1], name) == []


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.name)
def test_rule_says_what_it_asks_what_mends_it_and_who_says_so(rule):
    for words in (rule.words, rule.mend):
        assert len(words.split()) >= 4
        assert words[0].isupper()
        assert words.endswith(".")
    assert len(rule.source) > 8
    assert rule.judge.__doc__


@pytest.mark.parametrize("name", PAIRS)
def test_nothing_is_said_twice_of_the_same_things(name):
    said = [(finding["rule"], tuple(finding["things"]), finding["message"]) for finding in findings(PAIRS[name][0])]
    assert len(said) == len(set(said))
