"""The command compare: what it prints and writes, and what it refuses in one line."""

from __future__ import annotations

import io
import json
from pathlib import Path
from xml.etree import ElementTree

import pypdfium2
import pytest

from app.command_line.entry import run
from tests.review.comparison.edits import house, thing


@pytest.fixture
def files(tmp_path: Path) -> tuple[str, str]:
    new = house()
    thing(new, "L1-g0").update(at=[15, 2])
    paths = []
    for name, value in (("old.json", house()), ("new.json", new)):
        path = tmp_path / name
        path.write_text(json.dumps(value))
        paths.append(str(path))
    return paths[0], paths[1]


def printed(capsysbinary: pytest.CaptureFixture[bytes]) -> str:
    return capsysbinary.readouterr().out.decode()


def test_for_people_it_tells_changes_by_level_and_what_they_do(
    files: tuple[str, str], capsysbinary: pytest.CaptureFixture[bytes]
) -> None:
    assert run(["compare", *files]) == 0
    words = printed(capsysbinary)
    assert words.startswith("21 Teasel Way: 1 moved\n\nGround floor\n")
    assert "GB L1-g0: moved 5'-0\" (3'-0\" east, 4'-0\" south)" in words
    assert "Panes covered: " in words
    assert "Cable 22/4:" in words


def test_json_is_the_whole_comparison(files: tuple[str, str], capsysbinary: pytest.CaptureFixture[bytes]) -> None:
    assert run(["compare", *files, "--json"]) == 0
    answer = json.loads(printed(capsysbinary))
    assert answer["summary"] == {"changes": 1, "added": 0, "moved": 1, "changed": 0, "renamed": 0, "removed": 0}
    assert {"panes", "coverage", "cable", "pulls", "boxes", "zones", "battery", "findings"} <= set(answer)


def test_a_plan_and_itself_differ_in_nothing(
    files: tuple[str, str], capsysbinary: pytest.CaptureFixture[bytes]
) -> None:
    assert run(["compare", files[0], files[0]]) == 0
    assert printed(capsysbinary).startswith("21 Teasel Way: no change\n")


def test_change_sheets_are_written_by_the_name_s_ending(files: tuple[str, str], tmp_path: Path) -> None:
    pdf, svg = tmp_path / "changes.pdf", tmp_path / "changes.svg"
    assert run(["compare", *files, "-o", str(pdf), "--mark", "C", "--paper", "a3"]) == 0
    assert run(["compare", *files, "-o", str(svg)]) == 0
    document = pypdfium2.PdfDocument(io.BytesIO(pdf.read_bytes()))
    assert document[0].get_size() == pytest.approx((420 / 25.4 * 72, 297 / 25.4 * 72), abs=0.5)
    assert "File new.json, compared with file old.json." in document[1].get_textpage().get_text_bounded()
    assert ElementTree.fromstring(svg.read_text()).tag == "{http://www.w3.org/2000/svg}svg"


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["-o", "out.txt"], "end its name in .pdf or .svg"),
        (["-o", "no/such/folder/out.pdf"], "there is no such folder"),
        (["-o", "x.pdf", "--scale", "1:7"], "is none of"),
    ],
)
def test_what_cannot_be_written_is_told_in_a_line_and_leaves_no_file(
    files: tuple[str, str],
    tmp_path: Path,
    arguments: list[str],
    told: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["compare", *files, *arguments]) == 2
    said = capsys.readouterr().err
    assert told in said
    assert said.count("\n") == 1
    assert {path.name for path in tmp_path.iterdir()} == {"old.json", "new.json"}


def test_a_plan_that_is_none_is_refused_with_its_place(
    files: tuple[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "bad.json").write_text('{"format": "studbay-plan/1"}')
    assert run(["compare", files[0], str(tmp_path / "bad.json")]) == 2
    assert "levels: is missing" in capsys.readouterr().err
