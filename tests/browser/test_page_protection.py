"""The views of step Proof in a real browser: stay and away, entry, ways in, sound; practice; accepted findings."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import one_room

pytestmark = pytest.mark.browser


def guarded_house() -> dict[str, Any]:
    """The one room with a bedroom beside it: a front door with contact and keypad, a bare window, a motion, a siren."""
    plan = one_room(at=[24, 8])
    level = plan["levels"][0]
    level["walls"].append({"id": "w5", "a": [14, 0], "b": [14, 20]})
    level["openings"] += [
        {"id": "front", "wall": "w1", "kind": "door", "offset": 18, "width": 3},
        {"id": "inner", "wall": "w5", "kind": "door", "offset": 12, "width": 3},
        {"id": "bare", "wall": "w4", "kind": "window", "offset": 8, "width": 4, "sill": 3, "head": 6.5},
    ]
    level["rooms"] = [
        {"id": "r1", "name": "Great room", "use": "great_room", "at": [22, 12]},
        {"id": "r2", "name": "Bedroom", "use": "bedroom", "at": [6, 15]},
    ]
    level["fixtures"] = [{"id": "bed1", "kind": "bed", "at": [4, 16], "height": 2}]
    level["devices"] += [
        {"id": "c1", "kind": "door_contact", "label": "DC-1", "at": [19.5, 0], "serves": ["front"]},
        {"id": "k1", "kind": "keypad", "label": "KP-1", "at": [14.3, 4], "facing": 0},
        {"id": "m1", "kind": "motion", "label": "MD-1", "at": [29.6, 19.6], "facing": 225},
        {"id": "s1", "kind": "siren", "label": "SR-1", "at": [20, 19.7], "facing": 270},
    ]
    return plan


def show(house: Any, view: str) -> Any:
    """Open a view of step Proof and wait for its answer."""
    house.page.get_by_role("navigation", name="Steps").get_by_role("button", name="Proof").click()
    house.page.locator(f"#view-{view}").click()
    expect(house.page.locator(".protection-state")).to_be_hidden()
    return house.page.locator(f"#view-{view}-panel")


def test_stay_and_away_tell_what_guards_each_opening_in_table_and_drawing(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    panel = show(house, "guards")
    row = panel.locator('tr[data-thing="o1"]')
    expect(row.locator("td").nth(0)).to_contain_text("unguarded")
    expect(row.locator("td").nth(1)).to_contain_text("inside only")
    expect(row.locator("td").nth(1)).to_contain_text("MD-1")
    expect(panel.locator('tr[data-thing="front"] td').nth(0)).to_contain_text("DC-1")
    over = house.page.locator(".protection-over")
    expect(over.locator(".guarded.watch-nothing")).to_have_count(2)
    expect(over.get_by_text("off", exact=True)).to_have_count(1)
    expect(panel.locator(".loses")).to_contain_text("With motion off")
    panel.get_by_label("Away").check()
    expect(over.locator(".guarded.watch-inside")).to_have_count(1)
    expect(over.locator(".told.inside")).to_have_text("inside only")
    expect(over.get_by_text("off", exact=True)).to_have_count(0)


def test_leaving_the_view_or_the_step_clears_the_drawing(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    show(house, "guards")
    over = house.page.locator(".protection-over > *")
    expect(over.first).to_be_attached()
    house.page.locator("#view-findings").click()
    expect(over).to_have_count(0)
    show(house, "guards")
    expect(over.first).to_be_attached()
    house.page.get_by_role("navigation", name="Steps").get_by_role("button", name="Shell").click()
    expect(over).to_have_count(0)
    house.wait_until("!('view' in document.body.dataset)")


def test_it_is_asked_for_only_while_a_view_is_open_and_anew_after_a_change(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    asked: list[str] = []
    house.page.on("request", lambda request: asked.append(request.url) if "/protection" in request.url else None)
    house.drag((24, 8), (23, 9))
    house.wait_saved()
    assert not [url for url in asked if url.endswith("/protection")]
    panel = show(house, "guards")
    assert len([url for url in asked if url.endswith("/protection")]) == 1
    house.press(19.5, 0)
    house.key("Delete")
    house.wait_saved()
    expect(house.page.locator(".protection-state")).to_be_hidden()
    expect(panel.locator('tr[data-thing="front"] td').nth(0)).to_contain_text("no contact")
    assert len([url for url in asked if url.endswith("/protection")]) == 2


def test_an_answer_of_an_older_plan_says_so_and_is_made_good(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    panel = show(house, "guards")
    state, over = house.page.locator(".protection-state"), house.page.locator(".protection-over")
    expect(over).not_to_have_class(re.compile("out-of-date"))
    house.page.route("**/protection", lambda route: route.abort())
    house.press(19.5, 0)
    house.key("Delete")
    expect(state).to_contain_text("could not be worked out: the server does not answer")
    expect(over).to_have_class(re.compile("out-of-date"))
    house.page.unroute("**/protection")
    house.page.locator("#view-guards").click()
    expect(state).to_be_hidden()
    expect(over).not_to_have_class(re.compile("out-of-date"))
    expect(panel.locator('tr[data-thing="front"] td').nth(0)).to_contain_text("no contact")


def test_the_entry_path_is_drawn_with_feet_and_seconds(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    panel = show(house, "entry")
    expect(panel.locator("tbody tr")).to_have_count(1)
    expect(panel.locator("tbody tr")).to_contain_text("KP-1")
    expect(house.page.locator(".protection-over .walk.entry")).to_have_count(1)
    expect(house.page.locator(".protection-over .told.entry")).to_contain_text(re.compile(r"\d+'-\d+\" · \d+ of 30 s"))


def test_a_chosen_way_in_is_drawn_with_who_notices_first_and_after_how_many_feet(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    panel = show(house, "ways")
    expect(panel.locator(".unseen-list li")).not_to_have_count(0)
    expect(panel.locator(".unseen-list li").first).to_contain_text("nobody notices")
    panel.get_by_label("Away").check()
    panel.locator(".every-way").get_by_role("button", name="Window bare").click()
    card = panel.get_by_role("region", name="The chosen way in")
    expect(card).to_contain_text("Window bare")
    card.locator("select").select_option("r1")
    expect(card.locator(".notices li").first).to_contain_text("MD-1 sees after")
    over = house.page.locator(".protection-over")
    expect(over.locator(".walk.unseen")).to_have_count(1)
    expect(over.locator(".stop.notice")).to_have_text("1")
    expect(over.locator(".told.noticed")).to_contain_text("MD-1 sees")
    house.press(19, 0.1)
    expect(card).to_contain_text("Door front")
    expect(card.locator(".notices li").first).to_contain_text("DC-1 opened")


def test_sound_is_told_at_beds_with_rings_and_cautions(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    panel = show(house, "sound")
    expect(panel.get_by_role("region", name="Levels at the beds").locator("tbody tr")).to_contain_text("dBA")
    expect(house.page.locator(".protection-over .sound-ring").first).to_be_attached()
    expect(panel).to_contain_text("harm hearing")
    expect(panel).to_contain_text("nothing here claims to meet a fire rule")


def test_the_views_are_reached_by_arrow_keys(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    show(house, "guards")
    house.page.locator("#view-guards").focus()
    house.key("ArrowRight", "ArrowRight")
    expect(house.page.locator("#view-ways")).to_be_focused()
    expect(house.page.get_by_role("tab", selected=True)).to_have_text("Ways in")


@pytest.mark.parametrize("width", [1440, 390])
@pytest.mark.parametrize("view", ["guards", "entry", "ways", "sound", "practice", "findings"])
def test_axe_finds_nothing_serious(open_plan: Any, view: str, width: int) -> None:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    house = open_plan(guarded_house())
    house.resize(width, 900)
    panel = show(house, view)
    panel.locator("details").evaluate_all("(all) => all.forEach((one) => (one.open = true))")
    house.settle()
    found = axe.Axe().run(house.page).response["violations"]
    assert [(one["id"], one["nodes"][0]["html"]) for one in found if one["impact"] in ("serious", "critical")] == []
    assert house.page.evaluate("() => document.documentElement.scrollWidth <= innerWidth")


def test_a_changed_practice_judges_anew_and_goes_back_to_default(open_plan: Any) -> None:
    house = open_plan(one_room(at=[24, 8]))
    house.wait_strip("1 of 1 panes covered")
    house.page.get_by_role("navigation", name="Steps").get_by_role("button", name="Proof").click()
    house.page.locator("#view-practice").click()
    house.page.locator(".practice-group summary", has_text="Glass breaks").click()
    reach = house.page.locator('[data-value="glass.range"]')
    reach.locator("input").fill("2 ft")
    house.key("Enter")
    house.wait_strip("0 of 1 panes covered")
    assert house.saved()["practice"] == {"glass.range": 2.0}
    reach.get_by_role("button", name="range back to default").click()
    house.wait_strip("1 of 1 panes covered")
    assert not house.saved().get("practice")


def test_a_list_of_numbers_is_edited_within_its_bounds(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.page.get_by_role("navigation", name="Steps").get_by_role("button", name="Proof").click()
    house.page.locator("#view-practice").click()
    house.page.locator(".practice-group summary", has_text="Cable").click()
    sizes = house.page.locator('.whole [data-value="cable.box_sizes"]')
    sizes.locator("input").fill("250, 20")
    expect(sizes.locator(".fault")).to_contain_text("each from 50 to 10000")
    sizes.locator("input").fill("250, 500")
    house.key("Tab")
    expect(sizes).to_have_class(re.compile("changed"))
    assert house.saved()["practice"] == {"cable.box_sizes": [250, 500]}
    house.page.get_by_role("button", name="All back to default").click()
    assert not house.saved().get("practice")


def test_a_finding_is_accepted_with_reason_and_name_printed_and_taken_back(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.page.get_by_role("navigation", name="Steps").get_by_role("button", name="Proof").click()
    panel = house.page.locator("#view-findings-panel")
    finding = panel.locator("li", has_text="uncovered").first
    finding.get_by_role("button", name=re.compile("^Accept: ")).click()
    form = panel.get_by_role("form", name="Accept this finding")
    form.get_by_label("Reason").fill("shuttered - from inside")
    form.get_by_label("Name").fill("J. Ash")
    house.key("Enter")
    accepted = panel.locator("li.accepted")
    expect(accepted).to_contain_text("Accepted by J. Ash: shuttered - from inside")
    notes = house.saved()["site"]["notes"]
    assert notes == "accepted glass.uncovered o1/1: shuttered - from inside - J. Ash"
    sheet = house.page.request.get(f"{house.server.url}/plans/{house.id}/sheet")
    words = " ".join(re.findall(r">([^<]+)<", sheet.text()))
    assert "J. Ash" in words
    accepted.get_by_role("button", name=re.compile("^Take back")).click()
    expect(accepted).to_have_count(0)
    expect(panel.locator("li", has_text="uncovered").first).to_be_visible()
    assert "accepted" not in house.saved()["site"]["notes"]


def test_one_press_puts_contacts_on_the_openings_of_a_room_and_undo_takes_them_back(open_plan: Any) -> None:
    house = open_plan(guarded_house())
    house.page.get_by_role("navigation", name="Steps").get_by_role("button", name="Devices").click()
    part = house.page.get_by_role("region", name="Contacts on every opening")
    part.locator("select").select_option("r2")
    part.get_by_role("button", name="Put contacts").click()
    expect(part.get_by_role("status")).to_contain_text("1 contact put: Bedroom")
    contacts = [device for device in house.saved()["levels"][0]["devices"] if device["kind"] == "window_contact"]
    assert [(device["label"], device["serves"]) for device in contacts] == [("WC-1", ["bare"])]
    part.locator("select").select_option("")
    part.get_by_role("button", name="Put contacts").click()
    expect(part.get_by_role("status")).to_contain_text("1 contact put: Every opening")
    part.get_by_role("button", name="Put contacts").click()
    expect(part.get_by_role("status")).to_contain_text("Nothing to put")
    house.key("Control+z", "Control+z")
    assert not [one for one in house.saved()["levels"][0]["devices"] if one["kind"] == "window_contact"]
