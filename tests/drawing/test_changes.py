"""Change sheets: clouds about every changed place, each number once or at both its places, nothing that says more."""

from __future__ import annotations

import io
import re
from typing import Any
from xml.etree import ElementTree

import pypdfium2
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.documents.change_pdf import change_pdf
from app.drawing.sheets.changes.change_set import change_context, stacked
from app.drawing.sheets.changes.clouds import clouds_about, number_words, scalloped
from app.drawing.sheets.changes.overlay import cloud_values
from app.drawing.sheets.changes.sides import Side
from app.review.comparison.answer import Comparison
from app.review.house import House
from tests.review.comparison.edits import Value, house, plan, thing

SPOTS = st.lists(st.tuples(st.integers(-60, 60), st.integers(-60, 60)), min_size=1, max_size=25)


@given(SPOTS, st.sampled_from([0.8, 2.0, 5.0]))
@settings(max_examples=60, deadline=None)
def test_every_place_is_within_one_cloud_and_clouds_lie_apart(spots: list[tuple[int, int]], pad: float) -> None:
    places = [(number, shapely.Point(spot)) for number, spot in enumerate(spots, start=1)]
    clouds = clouds_about(places, pad)
    assert sorted(number for cloud in clouds for number in cloud.numbers) == [number for number, _ in places]
    for cloud in clouds:
        for number in cloud.numbers:
            assert cloud.outline.contains(places[number - 1][1])
    assert all(one.outline.disjoint(two.outline) for i, one in enumerate(clouds) for two in clouds[:i])


def test_places_near_each_other_are_one_cloud_and_far_ones_two() -> None:
    near = clouds_about([(1, shapely.Point(0, 0)), (2, shapely.Point(3, 0))], 1.0)
    far = clouds_about([(1, shapely.Point(0, 0)), (2, shapely.Point(9, 0))], 1.0)
    assert [cloud.numbers for cloud in near] == [(1, 2)]
    assert [cloud.numbers for cloud in far] == [(1,), (2,)]
    both_ends = clouds_about([(1, shapely.MultiPoint([(0, 0), (9, 0)]))], 1.0)
    assert [cloud.numbers for cloud in both_ends] == [(1,), (1,)]


def test_scallops_bulge_outward_by_half_a_chord_and_close() -> None:
    box = shapely.box(0, 0, 20, 10)
    path = scalloped(box, 2.0)
    numbers = [float(word) for word in re.findall(r"-?[\d.]+", path)]
    assert path.startswith("M")
    assert path.endswith("Z")
    assert path.count("A") == 30
    assert numbers[:2] == numbers[-2:]
    # The ring runs clockwise on paper, where y goes down, so that sweep 1 lies outside.
    start, end = numbers[:2], numbers[7:9]
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    left = (end[1] - start[1], start[0] - end[0])
    assert not box.contains(shapely.Point(middle[0] + 0.1 * left[0], middle[1] + 0.1 * left[1]))


def test_a_cloud_round_a_room_leaves_its_middle_out() -> None:
    ring = shapely.box(0, 0, 40, 30).exterior
    around, inside = clouds_about([(1, ring), (2, shapely.Point(20, 15))], 2.0)
    assert len(around.outline.interiors) == 1
    assert around.path(1.5).count("M") == 2
    assert inside.outline.disjoint(around.outline)


@pytest.mark.parametrize(
    ("numbers", "words"), [((1,), "1"), ((1, 2), "1, 2"), ((1, 2, 3), "1–3"), ((1, 3, 4, 5, 9), "1, 3–5, 9")]
)
def test_runs_of_numbers_are_drawn_together(numbers: tuple[int, ...], words: str) -> None:
    assert number_words(numbers) == words


def compared(change: Any) -> Comparison:
    value = house()
    change(value)
    return Comparison(House(plan(house())), House(plan(value)))


