"""Templates and everything as one file, as people use them: made, taken over, undone, begun with, sent, brought in."""

from __future__ import annotations

import json
import re
import time
import urllib.request
from collections.abc import Iterator
from typing import Any

import pytest

from app.storage.opening import open_folder
from app.storage.pack.writing import write_pack
from tests.browser.conftest import PATIENCE, PlanPage, Server, one_room, playwright_api, resize
from tests.web.picture_files import drawing, file_of

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def asked(server: Server, path: str) -> Any:
    with urllib.request.urlopen(f"{server.url}{path}", timeout=30) as answer:
        return json.load(answer)


def keep(server: Server, **template: Any) -> str:
    body = json.dumps(template).encode()
    request = urllib.request.Request(
        f"{server.url}/api/templates", data=body, headers={"Content-Type": "application/json"}
    )
    with urllib.request.urlopen(request, timeout=30) as answer:
        kept: str = json.load(answer)["id"]
    return kept


@pytest.fixture
def page(browser: Any) -> Iterator[Any]:
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    context.set_default_timeout(PATIENCE * 1000)
    faults: list[str] = []
    opened = context.new_page()
    opened.on("pageerror", lambda error: faults.append(str(error)))
    yield opened
    context.close()
    assert not faults, faults


def handover(house: PlanPage) -> Any:
    house.page.get_by_role("button", name="Handover").first.click()
    part = house.page.locator(".part", has_text="Templates and letterhead")
    expect(part.locator("select option").first).to_have_text(re.compile("^(Choose a template…|None is kept yet)$"))
    return part


def company_of(server: Server, plan_id: str) -> str:
    kept: str = asked(server, f"/api/plans/{plan_id}/letterhead")["stationery"]["letterhead"]["company"]
    return kept


def wait_for_company(house: PlanPage, company: str) -> None:
    """Wait until the server has a letterhead, which is sent after the change."""
    until = time.monotonic() + PATIENCE
    while (kept := company_of(house.server, house.id)) != company:
        assert time.monotonic() < until, f"the letterhead is {kept!r}"
        house.page.wait_for_timeout(100)


def test_a_template_is_looked_at_taken_over_and_undone_in_one_step(open_plan: Any, server: Server) -> None:
    name = "Brick houses"
    keep(server, name=name, practice={"glass.range": 18}, letterhead={"company": "Larkspur", "designer": "R. Quill"})
    house = open_plan(one_room())
    before = house.saved()
    part = handover(house)
    part.locator("select").select_option(label=name)
    for words in ("glass: range", "15'-0\"", "18'-0\"", "Designer", "Letterhead: company", "Larkspur"):
        expect(part.locator(".template-changes")).to_contain_text(words, use_inner_text=True)
    part.get_by_role("button", name="Take it over").click()
    after = house.saved()
    assert after["practice"] == {"glass.range": 18}
    assert after["site"]["designer"] == "R. Quill"
    expect(part.locator(".letterhead")).to_contain_text("Larkspur")
    wait_for_company(house, "Larkspur")
    house.page.locator("#undo").click()
    assert house.saved() == before
    wait_for_company(house, "")


def test_a_plan_s_own_values_are_kept_as_a_template(open_plan: Any, server: Server) -> None:
    plan = one_room()
    plan |= {"units": "metric", "practice": {"cable.waste": 0.2}, "site": {"designer": "R. Quill\nLarkspur"}}
    house = open_plan(plan)
    part = handover(house)
    part.get_by_label("Name of the new template").fill("Stone houses")
    part.get_by_role("button", name="Keep as template").click()
    expect(part.locator("select")).to_contain_text("Stone houses")
    made = next(
        each["template"] for each in asked(server, "/api/templates") if each["template"]["name"] == "Stone houses"
    )
    assert (made["units"], made["practice"], made["letterhead"]["designer"]) == (
        "metric",
        {"cable.waste": 0.2},
        "R. Quill",
    )
    part.get_by_label("Name of the new template").fill("stone houses")
    part.get_by_role("button", name="Keep as template").click()
    expect(part.get_by_role("alert")).to_contain_text("is there already")


