"""The sets' pages as paper: nothing lies over anything, nothing leaves the frame, whatever people call their things."""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

import pytest

from app.drawing.lettering import SMALLEST
from app.drawing.sheets.cautions import CAUTIONS
from app.drawing.sheets.paper.habits import HABITS, habit_for
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.sets import SETS
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import columns_of
from app.drawing.sheets.setting.ruled import Ruled, blanks, ruled_table, ticked, writing_lines
from app.plan.reading import plan_from
from tests.drawing.sheets.a_guarded_house import guarded, guarded_value
from tests.drawing.sheets.reading import only, sheets_of, text_of
from tests.drawing.svg_reading import SVG, Word, by_class, lie_over, words

SET = ("schedule-sheet", "cover")
HOSTILE = "<script>alert('1')</script> \"&=1+1 שלום"


def named(text: str, **changes: Any) -> Any:
    """The house with one text for everything that people name."""
    value = guarded_value(name=text[:120], site=dict.fromkeys(("client", "address", "designer", "notes"), text))
    level = value["levels"][0]
    level["name"] = text[:120]
    for thing in (*level["rooms"], *level["devices"]):
        thing["name" if "use" in thing else "label"] = text[:120]
    level["devices"][4]["note"] = text
    return plan_from(value | changes)


def set_words(sheet: ElementTree.Element) -> list[Word]:
    return [word for name in SET for group in by_class(sheet, name) for word in words(group)]


@pytest.mark.parametrize("readers", SETS)
@pytest.mark.parametrize(("paper", "units"), [("letter", "imperial"), ("a3", "metric")])
def test_words_stand_clear_of_one_another_within_the_frame(readers: str, paper: str, units: str) -> None:
    plan = named("Fernhollow and its many-gabled outbuildings " * 3, units=units)
    left, top, right, bottom = PAPERS[paper].by(habit_for(units)).frame
    for name, sheet in sheets_of(plan, readers, paper).items():
        found = set_words(sheet)
        for index, word in enumerate(found):
            box = word.box
            assert word.size >= SMALLEST - 1e-3, (name, word)
            assert box[0] >= left, (name, word)
            assert box[1] >= top, (name, word)
            assert box[2] <= right + 0.1, (name, word)
            assert box[3] <= bottom, (name, word)
            assert not [other for other in found[:index] if lie_over(box, other.box)], (name, word)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("habit", HABITS)
def test_every_caution_stands_whole_on_every_paper(paper: str, habit: str) -> None:
    text = text_of(sheets_of(guarded(), "guide", paper, habit=habit))
    assert all(caution in text for caution in CAUTIONS)


@pytest.mark.parametrize("readers", SETS)
def test_hostile_names_come_out_as_text(readers: str) -> None:
    sheets = sheets_of(named(HOSTILE), readers)
    for sheet in sheets.values():
        assert {part.tag.removeprefix(SVG) for part in sheet.iter()} <= {
            "svg", "defs", "desc", "title", "g", "path", "rect", "line", "circle", "text", "tspan", "polygon"
        }  # fmt: skip
        assert not any(key.startswith("on") for part in sheet.iter() for key in part.attrib)
    if readers != "guide":
        assert "<script>" in text_of(sheets)


@pytest.mark.parametrize("readers", SETS)
def test_a_plan_of_nothing_has_every_set(readers: str) -> None:
    empty = plan_from({"format": "studbay-plan/1", "name": "Nothing yet", "levels": [{"id": "g", "name": "Ground"}]})
    assert "Nothing yet" in text_of(sheets_of(empty, readers, "letter"))


def test_no_two_sheets_of_a_set_share_a_number() -> None:
    for readers in SETS:
        numbers = [name.split()[0] for name in sheets_of(guarded(), readers, "letter", scale="1/4")]
        assert len(set(numbers)) == len(numbers)


def test_a_ruled_row_is_as_high_as_its_words_and_high_enough_to_write_in() -> None:
    setter = Setter(100.0)
    head, bare, long = ruled_table(setter, ("A", "B"), (1, 1), [Ruled(("", "")), Ruled(("word " * 60, ""))])
    assert bare.height == pytest.approx(7.0)
    assert long.height > 5 * setter.leading
    assert long.header is not None
    assert long.header.height == head.height


def test_blanks_stand_side_by_side_and_their_lines_do_not_cross_their_names() -> None:
    (block,) = blanks(Setter(80.0), ("Name", "A name that is rather long to stand before its line"), 2)
    drawn = [ElementTree.fromstring(piece.tostring()) for piece in block.draw((0.0, 0.0))]
    lines = [part for part in drawn if part.tag == "line"]
    assert len(lines) == 2
    assert all(float(line.attrib["x2"]) - float(line.attrib["x1"]) > 10 for line in lines)
    assert float(lines[0].attrib["x2"]) < float(lines[1].attrib["x1"])


def test_lines_to_write_on_and_boxes_to_tick() -> None:
    assert len(list(writing_lines(Setter(50.0), 3))) == 3
    (block,) = ticked(Setter(50.0), "Something to be shown and tried")
    drawn = [piece.elementname for piece in block.draw((0.0, 0.0))]
    assert drawn.count("rect") == 1
    assert "text" in drawn


@pytest.mark.parametrize("paper", ["letter", "tabloid", "a4", "a3"])
@pytest.mark.parametrize("title", ["Site survey", "System design proposal", "Handover"])
def test_a_document_of_one_sheet_uses_the_sheet_it_has(paper: str, title: str) -> None:
    (sheet,) = only(sheets_of(guarded(), "documents", paper), title).values()
    (group,) = by_class(sheet, "schedule-sheet")
    low, high = min(word.box[1] for word in words(group)), max(word.box[3] for word in words(group))
    assert high - low > 0.55 * (PAPERS[paper].height - 30)


@pytest.mark.parametrize("paper", ["letter", "tabloid", "a4", "a3", "arch_d"])
@pytest.mark.parametrize("title", ["As-fitted", "Walk test", "Log book"])
def test_a_form_that_goes_on_is_ruled_to_the_foot_of_its_sheet(paper: str, title: str) -> None:
    sheet = list(only(sheets_of(guarded(), "documents", paper), title).values())[-1]
    (group,) = by_class(sheet, "schedule-sheet")
    boxes = [part for part in group.iter(f"{SVG}rect") if float(part.attrib["width"]) > 10]
    lowest = max(float(part.attrib["y"]) + float(part.attrib["height"]) for part in boxes)
    *_, foot = PAPERS[paper].by(habit_for("imperial")).frame
    assert foot - 5 * PAPERS[paper].lettering - 9 * PAPERS[paper].lettering < lowest < foot


def test_no_row_of_a_form_stands_alone_under_its_head() -> None:
    table = ruled_table(Setter(90.0), ("Of", "Found"), (1, 1), [Ruled(("a", ""))] * 9)
    for height in range(34, 90):
        for column in columns_of([*Setter(90.0).paragraph("One line."), *table], height):
            rows = [block for _, block in column if block.header is table[0]]
            assert len(rows) != 1


def test_no_line_of_a_paragraph_stands_alone_at_the_head_or_foot_of_a_column() -> None:
    text = " ".join(["words"] * 60)
    blocks = Setter(90.0).paragraph(text)
    assert len(blocks) > 4
    for height in range(14, 60):
        columns = [column for column in columns_of([*Setter(90.0).paragraph("One line."), *blocks], height) if column]
        for column in columns:
            of_text = [block for _, block in column if block in blocks]
            assert len(of_text) != 1
