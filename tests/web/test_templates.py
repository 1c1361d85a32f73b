"""Practice templates and letterheads by HTTP: kept, changed by edition, taken by plans, printed."""

from __future__ import annotations

from typing import Any

import pypdfium2
import pytest
from fastapi.testclient import TestClient

from app.plan.reading import read_plan
from tests.web.plan_values import Value, den

LETTERHEAD = {
    "company": "Larkspur Low Voltage",
    "designer": "R. Quill",
    "address": "3 Tannery Lane, Ashford Mills",
    "phone": "555-0142",
    "license": "LV-20417",
    "words": "Hard-wired since the first nail",
}


def template(name: str, **more: Any) -> Value:
    return {"name": name, "practice": {"glass.range": 20}, "letterhead": LETTERHEAD} | more


def keep(client: TestClient, name: str, **more: Any) -> Value:
    answer = client.post("/api/templates", json=template(name, **more))
    assert answer.status_code == 201, answer.text
    kept: Value = answer.json()
    return kept


def test_a_template_is_kept_listed_and_read(client: TestClient) -> None:
    kept = keep(client, "Houses", units="imperial", habit={"set": "crew", "paper": "tabloid", "scale": "1/4"})
    assert kept["template"]["practice"] == {"glass.range": 20}
    assert client.get(f"/api/templates/{kept['id']}").json() == kept
    assert kept in client.get("/api/templates").json()


def test_a_change_names_the_edition_it_was_made_from(client: TestClient) -> None:
    kept = keep(client, "Barns")
    place = f"/api/templates/{kept['id']}"
    changed = client.put(place, json=template("Barns", practice={}), headers={"If-Match": '"1"'})
    assert (changed.status_code, changed.headers["etag"]) == (200, '"2"')
    late = client.put(place, json=template("Barns"), headers={"If-Match": '"1"'})
    assert (late.status_code, late.headers["etag"]) == (412, '"2"')
    assert client.put(place, json=template("Barns")).status_code == 428
    assert client.delete(place, headers={"If-Match": '"2"'}).status_code == 204
    assert client.get(place).status_code == 404


def test_one_template_is_the_usual_one_and_stands_first(client: TestClient) -> None:
    first = keep(client, "Zinnia", usual=True)
    keep(client, "Yarrow", usual=True)
    listed = client.get("/api/templates").json()
    assert [each["template"]["name"] for each in listed if each["template"]["usual"]] == ["Yarrow"]
    assert listed[0]["template"]["name"] == "Yarrow"
    stale = client.put(f"/api/templates/{first['id']}", json=template("Zinnia"), headers={"If-Match": '"1"'})
    assert stale.status_code == 412  # it is the usual one no longer: a change of its own


def test_a_name_is_given_once(client: TestClient) -> None:
    keep(client, "Cottages")
    answer = client.post("/api/templates", json=template("cottages"))
    assert (answer.status_code, "Cottages is there already" in answer.json()["detail"]) == (409, True)


@pytest.mark.parametrize(
    ("more", "at"),
    [
        ({"practice": {"glass.range": -1}}, "practice.glass.range"),
        ({"practice": {"glass.rnage": 15}}, "practice.glass.rnage"),
        ({"letterhead": {"phone": "a\nb"}}, "letterhead.phone"),
        ({"letterhead": {"company": "x" * 121}}, "letterhead.company"),
        ({"units": "cubits"}, "units"),
        ({"logo": "x"}, "logo"),
        ({"name": ""}, "name"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(client: TestClient, more: Value, at: str) -> None:
    answer = client.post("/api/templates", json=template("Wrong") | more)
    assert answer.status_code == 422
    assert [error["at"] for error in answer.json()["errors"]] == [at]


def test_a_plan_prints_the_letterhead_and_by_the_habit_that_it_has_taken(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}/letterhead"
    assert client.get(place).headers["etag"] == '"0"'
    bare = client.get(f"/plans/{kept['id']}/sheet").text
    stationery = {"letterhead": LETTERHEAD, "habit": {"paper": "tabloid", "scale": "1/4"}}
    assert client.put(place, json=stationery, headers={"If-Match": '"0"'}).headers["etag"] == '"1"'
    printed = client.get(f"/plans/{kept['id']}/sheet").text
    for line in ("Larkspur Low Voltage", "555-0142", "License LV-20417", "Hard-wired since the first nail"):
        assert line not in bare
        assert printed.count(line) >= printed.count('<section class="sheet"') >= 2
    assert '<option value="tabloid" selected>' in printed
    assert '<option value="1/4" selected>' in printed
    asked = client.get(f"/plans/{kept['id']}/sheet?paper=letter&scale=auto").text
    assert '<option value="letter" selected>' in asked
    assert '<option value="auto" selected>' in asked
    assert client.put(place, json=stationery, headers={"If-Match": '"0"'}).status_code == 412
    assert "Larkspur" not in client.get(f"/api/plans/{kept['id']}/file").text  # the plan file's format is fixed


def test_change_sheets_carry_the_letterhead_of_the_plan(client: TestClient, kept: Value) -> None:
    place, asked = f"/api/plans/{kept['id']}", f"/plans/{kept['id']}/changes"
    changed = den()
    changed["levels"][0]["devices"][0]["at"] = [11, 7]
    client.put(place, json=changed, headers={"If-Match": '"1"'})
    assert "Larkspur" not in client.get(asked, params={"from": "1"}).text
    client.put(f"{place}/letterhead", json={"letterhead": LETTERHEAD}, headers={"If-Match": '"0"'})
    page = client.get(asked, params={"from": "1"}).text
    assert page.count("Larkspur Low Voltage") == page.count('<section class="sheet"') >= 2
    document = pypdfium2.PdfDocument(client.get(f"{asked}.pdf", params={"from": "1"}).content)
    assert all("Larkspur Low Voltage" in sheet.get_textpage().get_text_bounded() for sheet in document)


def test_shells_are_plans_to_begin_with(client: TestClient) -> None:
    shells = client.get("/api/shells").json()
    assert {shell["name"] for shell in shells} == {"One room", "Garage", "Two-storey shell"}
    for shell in shells:
        plan = read_plan(client.get(f"/api/shells/{shell['id']}").content)
        assert not any(level.devices for level in plan.levels)
        checked = client.post("/api/check", content=client.get(f"/api/shells/{shell['id']}").content).json()
        assert all(room["area_sqft"] > 0 for room in checked["rooms"])
        assert {pane["room"] for pane in checked["panes"]} <= {room["id"] for room in checked["rooms"]}
    assert client.get("/api/shells/..%2Fpyproject").status_code == 404
    assert client.post("/api/plans", json=den()).status_code == 201
