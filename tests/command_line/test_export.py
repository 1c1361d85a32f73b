"""The command ``export``: the name says the kind, a page to share is asked about, and a refusal leaves no file."""

from __future__ import annotations

import io
import json
import os
import pty
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from app.command_line.entry import run
from tests.command_line.running import TOP
from tests.documents.handed_over import value

BEGINS = {"xlsx": b"PK", "zip": b"PK", "dxf": b"  0\nSECTION", "html": b"<!doctype html>"}


@pytest.fixture
def plan(tmp_path: Path) -> str:
    (tmp_path / "plan.json").write_text(json.dumps(value()), encoding="utf-8")
    return str(tmp_path / "plan.json")


class Said:
    """What a command, run in this process, said on stderr, and its exit code."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys

    def __call__(self, *arguments: str) -> tuple[int, str]:
        code = run(["export", *arguments])
        return code, self._capsys.readouterr().err


@pytest.fixture
def export(capsys: pytest.CaptureFixture[str]) -> Said:
    return Said(capsys)


def written(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()} - {"plan.json"}


@pytest.mark.parametrize("form", list(BEGINS))
def test_writes_what_the_name_says(export: Said, plan: str, tmp_path: Path, form: str) -> None:
    code, said = export(plan, "-o", str(tmp_path / f"OUT.{form}"), *(["--confirm"] if form == "html" else []))
    assert (code, said) == (0, "")
    assert (tmp_path / f"OUT.{form}").read_bytes().startswith(BEGINS[form])
    assert written(tmp_path) == {f"OUT.{form}"}


def test_an_svg_is_written_for_each_level_or_for_one(export: Said, plan: str, tmp_path: Path) -> None:
    assert export(plan, "-o", str(tmp_path / "a.svg")) == (0, "")
    assert written(tmp_path) == {"a-L1.svg", "a-L2.svg"}
    code, _said = export(plan, "-o", str(tmp_path / "b.svg"), "--level", "L2", "--show", "cable", "--scale", "1/8")
    assert code == 0
    assert '1/8" = 1' in (tmp_path / "b.svg").read_text(encoding="utf-8")


def test_one_table_is_the_one_of_the_zip(export: Said, plan: str, tmp_path: Path) -> None:
    assert export(plan, "-o", str(tmp_path / "t.csv"), "--table", "devices") == (0, "")
    assert export(plan, "-o", str(tmp_path / "t.zip")) == (0, "")
    whole = zipfile.ZipFile(io.BytesIO((tmp_path / "t.zip").read_bytes()))
    assert whole.read("devices.csv") == (tmp_path / "t.csv").read_bytes()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["-o", "a.pdf"], "says no kind of file"),
        (["-o", "a"], "says no kind of file"),
        (["-o", "a.csv"], "--table is missing"),
        (["-o", "a.dxf", "--table", "devices"], "--table goes with .csv"),
        (["-o", "a.xlsx", "--confirm"], "--confirm goes with .html"),
        (["-o", "a.dxf", "--level", "L9"], "no such level; it has L1, L2"),
        (["-o", "nowhere/a.dxf"], "no such folder"),
        (["-o", "a.html"], "add --confirm"),
    ],
)
def test_what_cannot_be_done_is_told_and_leaves_no_file(
    export: Said, plan: str, tmp_path: Path, arguments: list[str], words: str
) -> None:
    out = str(tmp_path / arguments[1])
    code, said = export(plan, "-o", out, *arguments[2:])
    assert code == 2
    assert words in said
    assert "Traceback" not in said
    assert written(tmp_path) == set()


def test_the_refusal_to_share_says_why_and_what_it_would_show(export: Said, plan: str, tmp_path: Path) -> None:
    _code, said = export(plan, "-o", str(tmp_path / "a.html"))
    assert "shows where every detector is" in said
    assert "4 panes of glass" in said


def test_names_left_out_are_not_in_the_page(export: Said, plan: str, tmp_path: Path) -> None:
    code, _said = export(plan, "-o", str(tmp_path / "a.html"), "--confirm", "--leave-out", "names", "notes")
    assert code == 0
    assert "Lark Lane" not in (tmp_path / "a.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(("typed", "code", "made"), [(b"yes\n", 0, {"a.html"}), (b"no\n", 2, set())])
def test_on_a_terminal_it_asks(plan: str, tmp_path: Path, typed: bytes, code: int, made: set[str]) -> None:
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "app", "export", plan, "-o", str(tmp_path / "a.html")]
    asked = subprocess.Popen(command, cwd=TOP, stdin=theirs, stderr=theirs, stdout=subprocess.DEVNULL)
    os.write(ours, typed)
    assert asked.wait(timeout=60) == code
    os.close(theirs)
    os.close(ours)
    assert written(tmp_path) == made


def test_a_file_that_stands_is_kept_whole_when_the_plan_is_refused(export: Said, tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text('{"format": "studbay-plan/1"}', encoding="utf-8")
    (tmp_path / "a.xlsx").write_bytes(b"stands")
    code, _said = export(str(tmp_path / "plan.json"), "-o", str(tmp_path / "a.xlsx"))
    assert code == 2
    assert (tmp_path / "a.xlsx").read_bytes() == b"stands"
    assert written(tmp_path) == {"a.xlsx"}
