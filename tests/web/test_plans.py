"""Plans by HTTP: the table of contract §5, its entity tags, and two people on one plan."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from fastapi.testclient import TestClient

from tests.web.plan_values import Value, den


def test_a_new_plan_is_kept_and_told_where(client: TestClient) -> None:
    answer = client.post("/api/plans", json=den("9 Alder Row"))
    kept = answer.json()
    assert answer.status_code == 201
    assert answer.headers["location"] == f"/api/plans/{kept['id']}"
    assert answer.headers["etag"] == '"1"'
    assert (kept["revision"], kept["plan"]["name"]) == (1, "9 Alder Row")
    assert client.get(answer.headers["location"]).json() == kept


def test_defaults_are_written_out(kept: Value) -> None:
    assert kept["plan"]["levels"][0]["walls"][0]["thickness"] == 0.375
    assert kept["plan"]["units"] == "imperial"


def test_the_list_has_the_last_saved_first(client: TestClient, kept: Value) -> None:
    later = client.post("/api/plans", json=den("later")).json()
    lines = client.get("/api/plans").json()
    assert [line["id"] for line in lines[:2]] == [later["id"], kept["id"]]
    assert set(lines[0]) >= {"id", "name", "revision", "updated"}


def test_a_save_makes_the_next_revision(client: TestClient, kept: Value) -> None:
    answer = client.put(f"/api/plans/{kept['id']}", json=den("renamed"), headers={"If-Match": '"1"'})
    assert (answer.status_code, answer.headers["etag"]) == (200, '"2"')
    assert client.get(f"/api/plans/{kept['id']}").json()["plan"]["name"] == "renamed"


def test_a_save_from_an_old_revision_is_refused_and_changes_nothing(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    client.put(place, json=den("first"), headers={"If-Match": '"1"'})
    late = client.put(place, json=den("second"), headers={"If-Match": '"1"'})
    assert (late.status_code, late.headers["etag"]) == (412, '"2"')
    assert "revision 2" in late.json()["detail"]
    assert client.get(place).json()["plan"]["name"] == "first"


def test_a_tag_that_no_revision_bears_matches_none(client: TestClient, kept: Value) -> None:
    for tag in ('"0"', '"x"', '"99"', 'W/"1"', '"' + "9" * 5000 + '"', "²"):
        answer = client.put(f"/api/plans/{kept['id']}", json=den(), headers={"If-Match": tag.encode("utf-8")})
        assert answer.status_code == 412, tag


def test_a_star_matches_whichever_is_in_force(client: TestClient, kept: Value) -> None:
    assert client.put(f"/api/plans/{kept['id']}", json=den(), headers={"If-Match": "*"}).status_code == 200


def test_a_change_without_a_revision_is_refused(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.put(place, json=den("second")).status_code == 428
    assert client.delete(place).status_code == 428
    assert client.get(place).json() == kept


@pytest.mark.parametrize("tags", ['"1", "7"', '"0","1"', '"4", "1" , "9"', 'W/"1", "1"', '"x", *'])
def test_of_several_tags_one_that_is_in_force_is_enough(client: TestClient, kept: Value, tags: str) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.put(place, json=den("of several"), headers={"If-Match": tags}).status_code == 200
    assert client.put(place, json=den("again"), headers={"If-Match": tags.replace("*", "")}).status_code == 412


def test_tags_in_two_header_lines_are_one_list(client: TestClient, kept: Value) -> None:
    lines = [("If-Match", '"8"'), ("If-Match", '"1"')]
    assert client.delete(f"/api/plans/{kept['id']}", headers=lines).status_code == 204


@pytest.mark.parametrize("tags", ['"2", "3"', 'W/"1"', '"11", "one"', ","])
def test_of_several_tags_none_in_force_changes_nothing(client: TestClient, kept: Value, tags: str) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.put(place, json=den("late"), headers={"If-Match": tags}).status_code == 412
    assert client.delete(place, headers={"If-Match": tags}).status_code == 412
    assert client.get(place).json() == kept


@pytest.mark.parametrize(
    ("method", "path", "allowed"),
    [
        ("PATCH", "/api/plans/{}", "DELETE, GET, HEAD, PUT"),
        ("DELETE", "/api/plans", "GET, HEAD, POST"),
        ("GET", "/api/check", "POST"),
        ("POST", "/static/start.js", "GET, HEAD"),
    ],
)
def test_a_method_that_is_not_answered_is_told_all_that_are(
    client: TestClient, kept: Value, method: str, path: str, allowed: str
) -> None:
    answer = client.request(method, path.format(kept["id"]))
    assert (answer.status_code, answer.headers["allow"]) == (405, allowed)
    assert answer.json()["status"] == 405


def test_of_many_writers_at_once_one_is_kept_and_the_others_are_told(client: TestClient, kept: Value) -> None:
    def write(number: int) -> int:
        headers = {"If-Match": '"1"'}
        return client.put(f"/api/plans/{kept['id']}", json=den(f"writer {number}"), headers=headers).status_code

    with ThreadPoolExecutor(8) as writers:
        told = sorted(writers.map(write, range(8)))
    assert told == [200] + [412] * 7
    assert client.get(f"/api/plans/{kept['id']}").json()["revision"] == 2


def test_a_known_revision_is_not_sent_again(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.get(place, headers={"If-None-Match": '"1"'}).status_code == 304
    assert client.get(place, headers={"If-None-Match": '"7", "8"'}).status_code == 200


def test_a_removed_plan_is_gone_until_it_is_put_back(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.delete(place, headers={"If-Match": '"4"'}).status_code == 412
    assert client.delete(place, headers={"If-Match": '"1"'}).status_code == 204
    for gone in (place, f"{place}/check", f"{place}/revisions", f"{place}/file", f"/plans/{kept['id']}"):
        assert client.get(gone).status_code == 404, gone
    assert kept["id"] not in {line["id"] for line in client.get("/api/plans").json()}
    assert kept["id"] in {line["id"] for line in client.get("/api/removed").json()}
    assert client.post(f"/api/removed/{kept['id']}/restore").json() == kept
    assert client.get(place).json() == kept
    assert client.post(f"/api/removed/{kept['id']}/restore").status_code == 404


def test_every_revision_is_read_and_brought_back(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    client.put(place, json=den("second"), headers={"If-Match": '"1"'})
    lines = client.get(f"{place}/revisions").json()
    assert [(line["revision"], line["name"]) for line in lines] == [(2, "second"), (1, "14 Larch Lane")]
    assert client.get(f"{place}/revisions/1").json() == kept
    assert client.post(f"{place}/revisions/1/restore").status_code == 428
    assert client.post(f"{place}/revisions/1/restore", headers={"If-Match": '"1"'}).status_code == 412
    back = client.post(f"{place}/revisions/1/restore", headers={"If-Match": '"2"'})
    assert (back.json()["revision"], back.json()["plan"]) == (3, kept["plan"])
    assert len(client.get(f"{place}/revisions").json()) == 3


def test_a_revision_that_never_was_is_not_found(client: TestClient, kept: Value) -> None:
    for number in ("2", "2147483647"):
        assert client.get(f"/api/plans/{kept['id']}/revisions/{number}").status_code == 404
    for number in ("0", "-1", "x", "1e9", "99999999999999999999"):
        assert client.get(f"/api/plans/{kept['id']}/revisions/{number}").status_code == 422


def test_the_plan_file_is_downloaded_as_it_is_kept(client: TestClient, kept: Value) -> None:
    answer = client.get(f"/api/plans/{kept['id']}/file")
    assert answer.headers["content-disposition"] == f'attachment; filename="{kept["id"]}.json"'
    assert answer.json() == kept["plan"]


def test_samples_are_offered_and_can_be_kept(client: TestClient) -> None:
    for line in client.get("/api/samples").json():
        plan = client.get(f"/api/samples/{line['id']}")
        assert client.post("/api/plans", content=plan.content).status_code == 201
    assert client.get("/api/samples/none").status_code == 404
    assert client.get("/api/samples/..%2Fpyproject").status_code == 404


def test_head_tells_what_get_would_and_sends_no_body(client: TestClient, kept: Value) -> None:
    for path in (f"/api/plans/{kept['id']}", "/", "/static/home.css"):
        head, get = client.head(path), client.get(path)
        assert (head.status_code, head.content) == (200, b"")
        for name in ("content-length", "content-type", "etag"):
            assert head.headers.get(name) == get.headers.get(name)
    assert client.head("/api/plans/none").status_code == 404
