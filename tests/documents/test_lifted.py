"""Any text goes to the PDF: plain lines as text of the picture, all others set over it, none that breaks the file."""

from __future__ import annotations

from io import BytesIO

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.documents.lifted import lifted
from app.documents.pdf import PdfSheet, pdf_of
from app.drawing.lettering import lettered
from app.drawing.maker import SVG, as_text
from app.drawing.sheets.masks import with_masks
from app.drawing.sheets.setting.letters import with_letters


def picture_of(*texts: str, **look: object) -> str:
    svg = SVG.svg(size=("100mm", "100mm"), viewBox="0 0 100 100", font_family="'Liberation Sans'")
    svg["xmlns"] = "http://www.w3.org/2000/svg"
    for place, text in enumerate(texts):
        svg.add(lettered(text, (50, 10 + 8 * place), 4, **look))
    return with_letters(with_masks(as_text(svg))).svg


@given(st.lists(st.text(min_size=1, max_size=12), min_size=8, max_size=8), st.booleans())
@settings(max_examples=12, deadline=None)
def test_no_text_breaks_a_sheet(texts: list[str], bold: bool) -> None:
    svg = picture_of(*texts, bold=bold, halo=True, anchor="middle", turn=-90.0)
    pdf = pdf_of([PdfSheet(texts[0], svg, 100, 100)], title=texts[-1])
    assert len(pypdfium2.PdfDocument(BytesIO(pdf))) == 1


@pytest.mark.parametrize("text", ["Plain 12'-6\"", "Кухня Ёж", "Σαλόνι", "Phòng ngủ"])
def test_plain_letters_stay_in_the_picture(text: str) -> None:
    svg = picture_of(text)
    assert lifted(svg) == (svg, [])


@pytest.mark.parametrize("text", ["מטבח 2", "غرفة", "ห้องนอน", "बैठक", "e\u0301"])
def test_lines_that_join_stack_or_run_from_the_right_are_lifted(text: str) -> None:
    picture, (line,) = lifted(picture_of("Plain", text, bold=True, anchor="middle"))
    assert line.text == text
    assert (line.x, line.y, line.size, line.bold, line.anchor) == (50, 18, 4, True, "middle")
    assert line.from_right == (text[0] in "מغ")
    assert "Plain" in picture
    assert text not in picture


def test_a_lifted_line_stands_where_it_was_turned_to() -> None:
    svg = SVG.svg(size=("100mm", "100mm"), viewBox="0 0 100 100")
    svg["xmlns"] = "http://www.w3.org/2000/svg"
    group = SVG.g(transform="rotate(-90 20 30)")
    group.add(lettered("غرفة", (25, 30), 4))
    svg.add(group)
    _, (line,) = lifted(as_text(svg))
    assert (round(line.x, 6), round(line.y, 6), line.turn) == (20, 25, -90)
