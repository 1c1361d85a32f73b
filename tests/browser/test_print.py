"""The printed set as a browser prints it: measured, read and looked at in the PDF that Chromium makes."""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest

from app.drawing.palette import COVERED, PAPER
from app.drawing.sheets.paper.papers import PAPERS
from tests.browser.conftest import playwright_api, wait_until
from tests.drawing.a_house import house_value
from tests.drawing.svg_reading import subpaths

pdfium = pytest.importorskip("pypdfium2", reason='get it with: pip install -e ".[test]"')
raw = pytest.importorskip("pypdfium2.raw")

pytestmark = pytest.mark.browser
expect = playwright_api.expect

POCHE_GREY = 0x59
SVG = "{http://www.w3.org/2000/svg}"
PLAN = 1  # the first sheet after the cover


def ten_feet() -> dict[str, Any]:
    """A plan of one wall, ten feet long, flat at both ends."""
    walls = [{"id": "ten", "a": [0, 0], "b": [10, 0], "thickness": 0.5}]
    return {
        "format": "studbay-plan/1",
        "name": "Ten feet",
        "levels": [{"id": "L1", "name": "Ground floor", "walls": walls}],
    }


class Printed:
    """A plan's set as the browser shows it, and as it prints it."""

    def __init__(self, browser: Any, url: str, folder: Path) -> None:
        page = browser.new_page()
        self.refusals: list[str] = []
        page.on("console", lambda message: self.refusals.append(message.text) if message.type == "error" else None)
        page.goto(url)
        self.sheets = [
            ElementTree.fromstring(svg)
            for svg in page.eval_on_selector_all(".sheet", "all => all.map(one => one.innerHTML)")
        ]
        made = folder / "printed.pdf"
        page.pdf(path=str(made), prefer_css_page_size=True, print_background=True)
        page.close()
        self.pdf = pdfium.PdfDocument(made)


@pytest.fixture(scope="module")
def ten_feet_id(server: Any) -> str:
    return server.add(ten_feet())


@pytest.fixture(scope="module")
def house_id(server: Any) -> str:
    return server.add(house_value())


def filled_paths(page: Any, grey: int) -> Iterator[list[tuple[float, float]]]:
    """The places, in points, of every path of a page that is filled with a grey."""
    for item in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=8):
        red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
        raw.FPDFPageObj_GetFillColor(item.raw, red, green, blue, alpha)
        mode, stroke = ctypes.c_int(), ctypes.c_int()
        raw.FPDFPath_GetDrawMode(item.raw, mode, stroke)
        if (red.value, green.value, blue.value) != (grey, grey, grey) or mode.value == 0:
            continue
        matrix = item.get_matrix()
        found = []
        for index in range(raw.FPDFPath_CountSegments(item.raw)):
            x, y = ctypes.c_float(), ctypes.c_float()
            raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(item.raw, index), x, y)
            found.append(matrix.on_point(x.value, y.value))
        yield found


def wall_length(page: Any) -> float:
    """Length in points of the one wall on a page, its outline's stroke left out."""
    (places,) = [places for places in filled_paths(page, POCHE_GREY) if len(places) > 3]
    xs = [x for x, _ in places]
    return max(xs) - min(xs)


@pytest.mark.parametrize("paper", PAPERS)
def test_ten_feet_at_a_quarter_inch_to_the_foot_are_two_and_a_half_inches(
    browser: Any, server: Any, ten_feet_id: str, tmp_path: Path, paper: str
) -> None:
    printed = Printed(browser, f"{server.url}/plans/{ten_feet_id}/sheet?paper={paper}&scale=1/4", tmp_path)
    assert wall_length(printed.pdf[PLAN]) / 72 == pytest.approx(2.5, abs=0.01)
    width, height = printed.pdf[PLAN].get_size()
    assert width / 72 * 25.4 == pytest.approx(PAPERS[paper].width, abs=0.3)
    assert height / 72 * 25.4 == pytest.approx(PAPERS[paper].height, abs=0.3)


@pytest.mark.parametrize(
    ("scale", "inches"), [("1/8", 1.25), ("3/16", 1.875), ("1:50", 120 / 50), ("1:100", 120 / 100)]
)
def test_other_scales_are_true_as_well(
    browser: Any, server: Any, ten_feet_id: str, tmp_path: Path, scale: str, inches: float
) -> None:
    printed = Printed(browser, f"{server.url}/plans/{ten_feet_id}/sheet?paper=letter&scale={scale}", tmp_path)
    assert wall_length(printed.pdf[PLAN]) / 72 == pytest.approx(inches, abs=0.01)


def font_size(text: Any, index: int) -> float:
    """Size in points of one letter of a page, as it is printed."""
    matrix = raw.FS_MATRIX()
    raw.FPDFText_GetMatrix(text.raw, index, matrix)
    return float(raw.FPDFText_GetFontSize(text.raw, index) * np.hypot(matrix.c, matrix.d))