def test_a_template_is_made_filled_in_made_usual_and_removed(page: Any, server: Server) -> None:
    page.goto(f"{server.url}/templates")
    page.get_by_label("Name of a new template").fill("Timber houses")
    page.get_by_role("button", name="Make it", exact=True).click()
    card = page.locator(".template", has_text="Timber houses")
    card.get_by_label("Company").fill("Larkspur")
    card.get_by_label("Another design value").select_option("motion.range")
    card.locator('[data-key="motion.range"]').fill("35")
    card.locator('[data-key="motion.range"]').press("Enter")
    card.get_by_role("button", name="Save").click()
    expect(page.locator("#told")).to_contain_text("is saved")
    card.get_by_role("button", name="Make it the usual one").click()
    expect(card.locator(".usual")).to_be_visible()
    kept = asked(server, "/api/templates")[0]
    assert (kept["template"]["name"], kept["template"]["usual"]) == ("Timber houses", True)
    assert kept["template"]["practice"] == {"motion.range": 35}
    assert kept["template"]["letterhead"]["company"] == "Larkspur"
    page.on("dialog", lambda dialog: dialog.accept())
    card.get_by_role("button", name="Remove").click()
    expect(page.locator("#told")).to_contain_text("is removed")
    assert "Timber houses" not in [each["template"]["name"] for each in asked(server, "/api/templates")]


def test_a_new_plan_begins_with_a_shell_and_a_template(page: Any, server: Server) -> None:
    kept = keep(server, name="Clay houses", practice={"glass.range": 16}, letterhead={"company": "Larkspur"})
    page.goto(server.url)
    page.get_by_label("Name").fill("12 Thistle Bank")
    page.get_by_label("Start from").select_option(label="Two-storey shell")
    page.get_by_label("With the template").select_option(kept)
    page.get_by_role("button", name="Make the plan").click()
    page.wait_for_url("**/plans/*")
    plan_id = page.url.rpartition("/")[2]
    plan = server.plan(plan_id)
    assert (plan["name"], plan["practice"], len(plan["levels"])) == ("12 Thistle Bank", {"glass.range": 16}, 2)
    assert company_of(server, plan_id) == "Larkspur"


def test_a_new_plan_begins_with_a_plan_of_one_s_own_without_its_client(page: Any, server: Server) -> None:
    plan = one_room() | {"name": "9 Alder Row", "site": {"client": "The Larches", "designer": "R. Quill"}}
    source = server.add(plan)
    place = f"{server.url}/api/plans/{source}/levels/{plan['levels'][0]['id']}/underlay?name=sketch.png"
    laid = page.request.post(place, data=file_of(drawing()), headers={"Content-Type": "image/png"})
    assert laid.status == 201
    page.goto(server.url)
    page.get_by_label("Name").fill("11 Alder Row")
    page.get_by_label("Start from").select_option(label="9 Alder Row")
    page.get_by_role("button", name="Make the plan").click()
    page.wait_for_url("**/plans/*")
    begun = server.plan(page.url.rpartition("/")[2])
    assert begun["levels"][0]["walls"] == server.plan(server.add(plan))["levels"][0]["walls"]
    assert (begun["name"], begun["site"]["client"], begun["site"]["designer"]) == ("11 Alder Row", "", "R. Quill")
    (picture,) = asked(server, f"/api/plans/{page.url.rpartition('/')[2]}/underlays")
    assert (picture["name"], picture["placement"]) == ("sketch.png", laid.json()["placement"])


def test_everything_is_exported_and_imported(page: Any, server: Server, tmp_path: Any) -> None:
    page.goto(server.url)
    with page.expect_download() as asked_for:
        page.get_by_role("link", name="Export everything").click()
    mine = tmp_path / "mine.zip"
    asked_for.value.save_as(mine)
    page.locator("#pack-file").set_input_files(mine)
    expect(page.locator("#came")).to_contain_text("0 of")
    other = open_folder(tmp_path / "other")
    with (tmp_path / "other.zip").open("wb") as file:
        write_pack(other.engine, file)
    other.close()
    page.locator("#pack-file").set_input_files(tmp_path / "other.zip")
    expect(page.locator("#came")).to_contain_text("nothing that was here was changed")
    notes = tmp_path / "notes.zip"
    notes.write_text("no zip")
    page.locator("#pack-file").set_input_files(notes)
    expect(page.locator("#faults")).to_contain_text("notes.zip: this is no pack")


@pytest.mark.parametrize("width", [1440, 390])
def test_axe_finds_nothing_serious_on_both_pages(page: Any, server: Server, width: int) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    keep(server, name=f"Chalk houses {width}", practice={"glass.range": 16})
    resize(page, width, 844)
    for path in ("/", "/templates"):
        page.goto(f"{server.url}{path}")
        if path == "/templates":
            page.locator(".template summary").first.click()
            expect(page.locator(".template[open]")).to_have_count(1)
        found = axe.Axe().run(page).response["violations"]
        assert [fault["id"] for fault in found if fault["impact"] in ("serious", "critical")] == [], path
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), path
