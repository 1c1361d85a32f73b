"""The PDF of the printed set, read back: size of pages and of walls, text as text, embedded fonts, bookmarks."""

from __future__ import annotations

import ctypes
import json
import math
import re
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from app.command_line.entry import run
from app.documents.printed_set import printed_set, set_as_pdf
from app.drawing.maker import as_text
from app.drawing.sheet import sheet_context
from app.drawing.sheets.legend import covered_sign, missed_sign
from app.drawing.sheets.paper.habits import HABITS
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.sets import SETS
from app.plan.reading import plan_from, read_plan_file
from app.review.check import check_plan
from app.wiring.answer import pulls_answer

POINT = 72 / 25.4  # points a mm
SAMPLES = Path(__file__).parents[2] / "sample_plans"
POCHE_GREY = (0x59, 0x59, 0x59)
HOSTILE = 'Box "x" \\ #let y = <script>alert(1)</script> *bold*'


def box(width: float, name: str = "Box") -> dict[str, Any]:
    corners = [(0.0, 0.0), (width, 0.0), (width, 8.0), (0.0, 8.0)]
    walls = [{"id": f"w{k}", "a": list(corners[k]), "b": list(corners[(k + 1) % 4])} for k in range(4)]
    window = {"id": "win", "wall": "w0", "kind": "window", "offset": 2, "width": 4, "sill": 3}
    level = {"id": "g", "name": "Ground", "walls": walls, "openings": [window]}
    return {"format": "studbay-plan/1", "name": name, "levels": [level]}


def pdf_of(plan: dict[str, Any], **choices: str) -> pypdfium2.PdfDocument:
    read = plan_from(plan)
    asked = {"paper": "letter", "scale": "1/4", "revision": "4", "saved_at": "2026-03-01T10:00"} | choices
    return pypdfium2.PdfDocument(printed_set(read, check_plan(read), **asked))


def text_of(document: pypdfium2.PdfDocument) -> str:
    return "\n".join(page.get_textpage().get_text_range() for page in document)


def texts_of(page: pypdfium2.PdfPage) -> list[Any]:
    return [thing for thing in page.get_objects(max_depth=9) if thing.type == pdfium.FPDF_PAGEOBJ_TEXT]


def font_size(text: Any) -> float:
    """Size in points of a text object as it is printed."""
    size = ctypes.c_float()
    pdfium.FPDFTextObj_GetFontSize(text.raw, size)
    matrix = text.get_matrix()
    return float(size.value * math.hypot(matrix.c, matrix.d))


def wall_length(page: pypdfium2.PdfPage) -> float:
    """Length in points of the one wall on a page, its outline's stroke left out: paths filled with the walls' grey."""
    lengths = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=9):
        red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
        pdfium.FPDFPageObj_GetFillColor(item.raw, red, green, blue, alpha)
        mode, stroke = ctypes.c_int(), ctypes.c_int()
        pdfium.FPDFPath_GetDrawMode(item.raw, mode, stroke)
        if (red.value, green.value, blue.value) != POCHE_GREY or mode.value == 0:
            continue
        xs = []
        for index in range(pdfium.FPDFPath_CountSegments(item.raw)):
            x, y = ctypes.c_float(), ctypes.c_float()
            pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(item.raw, index), x, y)
            xs.append(item.get_matrix().on_point(x.value, y.value)[0])
        lengths.append(max(xs) - min(xs))
    return max(lengths)


def ten_feet() -> dict[str, Any]:
    """A plan of one wall, ten feet long, flat at both ends."""
    walls = [{"id": "ten", "a": [0, 0], "b": [10, 0], "thickness": 0.5}]
    return {"format": "studbay-plan/1", "name": "Ten feet", "levels": [{"id": "g", "name": "Ground", "walls": walls}]}


def plan_page(document: pypdfium2.PdfDocument) -> pypdfium2.PdfPage:
    (index,) = [mark.get_dest().get_index() for mark in document.get_toc() if "Security plan" in mark.get_title()]
    return document[index]


