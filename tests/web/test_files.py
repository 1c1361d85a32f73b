"""Files by HTTP: each is what it says, named by plan and revision; a page to share wants a word of consent."""

from __future__ import annotations

import io
from xml.etree import ElementTree

import ezdxf
import openpyxl
import pytest
from fastapi.testclient import TestClient

from app.documents.tables.all_tables import TABLES
from tests.documents.handed_over import value
from tests.web.plan_values import Value


@pytest.fixture(scope="module")
def named(client: TestClient) -> str:
    answer: Value = client.post("/api/plans", json=value(name="Haus am Fluß, 3")).json()
    return str(answer["id"])


def test_workbook_has_every_table(client: TestClient, named: str) -> None:
    answer = client.get(f"/api/plans/{named}/tables.xlsx")
    book = openpyxl.load_workbook(io.BytesIO(answer.content))
    assert len(book.sheetnames) == len(TABLES) + 1
    about = {row[0].value: row[2].value for row in book["About"].iter_rows(min_row=2)}
    assert about["Plan"] == "Haus am Fluß, 3"
    assert about["State"].startswith("Revision 1, ")
    assert "Confidential" in about["Caution"]
    assert answer.headers["etag"] == '"1"'


def test_files_are_named_by_plan_revision_and_what_they_are(client: TestClient, named: str) -> None:
    said = {
        "tables.xlsx": "haus-am-flu-3-r1-tables.xlsx",
        "tables.zip": "haus-am-flu-3-r1-tables.zip",
        "tables/pulls.csv": "haus-am-flu-3-r1-pulls.csv",
        "plan.dxf": "haus-am-flu-3-r1-plan.dxf",
        "levels/L1/plan.svg": "haus-am-flu-3-r1-L1-proof.svg",
        "share.html?confirm=yes": "haus-am-flu-3-r1-share.html",
        "share.html?confirm=yes&leave_out=names": "security-plan-r1.html",
    }
    for path, name in said.items():
        answer = client.get(f"/api/plans/{named}/{path}")
        assert answer.status_code == 200, path
        assert answer.headers["content-disposition"] == f'attachment; filename="{name}"'


def test_a_name_of_another_script_gives_way_to_the_id(client: TestClient) -> None:
    kept = client.post("/api/plans", json=value(name="房子")).json()["id"]
    answer = client.get(f"/api/plans/{kept}/tables.zip")
    assert answer.headers["content-disposition"] == f'attachment; filename="{kept}-r1-tables.zip"'


def test_drawing_opens_whole_or_a_level_alone(client: TestClient, named: str) -> None:
    for path, lines in (("plan.dxf", 7), ("plan.dxf?level=L2", 1)):
        text = client.get(f"/api/plans/{named}/{path}").content.decode()
        document = ezdxf.read(io.StringIO(text, newline=""))
        assert not document.audit().errors
        assert len(document.modelspace().query('LINE[layer=="A-WALL-CNTR"]')) == lines


def test_plan_is_svg_of_what_was_asked(client: TestClient, named: str) -> None:
    answer = client.get(f"/api/plans/{named}/levels/L1/plan.svg?shows=cable&scale=1:50")
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert "1:50" in "".join(ElementTree.fromstring(answer.content).itertext())


def test_sharing_tells_what_it_shows_before_it_is_asked_for(client: TestClient, named: str) -> None:
    told = client.get(f"/api/plans/{named}/share").json()
    assert "where every detector is" in told["why"]
    assert set(told["leavable"]) == {"names", "findings", "notes"}
    refused = client.get(f"/api/plans/{named}/share.html")
    assert refused.status_code == 422
    assert "confirm=yes" in refused.json()["detail"]


def test_page_leaves_out_what_is_asked(client: TestClient, named: str) -> None:
    page = client.get(f"/api/plans/{named}/share.html?confirm=yes&leave_out=names&leave_out=findings").text
    assert "Haus am Fluß" not in page
    assert '<details id="findings">' not in page


@pytest.mark.parametrize(
    ("path", "status", "words"),
    [
        ("tables/moon.csv", 422, "table"),
        ("plan.dxf?level=L9", 404, "L9"),
        ("levels/L9/plan.svg", 404, "L9"),
        ("levels/L1/plan.svg?shows=moon", 422, "shows"),
        ("levels/L1/plan.svg?scale=1:3", 422, "scale"),
        ("share.html?confirm=yes&leave_out=walls", 422, "leave_out"),
    ],
)
def test_what_is_not_there_is_a_problem(client: TestClient, named: str, path: str, status: int, words: str) -> None:
    answer = client.get(f"/api/plans/{named}/{path}")
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    assert words in answer.json()["detail"]


def test_no_plan_no_file(client: TestClient) -> None:
    for path in ("tables.xlsx", "tables.zip", "plan.dxf", "share", "share.html?confirm=yes"):
        assert client.get(f"/api/plans/nobody/{path}").status_code == 404