def much(value: Value) -> None:
    """Something added, moved, changed, and taken out, on both levels."""
    thing(value, "L1-g0").update(at=[24, 12])
    thing(value, "L1-m0").update(height=8.25)
    thing(value, "L1-w2").update(a=[30, 22], b=[0, 22])
    value["levels"][1]["devices"] = [one for one in value["levels"][1]["devices"] if one["id"] != "L2-c0"]
    value["levels"][1]["devices"].append({"id": "f9", "kind": "flood", "at": [25, 4]})


def context(comparison: Comparison, **choices: Any) -> dict[str, Any]:
    sides = (Side("A", "revision A", "Issued for approval."), Side("B", "revision B", "<b>Issued & named</b>"))
    said = {"paper": "letter", "scale": "auto", "revision": "B", "saved_at": "2026-11-20T10:20"} | choices
    return change_context(comparison, *sides, **said)


def test_each_level_that_changed_has_a_sheet_with_its_clouds() -> None:
    made = context(compared(much))
    titles = [sheet["title"] for sheet in made["sheets"]]
    assert [title.rsplit(", ", 1)[-1] for title in titles[:2]] == ["Ground floor", "Upper floor"]
    first, second = (sheet["svg"] for sheet in made["sheets"][:2])
    for sheet in (first, second):
        assert re.search(r'class="clouds".*?<path d="M[^"]+A', sheet, flags=re.DOTALL)
        assert ">B</text>" in sheet
    assert 'class="moved"' in first
    assert 'class="taken-out"' not in first.partition('class="plan-notes"')[0]
    assert 'class="taken-out"' in second.partition('class="plan-notes"')[0]


def test_a_level_without_a_change_has_no_sheet() -> None:
    made = context(compared(lambda value: thing(value, "L2-m0").update(height=8)))
    assert made["sheets"][0]["title"].endswith(", Upper floor")
    assert not any("Ground floor" in sheet["title"] for sheet in made["sheets"])


def test_nothing_changed_gives_one_sheet_that_says_so() -> None:
    made = context(compared(lambda value: None))
    assert len(made["sheets"]) == 1
    assert "Nothing differs between them." in made["sheets"][0]["svg"]


def test_the_pdf_says_what_the_page_says_and_names_come_out_as_text() -> None:
    made = context(compared(much), paper="a3")
    document = pypdfium2.PdfDocument(io.BytesIO(change_pdf(made)))
    assert len(document) == len(made["sheets"])
    text = "\n".join(page.get_textpage().get_text_bounded() for page in document)
    for words in ("Revision B, compared with revision A.", "<b>Issued & named</b>", "Height 7'-0\" → 8'-3\""):
        assert words in text
    assert [item.get_title() for item in document.get_toc()] == [f"{s['number']} {s['title']}" for s in made["sheets"]]


def test_all_sheets_lie_one_under_another_in_one_picture() -> None:
    made = context(compared(much))
    picture = stacked(made)
    root = ElementTree.fromstring(picture)
    sheets = root.findall("{http://www.w3.org/2000/svg}g/{http://www.w3.org/2000/svg}svg")
    assert len(sheets) == len(made["sheets"])
    assert {sheet.attrib["width"] for sheet in sheets} == {"279.4"}
    assert float(root.attrib["height"].removesuffix("mm")) == pytest.approx(215.9 * len(sheets) + 5 * (len(sheets) - 1))


def test_the_page_gets_the_same_numbers_as_the_sheet() -> None:
    comparison = compared(much)
    clouds = cloud_values(comparison)
    shown = {change.number for change in comparison.changes if change.place is not None}
    assert {number for cloud in clouds for number in cloud["numbers"]} == shown
    assert {cloud["level"] for cloud in clouds} == {"L1", "L2"}


@pytest.mark.parametrize("choice", [{"paper": "napkin"}, {"scale": "1:7"}])
def test_a_choice_that_is_none_is_told(choice: dict[str, str]) -> None:
    with pytest.raises(ValueError, match="is none of"):
        context(compared(lambda value: None), **choice)
