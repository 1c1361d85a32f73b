"""The printed set in the step Handover: chosen, shown as a page, made as a PDF that can be stopped."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from tests.browser.conftest import one_room, playwright_api

pdfium = pytest.importorskip("pypdfium2", reason='get it with: pip install -e ".[test]"')
pytestmark = pytest.mark.browser
expect = playwright_api.expect
SAMPLES = Path(__file__).parents[2] / "sample_plans"


def part_of(house: Any) -> Any:
    house.page.get_by_role("button", name="Handover").first.click()
    part = house.page.locator(".print-set")
    expect(part).to_be_visible()
    return part


def test_a_chosen_set_is_saved_as_pdf_with_the_sheets_of_its_page(open_plan: Any, tmp_path: Path) -> None:
    plan = one_room(at=[4, 14])
    plan["name"] = "House 東京"
    house = open_plan(plan)
    part = part_of(house)
    part.get_by_label("Set").select_option("crew")
    expect(part.locator(".set-about")).to_contain_text("To wire from")
    part.get_by_label("Sheet habit").select_option("iso")
    expect(part.get_by_label("Paper")).to_contain_text("Usual: A4")
    part.get_by_label("Paper").select_option("a3")
    part.get_by_label("Scale of plans").select_option("1:100")
    with house.page.expect_download(timeout=120_000) as download:
        part.get_by_role("button", name="Make PDF").click()
    made = tmp_path / "set.pdf"
    download.value.save_as(made)
    assert download.value.suggested_filename == f"{house.id}-crew.pdf"
    document = pdfium.PdfDocument(made)
    expect(part.get_by_role("status")).to_contain_text(f"{len(document)} sheets in one PDF")
    expect(part.locator(".lacking")).to_contain_text("東 京")
    with house.page.context.expect_page() as opened:
        part.get_by_role("link", name="Print page").click()
    sheets = opened.value.locator(".sheet")
    expect(sheets).to_have_count(len(document))
    expect(sheets.first.locator("svg")).to_have_attribute("width", "420mm")
    expect(opened.value.locator(".print-lacking")).to_contain_text("House 東京")


def test_a_set_is_stopped_and_no_file_is_made(open_plan: Any) -> None:
    house = open_plan(json.loads((SAMPLES / "amber-ridge.json").read_text(encoding="utf-8")))
    part = part_of(house)
    part.get_by_label("Scale of plans").select_option("1/4")
    saved: list[Any] = []
    house.page.on("download", lambda download: saved.append(download))
    part.get_by_role("button", name="Make PDF").click()
    part.get_by_role("button", name="Stop").click()
    expect(part.get_by_role("status")).to_have_text("Stopped; no file was made.")
    expect(part.get_by_role("button", name="Make PDF")).to_be_enabled()
    assert saved == []


def test_an_earlier_revision_can_be_chosen(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    part = part_of(house)
    part.get_by_label("Revision", exact=True).select_option("1")
    expect(part.get_by_role("link", name="Print page")).to_have_attribute("href", re.compile("revision=1"))
