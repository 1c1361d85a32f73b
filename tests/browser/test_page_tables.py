"""Every table of the page sorts, copies and downloads; the table of things has every kind and leads to each."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest

from tests.browser.conftest import one_room, playwright_api

pytestmark = pytest.mark.browser
expect = playwright_api.expect


def _house(open_plan: Any) -> Any:
    plan = one_room(at=[4, 14])
    level = plan["levels"][0]
    level["devices"] += [
        {"id": "can1", "kind": "can", "at": [2, 2], "label": "CAN-1"},
        {"id": "wc1", "kind": "window_contact", "at": [26, 0], "serves": ["o1"], "label": "=1+1"},
        {"id": "sm1", "kind": "smoke", "at": [15, 10], "cable": "18/4"},
    ]
    level["fixtures"] = [{"id": "f1", "kind": "chime", "at": [20, 19], "height": 7}]
    plan["levels"].append({"id": "L2", "name": "Upper floor", "elevation": 10})
    plan["risers"] = [{"id": "riser-1", "at": [1, 1], "from": "L1", "to": "L2"}]
    return open_plan(plan)


def _things(house: Any) -> None:
    house.page.locator("#things summary").click()
    house.page.wait_for_selector("#things tbody tr")


def _names(house: Any) -> Any:
    return house.page.locator("#things tbody tr > :nth-child(1)")


def test_the_table_of_things_has_every_kind(open_plan: Any) -> None:
    house = _house(open_plan)
    _things(house)
    for name in ("Wall w1", "Window o1", "Great room", "Doorbell chime f1", "GB-1", "CAN-1", "SM sm1", "Riser riser-1"):
        expect(_names(house).filter(has_text=name)).not_to_have_count(0)
    house.page.locator("#things select").select_option("risers")
    expect(_names(house)).to_have_text(["Riser riser-1"], use_inner_text=True)


def test_a_thing_is_chosen_from_the_table_by_keyboard(open_plan: Any) -> None:
    house = _house(open_plan)
    _things(house)
    house.page.get_by_role("button", name="CAN-1").focus()
    house.key("Enter")
    house.page.wait_for_selector(".device.selected[data-id=can1]")
    expect(house.page.locator("#things tr.chosen th")).to_have_text("CAN-1", use_inner_text=True)


def test_heads_sort_and_say_so(open_plan: Any) -> None:
    house = _house(open_plan)
    _things(house)
    head = house.page.get_by_role("columnheader", name="Thing")
    house.page.get_by_role("button", name="Thing", exact=True).click()
    expect(head).to_have_attribute("aria-sort", "ascending")
    names = _names(house).all_inner_texts()
    assert names[0] == "=1+1"
    assert names[1:] == sorted(names[1:], key=str.lower)
    house.page.get_by_role("button", name="Thing", exact=True).click()
    expect(head).to_have_attribute("aria-sort", "descending")
    expect(_names(house)).to_have_text(names[::-1], use_inner_text=True)


def test_a_sorted_table_stays_sorted_when_the_plan_changes(open_plan: Any) -> None:
    house = _house(open_plan)
    _things(house)
    house.page.get_by_role("button", name="Thing", exact=True).click()
    expect(house.page.get_by_role("columnheader", name="Thing")).to_have_attribute("aria-sort", "ascending")
    before = _names(house).all_inner_texts()
    place = house.page.locator("#things tr[data-thing=gb1] td").first
    was = place.inner_text()
    house.drag((4, 14), (20, 10))
    house.wait_saved()
    expect(place).not_to_have_text(was, use_inner_text=True)
    expect(_names(house)).to_have_text(before, use_inner_text=True)


def test_copied_rows_are_separated_by_tabs(open_plan: Any) -> None:
    house = _house(open_plan)
    house.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    _things(house)
    house.page.get_by_role("button", name="Copy the table Things on the level").click()
    house.page.wait_for_selector("#things .table-tools :text('rows copied')")
    text = house.page.evaluate("navigator.clipboard.readText()")
    lines = [line.split("\t") for line in text.split("\n")]
    assert lines[0] == ["Thing", "Where", "State"]
    assert ["Riser riser-1", "1'-0\" E, 1'-0\" N", "Main floor to Upper floor"] in lines


def test_a_downloaded_table_is_csv_whose_formulas_are_text(open_plan: Any) -> None:
    house = _house(open_plan)
    _things(house)
    with house.page.expect_download() as coming:
        house.page.get_by_role("button", name="Download the table Things on the level as CSV").click()
    assert coming.value.suggested_filename == "things-on-the-level.csv"
    text = coming.value.path().read_text("utf-8-sig")
    rows = list(csv.reader(io.StringIO(text)))
    assert rows[0] == ["Thing", "Where", "State"]
    assert any(row[0] == "'=1+1" for row in rows)
    expect(_names(house)).to_have_count(len(rows) - 1)


@pytest.mark.parametrize(
    ("step", "opens", "names"),
    [
        ("Proof", None, ["Findings", "Panes"]),
        ("Cable", None, ["Pulls"]),
        ("Cable", "Zones", ["Zones of can1"]),
        ("Cable", "Power and battery", ["Voltage at each device"]),
    ],
)
def test_tables_of_the_steps_copy_and_download(open_plan: Any, step: str, opens: str | None, names: list[str]) -> None:
    house = _house(open_plan)
    house.page.get_by_role("button", name=step).first.click()
    if step == "Cable":
        house.page.wait_for_selector(".pulls tbody tr")
    if opens:
        house.page.locator("summary", has_text=opens).click()
    for name in names:
        with house.page.expect_download() as coming:
            house.page.get_by_role("button", name=f"Download the table {name} as CSV").click()
        rows = list(csv.reader(io.StringIO(coming.value.path().read_text("utf-8-sig"))))
        assert len(rows) > 1
        assert len({len(row) for row in rows}) == 1


def test_lists_of_the_proof_are_put_in_another_order(open_plan: Any) -> None:
    house = _house(open_plan)
    house.page.get_by_role("button", name="Proof").first.click()
    order = house.page.get_by_label("Order").first
    order.select_option("by rule")
    told = house.page.evaluate(
        "fetch(`/api/plans/${document.body.dataset.plan}/check`).then((answer) => answer.json())"
    )
    messages = [one["message"] for one in sorted(told["findings"], key=lambda one: one["rule"])]
    standing = house.page.locator(".findings > ul").first.locator(".finding")
    expect(standing.first).to_contain_text(messages[0], use_inner_text=True)
