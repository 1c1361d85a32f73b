"""How long the first pass takes on the houses of ``tests.houses``, every window taken as exterior. By hand:

``python -m pytest -o addopts="" tests/benchmarks/test_first_pass.py``

Asked: S proven optimal in 2 s, M in 10 s, L with a proven gap in 60 s, under 2 GiB of memory.
"""

from __future__ import annotations

import resource

import pytest

from app.plan.model import Plan
from app.plan.reading import plan_from
from app.proposal.draft import Draft, draft_plan
from tests import houses

MOST_SECONDS = {"S": 2.0, "M": 10.0, "L": 60.0}


def bare(size: str) -> Plan:
    value = houses.sized_house(size)
    for level in value["levels"]:
        level["devices"] = []
        for opening in level["openings"]:
            if opening["kind"] == "window":
                opening["exterior"] = True
    return plan_from(value)


@pytest.mark.parametrize("size", list(MOST_SECONDS))
def test_first_pass(benchmark, size: str) -> None:
    plan = bare(size)
    draft: Draft = benchmark.pedantic(draft_plan, args=(plan,), rounds=1 if size == "L" else 3, warmup_rounds=0)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    benchmark.extra_info |= {"panes": draft.proof.panes, "gap": draft.proof.gap, "peak_MiB": round(peak)}
    print(f"\n{size}: {draft.proof.words} Peak memory {peak:.0f} MiB.")
    assert draft.proof.exact
    assert draft.proof.optimal or size == "L"
    assert not draft.untried
    assert benchmark.stats.stats.min < MOST_SECONDS[size]
    assert peak < 2048
