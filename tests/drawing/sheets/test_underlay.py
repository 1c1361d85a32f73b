"""The picture under a level on paper: at its place, faded, cut off at the window, bounded, and only when asked."""

from __future__ import annotations

import base64
import io
import math
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pypdfium2
import pytest
from PIL import Image, ImageDraw

from app.documents.printed_set import set_as_pdf
from app.drawing.house.walls import POCHE
from app.drawing.sheet import sheet_context
from app.drawing.sheets.paper.scales import SCALES
from app.drawing.sheets.underlay.laid import Laid
from app.drawing.sheets.underlay.pixels import MOST_BYTES, MOST_PIXELS, printed_pixels
from app.drawing.view import View
from app.plan.faults import PlanRefused
from app.plan.model import Plan
from app.plan.placement import Placement
from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.drawing.a_house import house, house_value
from tests.drawing.svg_reading import by_class

PER_FOOT = 25  # pixels
CORNER = (-6.0, 20.0)  # ft: where the picture's top left corner lies
RED = (5.0, 11.0)  # ft: a red dot, on bare floor
BLUE = (16.0, 11.0)  # ft
DPI = 150


def spotted(*spots: tuple[tuple[float, float], str], size: tuple[int, int] = (1100, 700)) -> Image.Image:
    """A pale picture with a round dot of a foot at each place in feet."""
    image = Image.new("RGB", size, "white")
    pen = ImageDraw.Draw(image)
    for (x, y), colour in spots:
        u, v = (x - CORNER[0]) * PER_FOOT, (CORNER[1] - y) * PER_FOOT
        pen.ellipse((u - PER_FOOT / 2, v - PER_FOOT / 2, u + PER_FOOT / 2, v + PER_FOOT / 2), fill=colour)
    return image


def laid(image: Image.Image, level: str = "L1", form: str = "PNG", **placed: Any) -> Laid:
    held = io.BytesIO()
    image.save(held, form)
    given: dict[str, Any] = {"picture": "0" * 64, "scale": 1 / PER_FOOT, "origin": CORNER} | placed
    return Laid(level, held.getvalue(), Placement(**given))


def context_of(plan: Plan, *pictures: Laid, **choices: Any) -> dict[str, Any]:
    given: dict[str, Any] = {"paper": "letter", "scale": "1/8"} | choices
    return sheet_context(
        plan, check_plan(plan), revision=1, saved_at="2026-03-05T10:20:30Z", laid=list(pictures), **given
    )


def plan_pages(context: dict[str, Any]) -> list[tuple[ElementTree.Element, np.ndarray]]:
    """Each plan sheet as SVG, and its page of the PDF as an array of colours."""
    document = pypdfium2.PdfDocument(set_as_pdf(context))
    pages = []
    for number, sheet in enumerate(context["sheets"]):
        svg = ElementTree.fromstring(sheet["svg"])
        if by_class(svg, "plan-sheet"):
            pages.append((svg, np.asarray(document[number].render(scale=DPI / 72).to_pil().convert("RGB"), dtype=int)))
    return pages


def dot(page: np.ndarray, colour: str) -> tuple[float, float] | None:
    """Where on the page, in mm, the middle of a faded dot lies; the signs of coverage have other tints."""
    red, green, blue = (page[:, :, band] for band in range(3))
    strong, weak = (red, blue) if colour == "red" else (blue, red)
    found = (strong > 240) & (abs(weak - green) < 6) & (weak > 140) & (weak < 165)
    rows, columns = np.nonzero(found)
    if len(rows) < 20:
        return None
    return ((columns.mean() + 0.5) * 25.4 / DPI, (rows.mean() + 0.5) * 25.4 / DPI)


def on_paper(svg: ElementTree.Element, scale: str) -> View:
    """How the plan lies on its sheet, read off its walls: their west and north faces are at x −0.25 and y 14.25."""
    path = next(part for part in by_class(svg, "walls")[0] if part.get("fill") == POCHE)
    numbers = [float(text) for text in path.attrib["d"].replace("M", " ").replace("L", " ").replace("Z", " ").split()]
    k = 304.8 / SCALES[scale].ratio
    return View(k, min(numbers[::2]) + 0.25 * k, min(numbers[1::2]) + 14.25 * k)


@pytest.mark.parametrize(("scale", "form"), [("1/8", "PNG"), ("1:75", "JPEG")])
def test_a_point_of_the_picture_lands_on_its_point_of_the_paper(scale: str, form: str) -> None:
    picture = laid(spotted((RED, "#FF0000"), (BLUE, "#0000FF")), form=form)
    svg, page = plan_pages(context_of(house(), picture, scale=scale))[0]
    view = on_paper(svg, scale)
    for place, colour in ((RED, "red"), (BLUE, "blue")):
        assert dot(page, colour) == pytest.approx(view.spot(place), abs=0.2)  # a pixel is 0.17 mm
    first, second = dot(page, "red"), dot(page, "blue")
    assert first
    assert second
    assert math.dist(first, second) == pytest.approx(11 * 304.8 / SCALES[scale].ratio, abs=0.2)


@pytest.mark.parametrize("turn", [30.0, -90.0, 180.0])
def test_a_turned_picture_is_turned_about_its_corner(turn: float) -> None:
    """Worked by hand: 18 ft east and 6 ft south of the corner in the picture, turned counter-clockwise about it."""
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    along, down = 18.0, 6.0
    origin = (RED[0] - (along * cos + down * sin), RED[1] - (along * sin - down * cos))
    picture = laid(spotted(((CORNER[0] + along, CORNER[1] - down), "#FF0000")), origin=origin, turn=turn)
    svg, page = plan_pages(context_of(house(), picture))[0]
    assert dot(page, "red") == pytest.approx(on_paper(svg, "1/8").spot(RED), abs=0.2)


