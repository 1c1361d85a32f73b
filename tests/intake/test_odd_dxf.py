"""DXF files as programs of every age write them: binary, old line ends, code pages, blocks turned and mirrored."""

from __future__ import annotations

import io
from typing import Any

import ezdxf
import pytest
from ezdxf.document import Drawing

from app.intake.choices import Choices
from app.intake.drawing import DxfDrawing
from app.intake.opening import open_foreign
from app.intake.refused import DrawingRefused
from tests.intake.comparing import drawn_walls, is_near, room_areas
from tests.intake.writing.from_plan import drawn, primitives
from tests.intake.writing.plum_lane import LEVEL

READ = {"walls": 8, "doors": 6, "windows": 5, "cased openings": 1, "rooms": 5}


def _document() -> Drawing:
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 1
    return document


def _put(target: Any, inches: float = 12.0) -> None:
    """The cottage drawn into a layout or a block; names begin at their lower left."""
    for shape in primitives(LEVEL):
        on = {"layer": shape["layer"]}
        spots = [(x * inches, y * inches) for x, y in shape.get("spots", ())]
        if shape["kind"] == "ring":
            target.add_lwpolyline(spots, close=True, dxfattribs=on)
        elif shape["kind"] == "line":
            target.add_line(*spots, dxfattribs=on)
        elif shape["kind"] == "arc":
            centre = [value * inches for value in shape["centre"]]
            target.add_arc(centre, shape["radius"] * inches, shape["start"], shape["end"], dxfattribs=on)
        else:
            at = [value * inches for value in shape["at"]]
            target.add_text(shape["text"], height=0.5 * inches, dxfattribs=on | {"insert": at})


def _bytes(document: Drawing, form: str = "asc") -> bytes:
    if form == "bin":
        packed = io.BytesIO()
        document.write(packed, fmt="bin")
        return packed.getvalue()
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def _is_cottage(source: bytes) -> None:
    plan, report = open_foreign(source).converted(Choices())
    assert report.read == READ
    wanted = room_areas(plan.levels[0].model_copy(update={"walls": drawn_walls(LEVEL["walls"])}))
    assert all(is_near(one, two) for one, two in zip(room_areas(plan.levels[0]), wanted, strict=True))
    assert {room.name.lower() for room in plan.levels[0].rooms} == {room["name"].lower() for room in LEVEL["rooms"]}


@pytest.mark.parametrize("release", ["R12", "R2000", "R2004", "R2007", "R2013", "R2018"])
def test_every_release_is_read(release: str) -> None:
    _is_cottage(drawn(LEVEL, "in", release))


def test_a_binary_file_is_read() -> None:
    document = _document()
    _put(document.modelspace())
    _is_cottage(_bytes(document, "bin"))


def test_a_damaged_binary_file_is_refused_in_a_line() -> None:
    document = _document()
    _put(document.modelspace())
    whole = _bytes(document, "bin")
    with pytest.raises(DrawingRefused) as refused:
        open_foreign(whole[: len(whole) // 2])
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("ends", [b"\r\n", b"\r"])
def test_lines_end_as_they_may(ends: bytes) -> None:
    document = _document()
    _put(document.modelspace())
    _is_cottage(_bytes(document).replace(b"\r\n", b"\n").replace(b"\n", ends))


def test_letters_of_a_code_page_in_a_new_release_are_read() -> None:
    document = _document()
    _put(document.modelspace())
    document.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": "Möbel"})
    names = {layer["name"] for layer in DxfDrawing(_bytes(document).decode().encode("cp1252")).survey()["layers"]}
    assert "Möbel" in names


def test_a_house_in_nested_blocks_mirrored_twice_and_turned_is_read() -> None:
    document = _document()
    inner, outer = document.blocks.new("HOUSE"), document.blocks.new("SHEET")
    _put(inner, 1.0)
    outer.add_blockref("HOUSE", (5, 5), dxfattribs={"xscale": -12, "yscale": 12, "rotation": 30})
    document.modelspace().add_blockref("SHEET", (100, 7), dxfattribs={"rotation": -75, "yscale": -1})
    _is_cottage(_bytes(document))


def test_names_stay_in_their_rooms_when_a_block_is_mirrored() -> None:
    document = _document()
    _put(document.blocks.new("HOUSE"), 1.0)
    document.modelspace().add_blockref("HOUSE", (0, 0), dxfattribs={"xscale": -12, "yscale": 12})
    _is_cottage(_bytes(document))


def test_coordinates_of_a_national_grid_cost_no_precision() -> None:
    _is_cottage(drawn(LEVEL, "mm", place=(33.0, 1_600_000.0, 17_000_000.0)))


def test_a_wide_polyline_with_a_bow_closes_its_room() -> None:
    document = _document()
    spots = [(0, 0, 6, 6, 0), (300, 0, 6, 6, 1.0), (300, 200, 6, 6, 0), (0, 200, 6, 6, 0)]
    document.modelspace().add_lwpolyline(spots, format="xyseb", close=True, dxfattribs={"layer": "WALLS"})
    plan, _ = open_foreign(_bytes(document)).converted(Choices())
    assert len(plan.levels[0].rooms) == 1


def test_a_curve_without_a_second_face_is_told() -> None:
    document = _document()
    _put(document.modelspace())
    document.modelspace().add_arc((1000, 500), 200, 0, 90, dxfattribs={"layer": "A-WALL"})
    _, report = open_foreign(_bytes(document)).converted(Choices())
    assert {(line["layer"], line["kind"]) for line in report.unread.lines()} == {("A-WALL", "arc")}


def test_treads_on_the_walls_layer_are_no_walls() -> None:
    document = _document()
    _put(document.modelspace())
    for k in range(9):
        document.modelspace().add_line((20 + 10 * k, 20), (20 + 10 * k, 56), dxfattribs={"layer": "A-WALL"})
    _, report = open_foreign(_bytes(document)).converted(Choices())
    assert report.read == READ
    told = {line["reason"]: line["count"] for line in report.unread.lines()}
    assert told == {"is one of an even row, as treads or boards are: no wall": 9}


def test_hatched_walls_are_read_once() -> None:
    document = _document()
    _put(document.modelspace())
    for shape in primitives(LEVEL):
        if shape["kind"] == "ring":
            hatch = document.modelspace().add_hatch(dxfattribs={"layer": "A-WALL"})
            hatch.paths.add_polyline_path([(x * 12, y * 12) for x, y in shape["spots"]], is_closed=True)
            hatch.set_pattern_fill("ANSI31", scale=10)
    _is_cottage(_bytes(document))


def test_a_plan_on_a_printed_sheet_says_where_it_stands() -> None:
    document = _document()
    _put(document.layout("Layout1"))
    with pytest.raises(DrawingRefused, match="printed sheet"):
        open_foreign(_bytes(document))
