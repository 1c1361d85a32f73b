"""Pictures under levels by HTTP: kept with the plan, placed by edition, gone and back, served as pictures alone."""

from __future__ import annotations

import io
from typing import Any

import pypdfium2
from fastapi.testclient import TestClient
from PIL import Image

from app.intake.picture.limits import MOST_BYTES
from tests.web.picture_files import drawing, file_of, pdf, photo_with_secrets
from tests.web.plan_values import Value, den


def place_of(kept: Value, level: str = "L1") -> str:
    return f"/api/plans/{kept['id']}/levels/{level}/underlay"


def lay(client: TestClient, kept: Value, source: bytes | None = None, **query: Any) -> Value:
    answer = client.post(place_of(kept), content=source or file_of(drawing()), params={"name": "sketch.png"} | query)
    assert answer.status_code == 201, answer.text
    value: Value = answer.json()
    return value


def test_a_picture_is_laid_over_the_walls_and_served(client: TestClient, kept: Value) -> None:
    laid = lay(client, kept)
    assert (laid["name"], laid["width"], laid["height"], laid["edition"]) == ("sketch.png", 400, 300, 1)
    placement = laid["placement"]
    assert placement["origin"][0] + placement["scale"] * 200 == 10  # its middle over the middle of the den
    answer = client.get(laid["address"])
    assert Image.open(io.BytesIO(answer.content)).size == (400, 300)
    assert answer.headers["content-type"] == "image/png"
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["cache-control"].startswith("private")
    assert "sandbox" in answer.headers["content-security-policy"]
    assert answer.headers["cross-origin-resource-policy"] == "same-origin"
    assert client.get(laid["address"], headers={"If-None-Match": answer.headers["etag"]}).status_code == 304


def test_what_a_photo_says_of_place_and_people_is_not_kept(client: TestClient, kept: Value) -> None:
    laid = lay(client, kept, photo_with_secrets())
    assert (laid["width"], laid["height"], laid["read"]) == (300, 400, [400, 300])
    content = client.get(laid["address"]).content
    assert b"Larches" not in content
    assert b"Exif" not in content


def test_a_placement_names_the_edition_it_was_made_from(client: TestClient, kept: Value) -> None:
    placement = lay(client, kept)["placement"] | {"scale": 0.125, "origin": [3, 40.5], "turn": -2.5, "fade": 0.7}
    put = client.put(place_of(kept), json=placement, headers={"If-Match": '"1"'})
    assert (put.status_code, put.headers["etag"]) == (200, '"2"')
    assert client.get(place_of(kept)).json()["placement"] == placement | {"locked": False, "shown": True}
    late = client.put(place_of(kept), json=placement, headers={"If-Match": '"1"'})
    assert (late.status_code, late.headers["etag"]) == (412, '"2"')
    assert client.put(place_of(kept), json=placement).status_code == 428


def test_a_placement_out_of_bounds_is_refused_with_its_place(client: TestClient, kept: Value) -> None:
    placement = lay(client, kept)["placement"]
    for key, wrong in (("scale", 0), ("scale", 1e9), ("fade", 1.5), ("origin", [0, 1e7]), ("turn", "north"), ("x", 1)):
        answer = client.put(place_of(kept), json=placement | {key: wrong}, headers={"If-Match": '"1"'})
        assert answer.status_code == 422, key
        assert answer.json()["errors"][0]["at"].startswith(key)
    assert client.get(place_of(kept)).headers["etag"] == '"1"'


def test_what_was_taken_away_comes_back_by_being_placed(client: TestClient, kept: Value) -> None:
    placement = lay(client, kept)["placement"]
    assert client.delete(place_of(kept), headers={"If-Match": '"1"'}).status_code == 204
    assert client.get(place_of(kept)).status_code == 404
    assert client.get(f"/api/plans/{kept['id']}/underlays").json() == []
    assert client.put(place_of(kept), json=placement, headers={"If-Match": '"1"'}).status_code == 412
    back = client.put(place_of(kept), json=placement, headers={"If-Match": '"0"'})
    assert back.json()["placement"] == placement


def test_every_level_has_its_own_and_goes_and_comes_with_the_plan(client: TestClient) -> None:
    value = den()
    value["levels"].append({"id": "L2", "name": "Upstairs", "elevation": 10})
    kept = client.post("/api/plans", json=value).json()
    lay(client, kept)
    above = client.post(place_of(kept, "L2"), content=file_of(drawing(50, 50))).json()
    before = client.get(f"/api/plans/{kept['id']}/underlays").json()
    assert [each["level"] for each in before] == ["L1", "L2"]
    client.delete(f"/api/plans/{kept['id']}", headers={"If-Match": "*"})
    assert client.get(above["address"]).status_code == 404
    client.post(f"/api/removed/{kept['id']}/restore")
    assert client.get(f"/api/plans/{kept['id']}/underlays").json() == before
    assert client.get(above["address"]).status_code == 200


def test_a_page_of_a_pdf_is_chosen_and_tells_its_pixels_to_an_inch(client: TestClient, kept: Value) -> None:
    source = pdf((8.5, 11), (17, 11))
    pages = client.post("/api/pages", content=source).json()["pages"]
    assert [(page["number"], page["width"], page["height"]) for page in pages] == [(1, 8.5, 11), (2, 17, 11)]
    assert all(page["thumbnail"].startswith("data:image/png;base64,") for page in pages)
    laid = lay(client, kept, source, page=2)
    assert (laid["width"], laid["height"], laid["per_inch"]) == (3400, 2200, 200)


