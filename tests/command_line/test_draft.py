"""``studbay draft``: what it prints, what it writes, how it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from app.plan.reading import read_plan
from tests.command_line.running import studbay
from tests.proposal.rooms import Value, house


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    return written(tmp_path / "plan.json", house())


def written(path: Path, value: Value) -> Path:
    path.write_text(json.dumps(value))
    return path


def test_it_writes_a_plan_that_checks_without_a_must(plan: Path, tmp_path: Path) -> None:
    out = tmp_path / "out.json"
    run = studbay("draft", str(plan), "-o", str(out))
    assert (run.returncode, run.stderr) == (0, "")
    assert "gb-1" in run.stdout
    assert "proven lower bound 1, so no fewer can do" in run.stdout
    assert read_plan(out.read_bytes()).levels[0].devices
    assert studbay("check", str(out)).returncode == 0
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_json_is_one_object_that_says_what_the_file_holds(plan: Path, tmp_path: Path) -> None:
    out = tmp_path / "out.json"
    answer = json.loads(studbay("draft", str(plan), "-o", str(out), "--json").stdout)
    devices = json.loads(out.read_text())["levels"][0]["devices"]
    assert [one["device"] for one in answer["proposals"]] == devices
    assert all(one["reason"] for one in answer["proposals"])


def test_the_plan_may_be_its_own_out(plan: Path) -> None:
    assert studbay("draft", str(plan), "-o", str(plan)).returncode == 0
    assert read_plan(plan.read_bytes()).levels[0].devices


def test_a_pane_that_stays_uncovered_is_told_with_code_1(tmp_path: Path) -> None:
    value = house()
    value["levels"][0]["openings"][1] |= {"offset": 13, "width": 18.9, "sill": 0, "head": 8.5}
    value["practice"] = {"glass.range": 12}
    run = studbay("draft", str(written(tmp_path / "p.json", value)), "-o", str(tmp_path / "o.json"))
    assert run.returncode == 1
    assert "too large for the range" in " ".join(run.stdout.split())


@pytest.mark.parametrize(
    ("name", "out", "says"),
    [
        ("absent.json", "o.json", "cannot be read"),
        ("bad.json", "o.json", "levels[0].walls[0].b"),
        ("plan.json", "no/such/folder/o.json", "no such folder"),
        ("plan.json", ".", "is a folder"),
    ],
)
def test_what_cannot_be_done_is_one_line_and_code_2(plan: Path, tmp_path: Path, name: str, out: str, says: str) -> None:
    value = house()
    value["levels"][0]["walls"][0]["b"] = [1e9, 0]
    written(tmp_path / "bad.json", value)
    run = studbay("draft", str(tmp_path / name), "-o", str(tmp_path / out))
    assert run.returncode == 2
    assert says in run.stderr
    assert len(run.stderr.strip().splitlines()) == 1
    assert not (tmp_path / "o.json").exists()


def test_a_search_of_no_time_is_refused(plan: Path, tmp_path: Path) -> None:
    run = studbay("draft", str(plan), "-o", str(tmp_path / "o.json"), "--seconds", "nan")
    assert run.returncode == 2
    assert "seconds" in run.stderr
