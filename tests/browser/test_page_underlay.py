"""A picture under the plan: laid, set to scale and level by pressing, locked, undone; and refused in one line."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2
import pytest

from tests.browser.conftest import PlanPage, empty_plan, one_room, playwright_api
from tests.web.picture_files import drawing, file_of, pdf

pytestmark = pytest.mark.browser
expect = playwright_api.expect
WAIT = 60_000  # ms: a PDF page is drawn by a process of its own


@pytest.fixture
def sketch(tmp_path: Path) -> Path:
    """A picture of 800 × 600 pixels with a room from pixel (80, 60) to (720, 540)."""
    path = tmp_path / "sketch.png"
    path.write_bytes(file_of(drawing(800, 600)))
    return path


def lay(house: PlanPage, path: Path) -> None:
    with house.page.expect_file_chooser() as asked:
        house.page.locator('[data-key="choose"]').click()
    asked.value.set_files(path)


def laid(house: PlanPage, path: Path) -> None:
    lay(house, path)
    expect(house.page.locator(".underlay-name")).to_contain_text(path.name, timeout=WAIT)


def pixel(house: PlanPage, u: float, v: float) -> tuple[float, float]:
    """Where a pixel of the picture is on the screen, once it is drawn as it was placed last."""
    house.settle()
    spot = house.page.evaluate(
        """([u, v]) => {
            const image = document.querySelector(".underlay");
            const spot = new DOMPoint(u, v).matrixTransform(new DOMMatrix(getComputedStyle(image).transform));
            const box = image.parentElement.getBoundingClientRect();
            return [box.left + spot.x, box.top + spot.y];
        }""",
        [u, v],
    )
    return (spot[0], spot[1])


def pick(house: PlanPage, tool: str, words: str) -> None:
    """Take up a tool of the picture."""
    house.page.get_by_role("button", name=words, exact=True).click()
    house.page.wait_for_selector(f'#drawing[data-tool="{tool}"]')


def underlays(house: PlanPage) -> list[dict[str, Any]]:
    house.page.wait_for_selector('.underlay-part[data-state="saved"]')
    answer: list[dict[str, Any]] = house.page.request.get(f"{house.server.url}/api/plans/{house.id}/underlays").json()
    return answer


def test_a_picture_is_set_to_scale_moved_locked_and_undone(open_plan: Any, sketch: Path) -> None:
    house = open_plan(empty_plan())
    laid(house, sketch)
    before = underlays(house)
    pick(house, "underlay_scale", "Set scale")
    house.page.mouse.click(*pixel(house, 80, 540))
    house.page.mouse.click(*pixel(house, 720, 540))
    house.page.wait_for_selector("#length-box:not([hidden])")
    house.type_length("32'")
    assert underlays(house)[0]["placement"]["scale"] == pytest.approx(0.05, rel=0.01)

    pick(house, "underlay_move", "Move")
    house.page.mouse.click(*pixel(house, 80, 540))
    house.press(0, 0)
    house.wait_step("Move the picture")
    placement = underlays(house)[0]["placement"]
    assert placement["origin"] == pytest.approx([-4, 27], abs=0.3)

    house.page.locator('[data-key="locked"]').check()
    expect(house.page.get_by_role("button", name="Set scale")).to_be_disabled()
    for _ in range(3):
        house.key("Control+z")
    assert [each["placement"] for each in underlays(house)] == [each["placement"] for each in before]
    house.key("Control+z")
    assert underlays(house) == []
    for _ in range(4):
        house.key("Control+y")
    assert underlays(house)[0]["placement"] == placement | {"locked": True}
    assert house.server.plan(house.id)["levels"][0]["walls"] == []  # the plan file knows nothing of it


def test_a_picture_is_levelled_by_a_line_and_drawn_behind_the_walls(open_plan: Any, sketch: Path) -> None:
    house = open_plan(one_room())
    laid(house, sketch)
    house.page.locator("#drawing").focus()
    house.zoom_out()
    turn = house.page.locator('[data-key="turn"]')
    turn.fill("7")
    turn.press("Enter")
    pick(house, "underlay_level", "Level")
    house.page.mouse.click(*pixel(house, 80, 60))
    house.page.mouse.click(*pixel(house, 720, 60))
    house.wait_step("Level the picture")
    assert underlays(house)[0]["placement"]["turn"] == pytest.approx(0, abs=0.3)
    assert house.page.evaluate(
        "document.querySelector('.underlay').compareDocumentPosition(document.querySelector('#drawing')) & 4"
    )
    expect(house.page.locator(".floor").first).to_have_css("fill", "none")


def test_the_keyboard_alone_picks_places_and_types_the_distance(open_plan: Any, sketch: Path) -> None:
    house = open_plan(empty_plan())
    laid(house, sketch)
    scale = underlays(house)[0]["placement"]["scale"]
    house.page.get_by_role("button", name="Set scale").focus()
    house.key("Enter")
    house.page.wait_for_selector('#drawing[data-tool="underlay_scale"]')
    house.page.locator("#drawing").focus()
    house.key("ArrowRight", "Enter", *["Control+ArrowRight"] * 2, "Enter")
    house.type_length("20'")
    assert underlays(house)[0]["placement"]["scale"] == pytest.approx(2 * scale, rel=1e-6)


def test_each_level_has_its_own_and_a_page_of_a_pdf_is_chosen(open_plan: Any, tmp_path: Path) -> None:
    plan = empty_plan()
    plan["levels"].append({"id": "L2", "name": "Upstairs", "elevation": 10})
    house = open_plan(plan)
    sheets = tmp_path / "sheets.pdf"
    sheets.write_bytes(pdf((8.5, 11), (36, 24)))
    lay(house, sheets)
    house.page.get_by_role("button", name="Page 2").click()
    expect(house.page.locator(".underlay-name")).to_contain_text("6000 × 4000", timeout=WAIT)
    house.page.locator('[data-key="paper"]').select_option(label='1/4" = 1\'-0"')
    kept = underlays(house)
    assert [each["level"] for each in kept] == ["L1"]
    assert kept[0]["placement"]["scale"] * kept[0]["width"] == pytest.approx(36 * 4)
    house.page.get_by_role("button", name="Upstairs").click()
    expect(house.page.get_by_role("button", name="Choose a picture or PDF…")).to_be_visible()
    expect(house.page.locator(".underlay")).to_be_hidden()


def test_a_file_that_cannot_be_used_is_told_in_one_line(open_plan: Any, tmp_path: Path) -> None:
    house = open_plan(empty_plan())
    broken = tmp_path / "broken.png"
    broken.write_bytes(b"\x89PNG\r\n\x1a\n" + b"no picture" * 9)
    lay(house, broken)
    expect(house.page.locator("#said-urgent")).to_contain_text("The PNG file is broken", timeout=WAIT)
    assert underlays(house) == []


def test_a_picture_is_dropped_and_pasted(open_plan: Any) -> None:
    house = open_plan(empty_plan())
    give = """async ([kind, name]) => {
        const canvas = document.createElement("canvas");
        [canvas.width, canvas.height] = [200, 100];
        const blob = await new Promise((done) => canvas.toBlob(done, "image/png"));
        const data = new DataTransfer();
        data.items.add(new File([blob], name, { type: "image/png" }));
        const target = kind === "drop" ? document.querySelector("#drawing") : document.body;
        const event = kind === "drop"
            ? new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true })
            : new ClipboardEvent("paste", { clipboardData: data, bubbles: true });
        target.dispatchEvent(event);
    }"""
    house.page.evaluate(give, ["drop", "dropped.png"])
    expect(house.page.locator(".underlay-name")).to_contain_text("dropped.png", timeout=WAIT)
    house.page.evaluate(give, ["paste", "pasted.png"])
    expect(house.page.locator(".underlay-name")).to_contain_text("pasted.png", timeout=WAIT)
    assert math.isclose(underlays(house)[0]["width"], 200)


@pytest.mark.parametrize("width", [1440, 390])
def test_axe_finds_nothing_serious_with_a_picture(open_plan: Any, sketch: Path, width: int) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    house = open_plan(one_room())
    laid(house, sketch)
    house.resize(width, 844)
    found = axe.Axe().run(house.page).response["violations"]
    assert [fault["id"] for fault in found if fault["impact"] in ("serious", "critical")] == []
    assert house.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_it_is_printed_when_asked_and_the_browser_s_print_is_the_pdf(
    open_plan: Any, sketch: Path, tmp_path: Path
) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.page.get_by_role("button", name="Handover").first.click()
    part = house.page.locator(".print-set")
    expect(part.get_by_label("Paper")).to_be_visible()
    expect(part.get_by_label("Pictures under levels")).to_have_count(0)
    house.page.get_by_role("button", name="Shell").first.click()
    laid(house, sketch)
    house.page.get_by_role("button", name="Handover").first.click()
    expect(part.get_by_label("Pictures under levels")).to_have_value("")
    part.get_by_label("Pictures under levels").select_option("faded")
    with house.page.expect_download(timeout=120_000) as download:
        part.get_by_role("button", name="Make PDF").click()
    download.value.save_as(tmp_path / "made.pdf")
    with house.page.context.expect_page() as opened:
        part.get_by_role("link", name="Print page").click()
    expect(opened.value.get_by_label("Pictures under levels")).to_have_value("faded")
    opened.value.wait_for_load_state()  # with its pictures
    opened.value.pdf(path=str(tmp_path / "printed.pdf"), prefer_css_page_size=True, print_background=True)
    made, printed = (door_of(tmp_path / name) for name in ("made.pdf", "printed.pdf"))
    assert printed == pytest.approx(made, abs=0.3)
    opened.value.get_by_label("Pictures under levels").select_option("")
    expect(opened.value.locator(".sheet image")).to_have_count(0)


def door_of(path: Path) -> tuple[float, float]:
    """Where on the plan sheet, in mm, the middle of the picture's faded red door is printed."""
    page = pypdfium2.PdfDocument(path)[1].render(scale=150 / 72).to_pil().convert("RGB")
    red, green, blue = np.moveaxis(np.asarray(page, dtype=int), 2, 0)
    rows, columns = np.nonzero((red > 240) & (abs(green - blue) < 4) & (green > 140) & (green < 200))
    assert len(rows) > 20
    return (float(columns.mean()) * 25.4 / 150, float(rows.mean()) * 25.4 / 150)
