"""Files of the step Handover: what is saved is the plan on the page, and sharing asks before anything leaves."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from tests.browser.conftest import playwright_api
from tests.documents.handed_over import value

pytestmark = pytest.mark.browser
expect = playwright_api.expect
ASK = "Make a page to share"


@pytest.fixture
def handover(open_plan: Any) -> Any:
    house = open_plan(value(name="Lark Lane 3"))
    house.page.get_by_role("button", name="Handover").first.click()
    house.page.wait_for_selector(".handover-files")
    return house


def saved(house: Any, button: str) -> tuple[str, bytes]:
    """The name and the bytes of what a button saves."""
    with house.page.expect_download() as waiting:
        house.page.get_by_role("button", name=button).click()
    return waiting.value.suggested_filename, Path(waiting.value.path()).read_bytes()


def test_every_button_saves_its_file(handover: Any) -> None:
    name, book = saved(handover, "Workbook (XLSX)")
    assert name == "lark-lane-3-r1-tables.xlsx"
    assert "Devices" in openpyxl.load_workbook(io.BytesIO(book)).sheetnames
    assert saved(handover, "CSV files (ZIP)")[1].startswith(b"PK")
    assert b"AC1024" in saved(handover, "All levels (DXF)")[1]
    assert b"A-WALL-CNTR" in saved(handover, "This level (DXF)")[1]
    assert saved(handover, "Plan at true scale (SVG)")[1].startswith(b"<?xml")
    handover.page.get_by_text("handed to your browser").wait_for()


def test_a_change_is_in_the_file_though_it_was_not_saved_yet(handover: Any) -> None:
    handover.page.locator("#plan-name").fill("Lark Lane 5")
    name, _ = saved(handover, "CSV files (ZIP)")
    assert name == "lark-lane-5-r2-tables.zip"


def test_sharing_asks_first_and_leaves_out_what_is_ticked(handover: Any) -> None:
    page = handover.page
    page.get_by_role("button", name=ASK).click()
    question = page.locator("dialog.share-question")
    question.get_by_role("group", name="Leave out").wait_for()
    expect(question).to_contain_text("shows where every detector is", use_inner_text=True)
    expect(question).to_contain_text("4 panes of glass", use_inner_text=True)
    question.get_by_label("the plan's name").check()
    name, shared = saved(handover, "I know what it shows")
    assert name == "security-plan-r1.html"
    assert b"Lark Lane" not in shared


def test_keeping_it_here_saves_nothing_and_gives_the_focus_back(handover: Any) -> None:
    page = handover.page
    taken: list[str] = []
    page.on("download", lambda file: taken.append(file.url))
    page.get_by_role("button", name=ASK).click()
    page.get_by_role("button", name="Keep it here").click()
    expect(page.locator("dialog.share-question")).to_be_hidden()
    handover.wait_until(f"document.activeElement.textContent.startsWith('{ASK}')")
    assert not taken


def test_a_refusal_is_told_beside_the_button(handover: Any) -> None:
    handover.page.route("**/plan.dxf*", lambda route: route.fulfill(status=503, json={"detail": "busy; try again"}))
    handover.page.get_by_role("button", name="All levels (DXF)").click()
    handover.page.get_by_text("No file: busy; try again").wait_for()