@pytest.mark.parametrize(
    ("scale", "inches"), [("1/4", 2.5), ("1/8", 1.25), ("3/16", 1.875), ("1:50", 120 / 50), ("1:100", 120 / 100)]
)
def test_ten_feet_measure_what_the_scale_says(scale: str, inches: float) -> None:
    assert wall_length(plan_page(pdf_of(ten_feet(), scale=scale))) / 72 == pytest.approx(inches, abs=0.01)


@pytest.mark.parametrize("habit", HABITS)
@pytest.mark.parametrize("paper", PAPERS)
def test_every_paper_is_true_and_legible(paper: str, habit: str) -> None:
    document = pdf_of(ten_feet(), paper=paper, habit=habit)
    assert wall_length(plan_page(document)) / 72 == pytest.approx(2.5, abs=0.01)
    for page in document:
        assert page.get_size() == pytest.approx((PAPERS[paper].width * POINT, PAPERS[paper].height * POINT), abs=0.1)
        texts = texts_of(page)
        assert texts
        assert min(map(font_size, texts)) >= 6
        assert all(pdfium.FPDFFont_GetIsEmbedded(pdfium.FPDFTextObj_GetFont(text.raw)) == 1 for text in texts)
    titles = [mark.get_title() for mark in document.get_toc()]
    numbers = [HABITS[habit].number(number) for number in (1, 101)]
    assert [title.split()[0] for title in titles[:2]] == numbers
    assert len(titles) == len(document)


@pytest.mark.parametrize("readers", SETS)
def test_every_sheet_is_counted_confidential_and_says_its_scale(readers: str) -> None:
    plan = read_plan_file(SAMPLES / "cobble-court.json")
    pdf = printed_set(plan, check_plan(plan), paper="letter", readers=readers, revision=1, saved_at="2026-03-01")
    document = pypdfium2.PdfDocument(pdf)
    for place, page in enumerate(document, start=1):
        # Where words are far apart a reader of the file finds no spaces between them.
        text = "".join(page.get_textpage().get_text_range().split())
        assert f"sheet{place}of{len(document)}" in text
        assert "Confidential:showswheredetectorsare" in text or "Generalguide:showsnohouse" in text
        assert "1'-0\"" in text or "Nottoscale" in text
        assert min(map(font_size, texts_of(page))) >= 6


def test_letters_keep_their_shape() -> None:
    # Lines are as wide as they were measured, so that none is stretched or squeezed.
    for page in pdf_of(box(10, "Tavernier Avenue, AVATAR")):
        for text in texts_of(page):
            matrix = text.get_matrix()
            across, up = math.hypot(matrix.a, matrix.b), math.hypot(matrix.c, matrix.d)
            assert across / up == pytest.approx(1.0, abs=0.005)


def test_text_is_text() -> None:
    assert "LEGEND" in text_of(pdf_of(box(10)))


def test_a_name_with_markup_comes_out_as_text() -> None:
    document = pdf_of(box(10, HOSTILE))
    assert document.get_metadata_dict()["Title"] == f"{HOSTILE}: security set"
    assert "<script>" in text_of(document).replace("\r\n", "").replace("\n", "")


def test_the_command_writes_the_file(tmp_path: Path) -> None:
    plan = tmp_path / "plan.json"
    plan.write_text(json.dumps(box(10)), encoding="utf-8")
    out = tmp_path / "set.pdf"
    assert run(["sheets", str(plan), "-o", str(out), "--paper", "a3"]) == 0
    assert len(pypdfium2.PdfDocument(out)) >= 2


def test_a_wrong_scale_is_refused_and_nothing_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "plan.json"
    plan.write_text(json.dumps(box(10)), encoding="utf-8")
    out = tmp_path / "set.pdf"
    assert run(["sheets", str(plan), "-o", str(out), "--scale", "1/7"]) == 2
    assert "none of" in capsys.readouterr().err
    assert not out.exists()
    assert list(tmp_path.iterdir()) == [plan]


def test_the_crew_s_set_has_every_pull_box_and_label() -> None:
    plan = read_plan_file(SAMPLES / "cobble-court.json")
    pulls = pulls_answer(plan)
    pdf = printed_set(
        plan, check_plan(plan), paper="tabloid", scale="auto", revision=1, saved_at="2026-03-01", readers="crew"
    )
    words = text_of(pypdfium2.PdfDocument(pdf)).split()
    for pull in pulls["pulls"]:
        # In the schedule, the rough-in, the zones or power, and on both labels.
        assert words.count(pull["label"]) >= 5
    text = " ".join(words)
    assert all(box["box"] in text for box in pulls["boxes"])
    assert "Cable plan, Second floor" in text
    assert "CAUTIONS WHEN DRILLING" in text