def test_in_a_parted_set_each_sheet_has_its_part_in_place() -> None:
    value = house_value()
    for index in range(1, 4):  # a terrace of four, which takes several sheets
        value["levels"][0]["walls"] += [
            {
                "id": f"{wall['id']}-{index}",
                "a": [wall["a"][0] + 30 * index, wall["a"][1]],
                "b": [wall["b"][0] + 30 * index, wall["b"][1]],
            }
            for wall in house_value()["levels"][0]["walls"]
        ]
    far = (95.0, 11.0)
    picture = laid(spotted((RED, "#FF0000"), (far, "#0000FF"), size=(3200, 700)))
    context = context_of(plan_from(value), picture, scale="1/4")
    pages = plan_pages(context)
    assert len(pages) > 1
    spots = [(dot(page, "red"), dot(page, "blue")) for _, page in pages]
    assert spots[0][0] == pytest.approx(on_paper(pages[0][0], "1/4").spot(RED), abs=0.2)
    assert [bool(red) for red, _ in spots].count(True) == 1
    assert [bool(blue) for _, blue in spots].count(True) == 1
    for svg, _ in pages:
        for clip in by_class(svg, "underlay"):
            left, top, wide, high = (float(text) for text in clip.attrib["viewBox"].split())
            assert left >= 0
            assert top >= 0
            assert left + wide <= 11 * 25.4 - 52
            assert high <= 8.5 * 25.4


def test_each_level_has_its_own() -> None:
    value = house_value()
    upper = house_value()["levels"][0] | {"id": "L2", "name": "Upper", "elevation": 10, "openings": [], "devices": []}
    for family in ("walls", "rooms", "fixtures"):
        upper[family] = [thing | {"id": f"{thing['id']}-up"} for thing in upper[family]]
    value["levels"].append(upper)
    lower, higher = laid(spotted((RED, "#FF0000"))), laid(spotted((BLUE, "#0000FF")), level="L2")
    for readers in ("homeowner", "crew"):
        pages = plan_pages(context_of(plan_from(value), lower, higher, readers=readers))
        found = [(bool(dot(page, "red")), bool(dot(page, "blue"))) for _, page in pages]
        assert found == [(True, False), (False, True)] * (len(found) // 2)


def test_none_is_printed_unless_it_is_given_nor_told_in_the_legend() -> None:
    for context, there in ((context_of(house()), False), (context_of(house(), laid(spotted((RED, "red")))), True)):
        text = " ".join(sheet["svg"] for sheet in context["sheets"])
        assert ("<image" in text) is there
        assert ("Picture laid beneath" in text) is there


def test_a_picture_that_lies_elsewhere_is_neither_drawn_nor_told() -> None:
    away = laid(spotted((RED, "red")), origin=(500.0, 500.0))
    assert not any(
        "<image" in sheet["svg"] or "laid beneath" in sheet["svg"] for sheet in context_of(house(), away)["sheets"]
    )


def test_it_lies_beneath_the_walls() -> None:
    svg, _ = plan_pages(context_of(house(), laid(spotted((RED, "red")))))[0]
    order = [part.get("class") for part in by_class(svg, "plan-sheet")[0]]
    assert order[:2] == ["underlay", "floor-plan"]


def test_black_prints_at_most_two_fifths_as_dark_and_fainter_where_the_page_shows_it_fainter() -> None:
    black = Image.new("L", (40, 40), 0)
    for fade, grey in ((0.0, 153), (0.4, 153), (0.8, 204), (1.0, 255)):
        _, content = printed_pixels(black, (0, 0, 40, 40), 4.0, fade)
        assert Image.open(io.BytesIO(content)).getextrema() == (grey, grey)


def test_pixels_and_bytes_are_bounded() -> None:
    noise = Image.fromarray(np.random.default_rng(7).integers(0, 255, (3000, 4000, 3), dtype=np.uint8))
    _, content = printed_pixels(noise, (0, 0, 4000, 3000), 1.0, 0.0)
    assert len(content) <= MOST_BYTES
    _, content = printed_pixels(Image.new("L", (6000, 4000)), (0, 0, 6000, 4000), 1.0, 0.0)
    assert math.prod(Image.open(io.BytesIO(content)).size) <= MOST_PIXELS * 1.001
    fine = Image.new("L", (3000, 1500))  # 150 mm of paper: 200 pixels an inch are 1,181 across
    _, content = printed_pixels(fine, (0, 0, 3000, 1500), 20.0, 0.0)
    assert Image.open(io.BytesIO(content)).size == (1181, 591)


def test_what_is_see_through_is_paper() -> None:
    clear = laid(Image.new("RGBA", (50, 50), (0, 0, 0, 0)))
    assert clear.image.getextrema() == ((255, 255),) * 3


def test_a_broken_picture_is_refused_with_its_level() -> None:
    broken = Laid("L1", b"\x89PNG\r\n\x1a\nno more", Placement(picture="0" * 64, scale=0.1))
    with pytest.raises(PlanRefused, match="levels L1: the picture under it cannot be read"):
        context_of(house(), broken)


def test_the_picture_on_the_page_is_the_picture_of_the_pdf() -> None:
    context = context_of(house(), laid(spotted((RED, "#FF0000"))))
    svg = next(sheet["svg"] for sheet in context["sheets"] if "<image" in sheet["svg"])
    image = next(part for part in ElementTree.fromstring(svg).iter() if part.tag.endswith("}image"))
    kind, _, data = image.attrib["href"].partition(",")
    assert kind == "data:image/png;base64"
    assert Image.open(io.BytesIO(base64.b64decode(data))).format == "PNG"
