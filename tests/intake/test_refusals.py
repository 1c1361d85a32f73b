"""Foreign files that are broken, huge or something else: one clear line each, never a traceback."""

from __future__ import annotations

import io
import random

import ezdxf
import pytest

from app.intake.choices import Choices
from app.intake.drawing import DxfDrawing
from app.intake.dxf import unfolding
from app.intake.kinds import LARGEST_DRAWING
from app.intake.opening import open_foreign
from app.intake.refused import DrawingRefused
from tests.intake.writing.from_plan import drawn
from tests.intake.writing.plum_lane import LEVEL

OTHERS = {
    b"AC1027\x00\x00\x00\x00": "DWG",
    b"%PDF-1.7\n": "PDF",
    b"\x89PNG\r\n\x1a\n": "picture",
    b"PK\x03\x04abc": "packed",
    b"<?xml version='1.0'?><svg/>": "XML",
    b'{"format": "studbay-plan/1"}': "plan file",
    b"": "empty",
    b"hello": "neither DXF nor IFC",
    b"ISO-10303-21;\nHEADER;\nFILE_SCHEMA(('AUTOMOTIVE_DESIGN'));\nENDSEC;": "another trade",
}


def _refused(source: bytes) -> str:
    with pytest.raises(DrawingRefused) as refused:
        open_foreign(source).converted(Choices())
    words = str(refused.value)
    assert "\n" not in words
    assert "Traceback" not in words
    return words


@pytest.mark.parametrize("source", OTHERS, ids=list(OTHERS.values()))
def test_another_kind_of_file_is_told_by_its_name(source: bytes) -> None:
    assert OTHERS[source] in _refused(source)


def test_a_file_over_the_limit_is_refused_unread() -> None:
    with pytest.raises(DrawingRefused, match="32 MiB") as refused:
        open_foreign(b"0\nSECTION\n" + b" " * LARGEST_DRAWING)
    assert refused.value.too_large


def test_too_many_entities_are_refused_before_they_are_read() -> None:
    line = b"  0\nLINE\n  8\n0\n 10\n0.0\n 20\n0.0\n 11\n1.0\n 21\n1.0\n"
    source = b"  0\nSECTION\n  2\nENTITIES\n" + line * 200_500 + b"  0\nENDSEC\n  0\nEOF\n"
    assert "200,000 entities" in _refused(source)


def _blocks_of_blocks(depth: int, width: int) -> bytes:
    document = ezdxf.new("R2010")
    inner = document.blocks.new("B0")
    inner.add_line((0, 0), (1, 0))
    for level in range(1, depth):
        block = document.blocks.new(f"B{level}")
        for k in range(width):
            block.add_blockref(f"B{level - 1}", (k, 0))
    document.modelspace().add_blockref(f"B{depth - 1}", (0, 0))
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def test_blocks_that_unfold_without_end_are_cut_off(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(unfolding, "MOST_UNFOLDED", 2_000)
    assert "unfold to over" in _refused(_blocks_of_blocks(8, 10))


def test_a_block_of_a_million_copies_is_refused_at_once() -> None:
    document = ezdxf.new("R2010")
    document.blocks.new("B").add_line((0, 0), (1, 0))
    many = {"row_count": 30_000, "column_count": 30_000, "row_spacing": 1, "column_spacing": 1}
    document.modelspace().add_blockref("B", (0, 0), dxfattribs=many)
    stream = io.StringIO()
    document.write(stream)
    assert "unfold to over" in _refused(stream.getvalue().encode())


def test_a_block_within_itself_ends() -> None:
    document = ezdxf.new("R2010")
    block = document.blocks.new("LOOP")
    block.add_line((0, 0), (1, 0))
    block.add_blockref("LOOP", (1, 1))
    document.modelspace().add_blockref("LOOP", (0, 0))
    stream = io.StringIO()
    document.write(stream)
    drawing = DxfDrawing(stream.getvalue().encode())
    assert len(drawing.sheet.strokes) <= unfolding.DEEPEST + 1


def test_a_file_cut_short_is_read_as_far_as_it_goes_or_refused() -> None:
    whole = drawn(LEVEL, "in", "R2000")
    for share in (0.2, 0.5, 0.8, 0.97):
        source = whole[: int(len(whole) * share)]
        try:
            drawing = open_foreign(source)
        except DrawingRefused as refused:
            assert "\n" not in str(refused)  # noqa: PT017 (either outcome is right)
        else:
            assert any("ends early" in note for note in drawing.survey()["notes"])


def test_scrambled_bytes_never_trip_the_reader() -> None:
    chance = random.Random(7)
    whole = drawn(LEVEL, "mm", "R12")
    for _ in range(25):
        source = bytearray(whole)
        for _ in range(chance.randint(1, 40)):
            source[chance.randrange(len(source))] = chance.randrange(256)
        try:
            plan, _ = open_foreign(bytes(source)).converted(Choices())
        except DrawingRefused as refused:
            assert "\n" not in str(refused)  # noqa: PT017 (either outcome is right)
        else:
            assert plan.levels[0].walls


def test_coordinates_that_are_no_numbers_are_left_out_and_told() -> None:
    whole = drawn(LEVEL, "in", "R12").decode()
    broken = whole.replace("\nLINE\n", "\nLINE\n", 1)
    first = broken.index("\nLINE\n")
    place = broken.index("\n 10\n", first) + 5
    broken = broken[:place] + "1e308\n" + broken[broken.index("\n", place) + 1 :]
    drawing = DxfDrawing(broken.encode())
    plan, report = drawing.converted(Choices())
    assert len(plan.levels[0].rooms) == 5
    assert any(line["reason"] == "its data are damaged" for line in report.unread.lines())


def test_an_empty_drawing_says_what_is_missing() -> None:
    document = ezdxf.new("R2010")
    document.modelspace().add_point((0, 0))
    stream = io.StringIO()
    document.write(stream)
    assert "no lines" in _refused(stream.getvalue().encode())


def test_choices_out_of_bounds_are_refused_in_words() -> None:
    with pytest.raises(DrawingRefused, match="sill 7 ft must be below head"):
        Choices(sill=7.0)
    with pytest.raises(DrawingRefused, match="is no unit"):
        Choices(units="furlong")
    drawing = DxfDrawing(drawn(LEVEL))
    with pytest.raises(DrawingRefused, match="no layer 'WALL'"):
        drawing.converted(Choices(roles={"WALL": "walls"}))
    with pytest.raises(DrawingRefused, match="no layer is chosen for walls"):
        drawing.converted(Choices(roles={"A-WALL": "ignore"}))