def test_an_unknown_set_is_refused() -> None:
    plan = plan_from(box(10))
    with pytest.raises(ValueError, match="none of homeowner, crew, documents, guide"):
        printed_set(plan, check_plan(plan), paper="a4", scale="auto", revision=1, saved_at="", readers="thieves")


LETTERS = {
    "Greek": "Σαλόνι",
    "Cyrillic": "Кухня Ёлка",
    "Hebrew": "מטבח",
    "Arabic": "غرفة",
    "Devanagari": "बैठक",
    "Thai": "ห้องนอน",
    "Vietnamese": "Phòng ngủ",
}


@pytest.mark.parametrize("script", LETTERS)
def test_names_of_many_scripts_come_out_as_text(script: str) -> None:
    plan = plan_from(box(10, f"{LETTERS[script]} 12"))
    context = sheet_context(plan, check_plan(plan), revision=1, saved_at="2026-03-01")
    assert context["lacking"] == []
    text = text_of(pypdfium2.PdfDocument(set_as_pdf(context)))
    # Marks may follow in another order: what a reader copies has the same letters.
    assert set(LETTERS[script]) <= set(text)


def test_letters_from_right_to_left_are_drawn_in_their_order() -> None:
    # The first letter of a Hebrew name stands to the right of its last one.
    (page, *_) = pdf_of(box(10, "אבגד"))
    text = page.get_textpage()
    words = text.get_text_range()
    at = {letter: text.get_charbox(words.index(letter))[0] for letter in "אד"}
    assert at["א"] > at["ד"]


def test_letters_that_no_typeface_has_are_marked_and_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan, out = tmp_path / "plan.json", tmp_path / "set.pdf"
    plan.write_text(json.dumps(box(10, "House 東京")), encoding="utf-8")
    assert run(["sheets", str(plan), "-o", str(out)]) == 0
    told = capsys.readouterr().err
    assert "no typeface here has 東 京 of 'House 東京'" in told
    text = text_of(pypdfium2.PdfDocument(out))
    assert "House ◊◊" in text
    assert "◊: letters that no typeface here has" in text


def test_progress_tells_every_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan, out = tmp_path / "plan.json", tmp_path / "set.pdf"
    plan.write_text(json.dumps(box(10)), encoding="utf-8")
    assert run(["sheets", str(plan), "-o", str(out), "--progress", "--habit", "iso"]) == 0
    told = capsys.readouterr().err.splitlines()
    count = len(pypdfium2.PdfDocument(out))
    assert [line.split(":")[0] for line in told[:-1]] == [f"sheet {n + 1} of {count}" for n in range(count)]


def test_a_set_that_is_stopped_leaves_no_file(tmp_path: Path) -> None:
    plan, out = tmp_path / "plan.json", tmp_path / "set.pdf"
    plan.write_bytes((SAMPLES / "amber-ridge.json").read_bytes())
    command = [sys.executable, "-m", "app", "sheets", str(plan), "-o", str(out), "--progress", "--scale", "1/4"]
    process = subprocess.Popen(
        command,
        stderr=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # tests run behind others may inherit none
    )
    assert process.stderr is not None
    assert process.stderr.readline().startswith("sheet 1 of ")
    process.send_signal(signal.SIGINT)
    told = process.stderr.read()
    assert process.wait(30) == 130
    assert told.endswith("stopped\n")
    assert list(tmp_path.iterdir()) == [plan]


def test_glass_is_told_apart_without_colour() -> None:
    dull = re.compile(r'(fill|stroke)="#[0-9A-Fa-f]+"|class="[^"]*"')
    signs = (covered_sign((10.0, 10.0)), missed_sign("partial", (10.0, 10.0)), missed_sign("uncovered", (10.0, 10.0)))
    assert len({dull.sub("", as_text(sign)) for sign in signs}) == 3
