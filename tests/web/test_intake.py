"""Plans from drawings by HTTP: looked into, drawn, refused in words; nothing is stored before it is taken."""

from __future__ import annotations

from pathlib import Path

from fastapi.testclient import TestClient

from tests.intake.writing.from_plan import drawn
from tests.intake.writing.plum_lane import LEVEL

SOURCE = drawn(LEVEL, "mm")
FILES = Path(__file__).parents[1] / "intake" / "files"


def test_a_survey_lists_layers_units_and_a_picture(client: TestClient) -> None:
    answer = client.post("/api/intake/survey", content=SOURCE)
    assert answer.status_code == 200
    told = answer.json()
    assert {layer["name"]: layer["role"] for layer in told["layers"]} == {
        "A-WALL": "walls",
        "A-DOOR": "doors",
        "A-GLAZ": "windows",
        "A-AREA-IDEN": "names",
    }
    assert told["units"]["proposed"] == "mm"
    assert told["picture"].startswith("<svg")


def test_choices_give_a_plan_that_can_be_kept(client: TestClient) -> None:
    before = len(client.get("/api/plans").json())
    told = {"walls": "A-WALL", "doors": "A-DOOR", "windows": "A-GLAZ", "names": "A-AREA-IDEN", "sill": 2.5}
    answer = client.post("/api/intake/plan", content=SOURCE, params=told | {"name": "5 Plum Lane"})
    assert answer.status_code == 200
    made = answer.json()
    assert made["plan"]["name"] == "5 Plum Lane"
    assert made["report"]["read"] == {"walls": 8, "doors": 6, "windows": 5, "cased openings": 1, "rooms": 5}
    assert len(client.get("/api/plans").json()) == before
    assert client.post("/api/plans", json=made["plan"]).status_code == 201


def test_layers_left_out_are_told_in_the_account(client: TestClient) -> None:
    made = client.post("/api/intake/plan", content=SOURCE, params={"walls": "A-WALL"}).json()
    left_out = {line["layer"] for line in made["report"]["unread"] if line["reason"] == "the layer is left out"}
    assert left_out == {"A-DOOR", "A-GLAZ", "A-AREA-IDEN"}


def test_refusals_are_problems_with_one_line(client: TestClient) -> None:
    for path, content, params, status in (
        ("survey", b"%PDF-1.7", {}, 422),
        ("survey", b"", {}, 422),
        ("survey", SOURCE[: len(SOURCE) // 3], {}, None),
        ("plan", SOURCE, {"walls": "NO SUCH"}, 422),
        ("plan", SOURCE, {"sill": 9}, 422),
        ("plan", SOURCE, {"units": "ell"}, 422),
        ("plan", SOURCE, {"ceiling": "NaN"}, 422),
        ("survey", b" " * (32 * 2**20 + 1), {}, 413),
    ):
        answer = client.post(f"/api/intake/{path}", content=content, params=params)
        assert answer.status_code == status or (status is None and answer.status_code in (200, 422))
        if answer.status_code != 200:
            assert answer.headers["content-type"] == "application/problem+json"
            assert "Traceback" not in answer.text


def test_names_in_a_drawing_come_out_as_text(client: TestClient) -> None:
    level = LEVEL | {"rooms": [LEVEL["rooms"][0] | {"name": "<script>alert(1)</script>&"}]}
    made = client.post("/api/intake/plan", content=drawn(level)).json()
    assert "<script" not in made["picture"].lower()
    assert "&lt;" in made["picture"]


def test_the_page_asks_for_a_file(client: TestClient) -> None:
    page = client.get("/intake", headers={"accept": "text/html"})
    assert page.status_code == 200
    assert 'type="file"' in page.text
    assert 'href="/intake"' in client.get("/", headers={"accept": "text/html"}).text


def test_drawings_of_a_sheet_become_levels(client: TestClient) -> None:
    source = (FILES / "two-storeys-makerjs.dxf").read_bytes()
    found = client.post("/api/intake/survey", content=source).json()["drawings"]
    assert [(one["number"], one["level"]) for one in found] == [(1, 0), (2, 0)]
    asked = {"level": ["1:Ground", "2:Upstairs"], "floor_to_floor": 9.5}
    made = client.post("/api/intake/plan", content=source, params=asked).json()
    assert [(level["name"], level["elevation"]) for level in made["plan"]["levels"]] == [
        ("Ground", 0),
        ("Upstairs", 9.5),
    ]
    assert made["report"]["levels"][1]["by"] == "walls"
    for wrong in ({"level": "9"}, {"level": "x"}, {"common": "1"}, {"floor_to_floor": "NaN"}):
        answer = client.post("/api/intake/plan", content=source, params=wrong)
        assert answer.status_code == 422
        assert answer.headers["content-type"] == "application/problem+json"