@pytest.mark.parametrize("paper", ["letter", "tabloid", "arch_d", "a4"])
def test_every_page_is_a_sheet_with_all_its_words_on_it(
    browser: Any, server: Any, house_id: str, tmp_path: Path, paper: str
) -> None:
    printed = Printed(browser, f"{server.url}/plans/{house_id}/sheet?paper={paper}", tmp_path)
    assert len(printed.pdf) == len(printed.sheets) >= 2
    for sheet, page in zip(printed.sheets, printed.pdf, strict=True):
        width, height = page.get_size()
        text = page.get_textpage()
        title = sheet.find(f"{SVG}title")
        assert title is not None
        # pdfium reads the hyphen of a sheet's number as one that a line was broken at
        assert (title.text or "").split()[0].removeprefix("TY-") in text.get_text_bounded()
        assert text.count_chars() > 100
        for index in range(text.count_chars()):
            left, bottom, right, top = text.get_charbox(index, loose=True)
            if right - left < 1e-6:
                continue
            assert left >= 0
            assert bottom >= 0
            assert right <= width
            assert top <= height
            assert font_size(text, index) >= 6


def test_the_page_obeys_its_own_policy(browser: Any, server: Any, house_id: str, tmp_path: Path) -> None:
    printed = Printed(browser, f"{server.url}/plans/{house_id}/sheet", tmp_path)
    assert printed.refusals == []


def test_the_bar_is_on_screen_and_not_on_paper(browser: Any, server: Any, house_id: str, tmp_path: Path) -> None:
    page = browser.new_page()
    page.goto(f"{server.url}/plans/{house_id}/sheet")
    expect(page.locator("#print-now")).to_be_visible()
    page.emulate_media(media="print")
    expect(page.locator("#print-now")).to_be_hidden()
    page.close()


def test_sheets_are_as_wide_as_the_window_until_true_size_is_asked_for(
    browser: Any, server: Any, house_id: str
) -> None:
    page = browser.new_page(viewport={"width": 900, "height": 700})
    page.goto(f"{server.url}/plans/{house_id}/sheet?paper=tabloid")
    wide = "document.querySelector('.sheet svg').getBoundingClientRect().width"
    wait_until(page, f"{wide} < 900")
    page.get_by_role("button", name="True size").click()
    wait_until(page, f"Math.abs({wide} - {17 * 96}) <= 0.5")
    page.close()


def test_another_paper_is_shown_as_soon_as_it_is_chosen(browser: Any, server: Any, house_id: str) -> None:
    page = browser.new_page()
    page.goto(f"{server.url}/plans/{house_id}/sheet?paper=letter")
    page.select_option("select[name=paper]", "tabloid")
    page.wait_for_url("**paper=tabloid**")
    expect(page.locator(".sheet svg").first).to_have_attribute("width", "431.8mm")
    page.close()


@pytest.mark.parametrize("size", [(1440, 900), (390, 844)])
def test_axe_finds_nothing_serious(browser: Any, server: Any, house_id: str, size: tuple[int, int]) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    page = browser.new_page(viewport={"width": size[0], "height": size[1]}, bypass_csp=True)
    page.goto(f"{server.url}/plans/{house_id}/sheet")
    found = axe.Axe().run(page).response["violations"]
    page.close()
    assert [rule["id"] for rule in found if rule["impact"] in ("serious", "critical")] == []


def longest(sheet: ElementTree.Element, look: dict[str, str]) -> tuple[float, float, float, float]:
    """The box in mm of the broadest shape of a look that stands in the walls of a plan sheet."""
    boxes = []
    for group in sheet.iter(f"{SVG}g"):
        if group.get("class") != "walls":
            continue
        for part in group:
            if all(part.get(name) == value for name, value in look.items()):
                for path in subpaths(part.attrib["d"]):
                    xs, ys = [x for x, _ in path], [y for _, y in path]
                    boxes.append((max(xs) - min(xs), (min(xs), min(ys), max(xs), max(ys))))
    return max(boxes)[1]


def changes_along(picture: Any, box: tuple[float, float, float, float], dots: float) -> int:
    """How often a picture turns from dark to light along the middle of a box."""
    left, top, right, bottom = (round(edge * dots) for edge in box)
    margin = (right - left) // 8
    row = picture[(top + bottom) // 2, left + margin : right - margin]
    dark = row < 160
    return int(np.count_nonzero(dark[1:] != dark[:-1]))


def test_missed_glass_is_told_from_covered_glass_in_grey(
    browser: Any, server: Any, house_id: str, tmp_path: Path
) -> None:
    printed = Printed(browser, f"{server.url}/plans/{house_id}/sheet?paper=tabloid&scale=1/4", tmp_path)
    dots_per_mm = 12.0
    picture = printed.pdf[PLAN].render(scale=dots_per_mm * 25.4 / 72, grayscale=True).to_numpy().squeeze()
    missed = longest(printed.sheets[PLAN], {"stroke-dasharray": "1.5 0.7", "fill": PAPER})
    covered = longest(printed.sheets[PLAN], {"stroke": COVERED})
    assert changes_along(picture, missed, dots_per_mm) >= 8
    assert changes_along(picture, covered, dots_per_mm) == 0
