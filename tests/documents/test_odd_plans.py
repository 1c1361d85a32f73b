"""Odd but allowed plans give every file: what a house never has may still be drawn, and is handed over all the same."""

from __future__ import annotations

import io
from typing import Any
from xml.etree import ElementTree

import ezdxf
from hypothesis import given, settings

from app.documents.files import FORMS, file_of
from app.documents.plan_answers import PlanAnswers
from app.plan.faults import PlanRefused
from app.plan.reading import plan_from
from tests.documents.handed_over import EDITION
from tests.review.test_odd_plans import odd_plans


@given(odd_plans())
@settings(max_examples=12, deadline=None)
def test_every_form_is_made_of_every_plan_that_can_be_read(value: dict[str, Any]) -> None:
    try:
        answers = PlanAnswers.of(plan_from(value))
    except PlanRefused:
        return
    level = answers.plan.levels[0].id
    choices: dict[str, dict[str, Any]] = {"csv": {"table": "devices"}, "svg": {"level": level, "shows": "cable"}}
    made = {form: file_of(answers, EDITION, form, **choices.get(form, {})) for form in FORMS}
    assert not ezdxf.read(io.StringIO(made["dxf"].decode(), newline="")).audit().errors
    ElementTree.fromstring(made["svg"])
    assert all(made.values())
