"""Time of files for other programs of a two-storey house with nothing worked out yet: each under 3 s; run by hand."""

from pathlib import Path

import pytest

import app.documents.dxf.drawing  # noqa: F401  loaded once by a server, not for every file
from app.documents.files import FORMS, file_of
from app.documents.plan_answers import Edition, PlanAnswers
from app.plan.reading import read_plan_file

HOUSE = Path(__file__).parents[2] / "sample_plans" / "cobble-court.json"
CHOICES = {"csv": {"table": "pulls"}, "svg": {"level": "L1"}}
MOST = 3.0  # s


@pytest.mark.parametrize("form", list(FORMS))
def test_file_of_a_two_storey_house(benchmark, form):
    plan = read_plan_file(HOUSE)
    made = benchmark.pedantic(
        lambda: file_of(PlanAnswers.of(plan), Edition("1", "2026-01-01"), form, **CHOICES.get(form, {})), rounds=3
    )
    assert made
    if benchmark.enabled:
        assert benchmark.stats.stats.min < MOST
