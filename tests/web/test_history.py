"""Revisions named, approved and compared by HTTP, and what was built beside the design."""

from __future__ import annotations

import io
import json
from typing import Any

import pypdfium2
import pytest
from fastapi.testclient import TestClient

from tests.web.plan_values import Value, den


def name(client: TestClient, plan_id: str, number: int, mark: str, edition: int, **more: Any) -> Any:
    said = {"mark": mark, "by": "J. Ash", "words": ""} | more
    place = f"/api/plans/{plan_id}/revisions/{number}/name"
    return client.put(place, json=said, headers={"If-Match": f'"{edition}"'})


def approve(client: TestClient, plan_id: str, number: int, edition: int, **more: Any) -> Any:
    said = {"by": "Ann Lee", "on": "2026-11-12"} | more
    place = f"/api/plans/{plan_id}/revisions/{number}/approval"
    return client.post(place, json=said, headers={"If-Match": f'"{edition}"'})


def moved_den(by: float = 3.0) -> Value:
    plan = den()
    plan["levels"][0]["devices"][0]["at"][0] += by
    return plan


def test_a_revision_is_named_approved_and_withdrawn(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.get(f"{place}/history").headers["etag"] == '"0"'
    named = name(client, kept["id"], 1, "A", 0, words="Issued for rough-in")
    assert (named.status_code, named.headers["etag"]) == (200, '"1"')
    approved = approve(client, kept["id"], 1, 1).json()
    assert approved["approved"] == 1
    assert approved["revisions"][0]["approval"]["on"] == "2026-11-12"
    (line,) = client.get(f"{place}/revisions").json()
    assert (line["revision"], line["mark"], line["approved"]) == (1, "A", True)
    said = {"by": "Ann Lee", "words": "keypad too high"}
    withdrawn = client.post(f"{place}/revisions/1/withdrawal", json=said, headers={"If-Match": '"2"'}).json()
    assert withdrawn["approved"] is None
    assert [entry["what"] for entry in withdrawn["entries"]] == ["named", "approved", "withdrawn"]


def test_an_entry_names_the_edition_that_it_was_made_from(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}/revisions/1/name"
    said = {"mark": "A", "by": "J. Ash"}
    assert client.put(place, json=said).status_code == 428
    assert name(client, kept["id"], 1, "A", 0).status_code == 200
    late = name(client, kept["id"], 1, "B", 0)
    assert (late.status_code, late.headers["etag"]) == (412, '"1"')
    assert client.put(place, json=said | {"mark": "C"}, headers={"If-Match": "*"}).status_code == 200


def test_an_approved_revision_is_locked_and_saves_go_on(client: TestClient, kept: Value) -> None:
    name(client, kept["id"], 1, "A", 0)
    approve(client, kept["id"], 1, 1)
    assert name(client, kept["id"], 1, "B", 2).status_code == 409
    assert approve(client, kept["id"], 1, 2).status_code == 409
    place = f"/api/plans/{kept['id']}"
    assert client.put(place, json=moved_den(), headers={"If-Match": '"1"'}).status_code == 200
    assert client.get(f"{place}/revisions/1").json()["plan"] == kept["plan"]
    standing = client.get(f"{place}/standing").json()
    assert standing["words"] == "1 change since approval by Ann Lee, 12 Nov 2026 (revision A)"
    assert standing["printed"] == "2. Not approved"


def test_a_plan_that_is_as_approved_says_so_in_print(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.get(f"{place}/standing").json()["printed"] == "1. Not approved"
    name(client, kept["id"], 1, "A", 0)
    approve(client, kept["id"], 1, 1)
    client.put(place, json=moved_den(), headers={"If-Match": '"1"'})
    client.put(place, json=kept["plan"], headers={"If-Match": '"2"'})
    standing = client.get(f"{place}/standing").json()
    assert (standing["changes"], standing["printed"]) == (0, "Approved revision A by Ann Lee on 12 Nov 2026")
    assert standing["words"].startswith("As approved by Ann Lee, 12 Nov 2026")
    assert "Approved revision A by" in client.get(f"/plans/{kept['id']}/sheet").text


@pytest.mark.parametrize(
    ("said", "at"),
    [
        ({"mark": "", "by": "J"}, "mark"),
        ({"mark": "ABCDEFGHI", "by": "J"}, "mark"),
        ({"mark": "A", "by": "  "}, "by"),
        ({"mark": "A", "by": "x" * 121}, "by"),
        ({"mark": "A", "by": "J", "words": "x" * 201}, "words"),
        ({"mark": "A\u202e", "by": "J"}, "mark"),
        ({"mark": "A", "by": "line\nbreak"}, "by"),
        ({"mark": "A", "by": "\ud800"}, "by"),
        ({"mark": 1, "by": "J"}, "mark"),
        ({"mark": "A", "by": "J", "more": 1}, "more"),
    ],
)
def test_text_over_its_limit_or_hidden_is_refused(client: TestClient, kept: Value, said: Value, at: str) -> None:
    place = f"/api/plans/{kept['id']}/revisions/1/name"
    headers = {"If-Match": '"0"', "Content-Type": "application/json"}
    answer = client.put(place, content=json.dumps(said), headers=headers)
    assert answer.status_code == 422
    assert [fault["at"] for fault in answer.json()["errors"]] == [at]
    assert client.get(f"/api/plans/{kept['id']}/history").json()["entries"] == []


@pytest.mark.parametrize("on", ["12 Nov 2026", "2026-13-01", 20261112, None, ""])
def test_a_day_that_is_none_is_refused(client: TestClient, kept: Value, on: Any) -> None:
    name(client, kept["id"], 1, "A", 0)
    answer = approve(client, kept["id"], 1, 1, on=on)
    assert (answer.status_code, answer.json()["errors"][0]["at"]) == (422, "on")


def test_names_of_any_letters_come_out_as_text(client: TestClient, kept: Value) -> None:
    hostile = '<script>alert(1)</script> "=1+1" עברית'
    name(client, kept["id"], 1, "<b>", 0, by=hostile, words="'); DROP TABLE history;--")
    approve(client, kept["id"], 1, 1, by=hostile)
    client.put(f"/api/plans/{kept['id']}", json=moved_den(), headers={"If-Match": '"1"'})
    page = client.get(f"/plans/{kept['id']}/changes", params={"from": "mark:<b>"})
    assert page.status_code == 200
    assert "<script>alert" not in page.text
    assert "&lt;script" in page.text
    assert client.get(f"/api/plans/{kept['id']}/history").json()["entries"][0]["by"] == hostile


def test_two_revisions_are_compared_by_number_by_letter_and_with_the_working_plan(
    client: TestClient, kept: Value
) -> None:
    place = f"/api/plans/{kept['id']}"
    client.put(place, json=moved_den(), headers={"If-Match": '"1"'})
    name(client, kept["id"], 1, "A", 0)
    answers = [
        client.get(f"{place}/changes", params=which).json()
        for which in ({"from": "1", "to": "2"}, {"from": "mark:a"}, {"from": "mark:A", "to": "now"})
    ]
    assert answers[0] == answers[1] == answers[2]
    (change,) = answers[0]["changes"]
    assert (change["what"], change["id"], change["moved_ft"]) == ("moved", "g1", 3.0)
    assert answers[0]["clouds"][0]["numbers"] == [1]
    back = client.get(f"{place}/changes", params={"from": "2", "to": "1"}).json()
    assert back["changes"][0]["moves"] == [[[13.0, 7.0], [10.0, 7.0]]]
    assert client.get(f"{place}/changes", params={"from": "1", "to": "1"}).json()["changes"] == []


def test_a_revision_that_is_none_is_refused(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}/changes"
    for which in ("", "0", "-1", "x", "mark:Z", "1e3", "9" * 40, "<script>"):
        assert client.get(place, params={"from": which}).status_code == 422, which
    assert client.get(place).status_code == 422
    assert client.get(place, params={"from": "7"}).status_code == 404
    assert client.get("/api/plans/none/changes", params={"from": "1"}).status_code == 404


def test_the_change_sheets_are_a_page_and_a_pdf_of_the_same(client: TestClient, kept: Value) -> None:
    client.put(f"/api/plans/{kept['id']}", json=moved_den(), headers={"If-Match": '"1"'})
    name(client, kept["id"], 1, "A", 0, words="Issued for approval")
    name(client, kept["id"], 2, "B", 1)
    which = {"from": "mark:A", "to": "mark:B", "paper": "tabloid"}
    page = client.get(f"/plans/{kept['id']}/changes", params=which).text
    pdf = client.get(f"/plans/{kept['id']}/changes.pdf", params=which)
    assert pdf.headers["content-type"] == "application/pdf"
    document = pypdfium2.PdfDocument(io.BytesIO(pdf.content))
    assert len(document) == page.count('<section class="sheet"') == 2
    assert document[0].get_size() == pytest.approx((17 * 72, 11 * 72), abs=0.5)
    words = document[1].get_textpage().get_text_bounded()
    assert "Issued for approval" in words
    assert "Revision B, compared with revision A." in words
    assert "3'-0\" east" in words
    bad = client.get(f"/plans/{kept['id']}/changes", params=which | {"paper": "napkin"})
    assert bad.status_code == 422


def built(device: str, **values: Any) -> Value:
    return {"format": "studbay-as-built/1", "entries": [{"device": device} | values]}


def test_what_was_built_is_kept_beside_the_design(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}/as-built"
    empty = client.get(place)
    assert (empty.headers["etag"], empty.json()["record"]["entries"]) == ('"0"', [])
    assert {line["device"] for line in empty.json()["devices"]} == {"g1", "m1"}
    record = built("m1", height=7.5, by="R. Vole", on="2026-12-01", note="<b>stud</b>")
    assert client.put(place, json=record).status_code == 428
    saved = client.put(place, json=record, headers={"If-Match": '"0"'})
    assert (saved.status_code, saved.headers["etag"]) == (200, '"1"')
    line = next(line for line in saved.json()["devices"] if line["device"] == "m1")
    (height,) = line["differences"]
    assert (height["field"], height["designed"], height["built"]) == ("height", "7'-0\"", "7'-6\"")
    late = client.put(place, json=record, headers={"If-Match": '"0"'})
    assert (late.status_code, late.headers["etag"]) == (412, '"1"')
    file = client.get(f"{place}/file")
    assert file.headers["content-disposition"] == f'attachment; filename="{kept["id"]}-as-built.json"'
    assert file.json()["entries"][0]["by"] == "R. Vole"


@pytest.mark.parametrize(
    ("record", "at"),
    [
        ([], "format"),
        ({"format": "studbay-plan/1"}, "format"),
        (built("g1", cable_ft=-1), "entries[0].cable_ft"),
        (built("g1", height=1e9), "entries[0].height"),
        (built("g1", at=[1]), "entries[0].at[1]"),
        (built("g1", on=3), "entries[0].on"),
        (built("g1", by="x" * 121), "entries[0].by"),
        (built("g1", colour="red"), "entries[0].colour"),
        (built("no id"), "entries[0].device"),
        ({"format": "studbay-as-built/1", "entries": [{"device": "g1"}, {"device": "g1"}]}, "entries[1].device"),
    ],
)
def test_a_record_that_cannot_be_used_is_refused(client: TestClient, kept: Value, record: Any, at: str) -> None:
    answer = client.put(f"/api/plans/{kept['id']}/as-built", json=record, headers={"If-Match": '"0"'})
    assert (answer.status_code, [fault["at"] for fault in answer.json()["errors"]]) == (422, [at])
    assert client.get(f"/api/plans/{kept['id']}/as-built").headers["etag"] == '"0"'


def test_an_entry_outlives_its_device(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    client.put(f"{place}/as-built", json=built("m1", as_designed=True), headers={"If-Match": '"0"'})
    plan = den()
    plan["levels"][0]["devices"].pop()
    client.put(place, json=plan, headers={"If-Match": '"1"'})
    lines = client.get(f"{place}/as-built").json()["devices"]
    assert [(line["device"], line["level"], line["recorded"]) for line in lines] == [
        ("g1", "L1", False),
        ("m1", None, True),
    ]


def test_the_as_fitted_record_prints_what_was_built(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}/as-built"
    plain = client.get(f"/plans/{kept['id']}/sheet", params={"set": "documents"}).text
    record = built("m1", height=8, terminal="T12", by="R. Vole & <i>son</i>", on="2026-12-01")
    client.put(place, json=record, headers={"If-Match": '"0"'})
    filled = client.get(f"/plans/{kept['id']}/sheet", params={"set": "documents"}).text
    for words in ("8'-0\" AFF", "T12", "R. Vole &amp;", "2026-12-01"):
        assert words in filled
        assert words not in plain
    assert "<i>son" not in filled
