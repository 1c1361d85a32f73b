"""The PDF of the printed set, read back: size of pages and of walls, text as text, embedded fonts, bookmarks."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from app.command_line.entry import run
from app.documents.printed_set import printed_set
from app.drawing.sheets.papers import PAPERS
from app.plan.reading import plan_from, read_plan_file
from app.review.check import check_plan
from app.wiring.answer import pulls_answer

POINT = 72 / 25.4  # points a mm
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


def wall_width(document: pypdfium2.PdfDocument) -> float:
    """Width in points of the widest drawn thing that is not a frame: the outer dimension's line."""
    paths = [thing for thing in document[1].get_objects(max_depth=8) if thing.type == pdfium.FPDF_PAGEOBJ_PATH]
    widths = [right - left for left, bottom, right, top in (path.get_bounds() for path in paths) if top - bottom > 100]
    return max(width for width in widths if width < 500)


@pytest.mark.parametrize(("scale", "points"), [("1/4", 180.0), ("1/8", 90.0), ("1:50", 10 * 0.3048 / 50 * 72 / 0.0254)])
def test_ten_feet_measure_what_the_scale_says(scale: str, points: float) -> None:
    # 2.5 in at 1/4" = 1'-0"; what frames the drawing is the same in both, so it falls away in the difference.
    longer, shorter = (wall_width(pdf_of(box(width), paper="tabloid", scale=scale)) for width in (20.0, 10.0))
    assert longer - shorter == pytest.approx(points, abs=0.72)


@pytest.mark.parametrize("paper", PAPERS)
def test_pages_have_the_paper_s_size(paper: str) -> None:
    for page in pdf_of(box(10), paper=paper, scale="auto"):
        assert page.get_size() == pytest.approx((PAPERS[paper].width * POINT, PAPERS[paper].height * POINT), abs=0.1)


def test_fonts_are_embedded_and_text_is_text() -> None:
    document = pdf_of(box(10))
    texts = [thing for thing in document[0].get_objects(max_depth=8) if thing.type == pdfium.FPDF_PAGEOBJ_TEXT]
    assert texts
    assert all(pdfium.FPDFFont_GetIsEmbedded(pdfium.FPDFTextObj_GetFont(thing.raw)) == 1 for thing in texts)
    assert "LEGEND" in text_of(document)


def test_every_sheet_has_its_bookmark() -> None:
    document = pdf_of(box(10))
    titles = [bookmark.get_title() for bookmark in document.get_toc()]
    assert len(titles) == len(document)
    assert titles[:2] == ["TY-001 Cover", "TY-101 Security plan"]


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


SAMPLES = Path(__file__).parents[2] / "sample_plans"


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
