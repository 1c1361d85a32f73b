"""The printed set by HTTP: the page is the print, page for page; a set in the making is followed and stopped."""

from __future__ import annotations

import time
from html import unescape
from io import BytesIO

import pypdfium2
import pytest
from fastapi.testclient import TestClient

from app.drawing.sheets.paper.papers import PAPERS
from tests.web.plan_values import Value, den

POINT = 72 / 25.4


def pdf_of(content: bytes) -> pypdfium2.PdfDocument:
    return pypdfium2.PdfDocument(BytesIO(content))


def followed(client: TestClient, print_id: str, seconds: float = 60.0) -> Value:
    """A set's answer when it is no longer under way."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        answer: Value = client.get(f"/api/prints/{print_id}").json()
        if answer["state"] != "under way":
            return answer
        time.sleep(0.05)
    raise AssertionError("the set is still under way")


@pytest.mark.parametrize("readers", ["homeowner", "crew"])
@pytest.mark.parametrize("choice", ["paper=tabloid&habit=us&scale=1/4", "paper=a3&habit=iso&scale=1:50"])
def test_the_page_is_the_print_page_for_page(client: TestClient, kept: Value, readers: str, choice: str) -> None:
    asked = f"set={readers}&{choice}"
    page = client.get(f"/plans/{kept['id']}/sheet?{asked}").text
    document = pdf_of(client.get(f"/plans/{kept['id']}/sheets.pdf?{asked}").content)
    sheets = [unescape(part.split('"', 1)[0]) for part in page.split('<section class="sheet" aria-label="Sheet ')[1:]]
    bookmarks = [bookmark.get_title() for bookmark in document.get_toc()]
    assert [sheet.replace(": ", " ", 1) for sheet in sheets] == bookmarks
    assert len(document) == len(sheets)
    paper = PAPERS[choice.split("=")[1].split("&")[0]]
    assert f'width="{paper.width:g}mm"' in page
    assert document[0].get_size() == pytest.approx((paper.width * POINT, paper.height * POINT), abs=0.1)


def test_a_set_is_made_followed_and_fetched(client: TestClient, kept: Value) -> None:
    started = client.post(f"/api/plans/{kept['id']}/prints?set=crew&paper=letter")
    assert started.status_code == 202
    assert started.headers["location"] == f"/api/prints/{started.json()['id']}"
    answer = followed(client, started.json()["id"])
    assert answer["state"] == "done"
    assert answer["done"] == answer["count"] > 1
    file = client.get(answer["file"])
    assert file.headers["content-type"] == "application/pdf"
    assert file.headers["content-disposition"].endswith(f'filename="{kept["id"]}-crew.pdf"')
    assert len(pdf_of(file.content)) == answer["count"]


def test_a_stopped_set_leaves_nothing(client: TestClient, kept: Value) -> None:
    started = client.post(f"/api/plans/{kept['id']}/prints").json()
    stopped = client.delete(f"/api/prints/{started['id']}").json()
    assert stopped["state"] == "stopped"
    assert stopped["file"] is None
    assert client.get(f"/api/prints/{started['id']}/file").status_code == 409
    again = client.post(f"/api/plans/{kept['id']}/prints").json()
    assert followed(client, again["id"])["state"] == "done"


def test_letters_that_no_typeface_has_are_told(client: TestClient) -> None:
    value = den("House 東京 <b>")
    plan = client.post("/api/plans", json=value).json()
    page = client.get(f"/plans/{plan['id']}/sheet").text
    assert 'class="print-lacking"' in page
    assert "House 東京 &lt;b&gt;" in page
    answer = followed(client, client.post(f"/api/plans/{plan['id']}/prints").json()["id"])
    assert any("東 京" in words for words in answer["lacking"])


def test_an_earlier_revision_is_printed(client: TestClient, kept: Value) -> None:
    plan = kept["plan"] | {"name": "Renamed since"}
    client.put(f"/api/plans/{kept['id']}", json=plan, headers={"If-Match": '"1"'})
    name = kept["plan"]["name"]
    assert name in client.get(f"/plans/{kept['id']}/sheet?revision=1").text.split("<main>")[1]
    assert name not in client.get(f"/plans/{kept['id']}/sheet").text.split("<main>")[1]


@pytest.mark.parametrize("asked", ["set=thieves", "paper=foolscap", "scale=1:7", "habit=martian", "revision=0"])
@pytest.mark.parametrize("call", ["page", "pdf", "print"])
def test_unknown_choices_are_refused(client: TestClient, kept: Value, asked: str, call: str) -> None:
    answer = {
        "page": lambda: client.get(f"/plans/{kept['id']}/sheet?{asked}"),
        "pdf": lambda: client.get(f"/plans/{kept['id']}/sheets.pdf?{asked}"),
        "print": lambda: client.post(f"/api/plans/{kept['id']}/prints?{asked}"),
    }[call]()
    assert answer.status_code == 422
    assert answer.headers["content-type"] == "application/problem+json"


def test_what_is_not_there_is_said(client: TestClient, kept: Value) -> None:
    assert client.get("/api/prints/none").status_code == 404
    assert client.delete("/api/prints/none").status_code == 404
    assert client.get("/api/prints/none/file").status_code == 404
    assert client.post("/api/plans/none/prints").status_code == 404
    assert client.get(f"/plans/{kept['id']}/sheet?revision=99").status_code == 404


def test_the_typefaces_of_the_print_are_sent_to_the_page(client: TestClient) -> None:
    styles = client.get("/static/print.css").text
    for line in styles.splitlines():
        if line.startswith("@font-face"):
            font = client.get(line.split('url("')[1].split('"')[0])
            assert font.status_code == 200
            assert font.content[:4] == b"\0\1\0\0"
