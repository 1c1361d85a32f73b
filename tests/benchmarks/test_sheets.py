"""Time of a printed set: a house of two storeys < 3 s, a hundred sheets < 30 s; run by hand.

They stand beside a hundred blank pages set in the same run, so that a slow machine shows.
"""

import subprocess
import sys
from pathlib import Path

import pytest
import typst

from app.documents.printed_set import set_as_pdf
from app.drawing.sheet import sheet_context
from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.benchmarks.towers import SAMPLE, tower_plan

TOP = Path(__file__).parents[2]
HUNDRED = {"homeowner": 17, "crew": 7}  # levels: six and four parts by turns at 1/4" on Letter, and the notes


def blank_pages(count):
    page = "#page(width: 11in, height: 8.5in)[#text(size: 12pt)[blank]]\n"
    return typst.compile({"main": (page * count).encode()})


@pytest.mark.parametrize("readers", ["homeowner", "crew"])
def test_set_of_two_storeys_by_the_command(benchmark, tmp_path, readers):
    """The whole command, the start of the program and its check among it."""
    out = tmp_path / "set.pdf"
    command = [sys.executable, "-m", "app", "sheets", str(SAMPLE), "-o", str(out), "--set", readers]
    benchmark.pedantic(lambda: subprocess.run(command, cwd=TOP, check=True, capture_output=True), rounds=3)
    assert out.read_bytes().startswith(b"%PDF")
    if benchmark.enabled:
        assert benchmark.stats.stats.min < 3.0


@pytest.mark.parametrize("readers", ["homeowner", "crew"])
def test_hundred_sheets(benchmark, readers):
    plan = plan_from(tower_plan(HUNDRED[readers]))
    check = check_plan(plan)
    told = []

    def printed():
        context = sheet_context(
            plan,
            check,
            paper="letter",
            scale="1/4",
            revision=1,
            saved_at="2026-03-01",
            readers=readers,
            told=lambda done, count, words: told.append(count),
        )
        return set_as_pdf(context)

    pdf = benchmark.pedantic(printed, rounds=1)
    assert pdf.startswith(b"%PDF")
    assert max(told) >= 100
    benchmark.extra_info["sheets"] = max(told)
    if benchmark.enabled:
        assert benchmark.stats.stats.min < 30.0


def test_a_hundred_blank_pages(benchmark):
    """The reference."""
    assert benchmark.pedantic(blank_pages, (100,), rounds=3).startswith(b"%PDF")
