"""Labels of proposed devices: the trade's abbreviation and the next number that nobody bears."""

from __future__ import annotations

from app.plan.devices import DEVICE_KIND
from app.plan.reading import plan_from
from app.proposal.draft import draft_plan
from tests.web.plan_values import den


def test_labels_go_on_from_what_the_designer_has_given() -> None:
    value = den()
    value["levels"][0]["devices"] = [{"id": "first", "kind": "can", "at": [1, 1], "label": "WC-1"}]
    proposed = [one.device for one in draft_plan(plan_from(value)).proposals]
    contacts = [device.label for device in proposed if device.kind == "window_contact"]
    assert contacts == ["WC-2"]


def test_every_proposed_device_bears_its_kind_s_abbreviation_and_no_two_the_same() -> None:
    draft = draft_plan(plan_from(den() | {"name": "bare"}))
    labels = [one.device.label or "" for one in draft.proposals]
    assert labels
    assert len(set(labels)) == len(labels)
    for one in draft.proposals:
        assert (one.device.label or "").startswith(f"{DEVICE_KIND[one.device.kind].abbreviation}-")
    assert [device.label for level in draft.plan.levels for device in level.devices[-len(labels) :]] == labels