def test_what_cannot_be_used_is_refused_with_one_line_and_keeps_nothing(client: TestClient, kept: Value) -> None:
    refused = {
        b"<svg xmlns='http://www.w3.org/2000/svg'/>": (415, "SVG"),
        b"\x89PNG\r\n\x1a\nbroken": (422, "broken"),
        b"%PDF-1.4 broken": (422, "the PDF is broken"),
        b"": (415, "empty"),
        bytes(MOST_BYTES + 1): (413, "32 MiB; save the picture smaller"),
    }
    for source, (status, words) in refused.items():
        answer = client.post(place_of(kept), content=source)
        assert (answer.status_code, answer.headers["content-type"]) == (status, "application/problem+json")
        assert words in answer.json()["detail"]
    assert client.post(place_of(kept, "L9"), content=file_of(drawing())).status_code == 404
    assert client.post("/api/pages", content=file_of(drawing())).status_code == 415
    assert client.get(f"/api/plans/{kept['id']}/underlays").json() == []


def test_a_file_s_name_is_shown_as_text_alone(client: TestClient, kept: Value) -> None:
    assert lay(client, kept, name="C:\\jobs\\../<b>\u202eplan\n.png")["name"] == "<b>plan.png"


def test_a_copy_of_a_plan_has_its_own_of_everything(client: TestClient, kept: Value) -> None:
    laid = lay(client, kept)
    head = {"letterhead": {"company": "Larkspur"}}
    client.put(f"/api/plans/{kept['id']}/letterhead", json=head, headers={"If-Match": '"0"'})
    answer = client.post(f"/api/plans/{kept['id']}/copy")
    copy = answer.json()
    assert (answer.status_code, answer.headers["location"]) == (201, f"/api/plans/{copy['id']}")
    assert copy["plan"] == kept["plan"] | {"name": f"{kept['plan']['name']} (copy)"}
    own = client.get(place_of(copy)).json()
    assert own["placement"] == laid["placement"]
    assert client.get(own["address"]).content == client.get(laid["address"]).content
    assert client.get(f"/api/plans/{copy['id']}/letterhead").json()["stationery"]["letterhead"]["company"] == "Larkspur"
    client.delete(place_of(copy), headers={"If-Match": "*"})
    assert client.get(place_of(kept)).status_code == 200
    assert client.post("/api/plans/none/copy").status_code == 404


def test_pictures_print_beneath_the_plan_only_when_asked(client: TestClient, kept: Value) -> None:
    lay(client, kept)
    sheet = f"/plans/{kept['id']}/sheet"
    usual, asked = client.get(sheet).text, client.get(f"{sheet}?underlays=faded").text
    assert "<image" not in usual
    assert asked.count("<image") == 1
    assert "Picture laid beneath, faded" in asked
    assert 'name="underlays"' in usual  # the choice is offered
    assert (
        f"/plans/{kept['id']}/sheets.pdf?set=homeowner&amp;paper=letter&amp;scale=auto&amp;habit=us&amp;underlays=faded"
        in asked
    )
    plain, printed = (
        client.get(f"/plans/{kept['id']}/sheets.pdf{query}").content for query in ("", "?underlays=faded")
    )
    assert [len(images_of(content)) for content in (plain, printed)] == [0, 1]
    assert client.get(f"{sheet}?underlays=yes").status_code == 422


def test_a_hidden_picture_is_not_printed_nor_offered(client: TestClient, kept: Value) -> None:
    placement = lay(client, kept)["placement"] | {"shown": False}
    client.put(place_of(kept), json=placement, headers={"If-Match": '"1"'})
    page = client.get(f"/plans/{kept['id']}/sheet?underlays=faded").text
    assert "<image" not in page
    assert 'name="underlays"' not in page


def test_a_plan_begun_from_a_kept_one_takes_the_pictures_of_its_levels_along(client: TestClient, kept: Value) -> None:
    laid = lay(client, kept)
    begun = client.post("/api/plans", params={"pictures_of": kept["id"]}, json=den("Another den"))
    assert begun.status_code == 201, begun.text
    (found,) = client.get(f"/api/plans/{begun.json()['id']}/underlays").json()
    assert found["placement"] == laid["placement"]
    assert client.get(found["address"]).content == client.get(laid["address"]).content
    client.delete(place_of(kept), headers={"If-Match": '"1"'})
    assert client.get(found["address"]).status_code == 200  # it has its own
    other = den("No such level")
    other["levels"][0]["id"] = "basement"
    bare = client.post("/api/plans", params={"pictures_of": begun.json()["id"]}, json=other).json()
    assert client.get(f"/api/plans/{bare['id']}/underlays").json() == []
    count = len(client.get("/api/plans").json())
    assert client.post("/api/plans", params={"pictures_of": "none"}, json=den()).status_code == 404
    assert len(client.get("/api/plans").json()) == count


def images_of(pdf: bytes) -> list[pypdfium2.PdfObject]:
    kind = pypdfium2.raw.FPDF_PAGEOBJ_IMAGE
    document = pypdfium2.PdfDocument(pdf)
    return [found for page in document for found in page.get_objects(filter=[kind], max_depth=8)]
