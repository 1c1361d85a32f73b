"""Every refusal of contract §2 by HTTP: a problem that names the place, and nothing kept, changed or broken."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Iterator

import pytest
from fastapi.testclient import TestClient
from starlette.types import Message

from app.plan.reading import LARGEST_FILE
from tests.web.plan_values import REFUSED, REFUSED_BYTES, Value, den

JSON = {"Content-Type": "application/json"}


def sent(value: Value) -> bytes:
    return json.dumps(value).replace("1e+999", "1e999").encode()


@pytest.fixture(autouse=True)
def _nothing_is_kept(client: TestClient, kept: Value) -> Iterator[None]:
    before = client.get("/api/plans").json()
    yield
    assert client.get("/api/plans").json() == before
    assert client.get(f"/api/plans/{kept['id']}").json() == kept


@pytest.mark.parametrize("what", REFUSED)
def test_a_plan_with_a_fault_is_refused_at_its_place(client: TestClient, kept: Value, what: str) -> None:
    place, value = REFUSED[what]
    calls = [("POST", "/api/plans"), ("POST", "/api/check"), ("PUT", f"/api/plans/{kept['id']}")]
    for method, path in calls:
        answer = client.request(method, path, content=sent(value), headers=JSON | {"If-Match": '"1"'})
        problem = answer.json()
        assert answer.status_code == 422, path
        assert answer.headers["content-type"] == "application/problem+json"
        assert set(problem) >= {"type", "title", "status", "detail", "errors"}
        assert any(error["at"].startswith(place) for error in problem["errors"]), problem["errors"]
        assert all(error["message"] for error in problem["errors"])


@pytest.mark.parametrize("what", REFUSED_BYTES)
def test_what_is_no_plan_is_refused(client: TestClient, what: str) -> None:
    for path in ("/api/plans", "/api/check"):
        answer = client.post(path, content=REFUSED_BYTES[what], headers=JSON)
        assert answer.status_code == 422, answer.text
        assert answer.json()["errors"]


def test_all_faults_of_a_plan_are_told_at_once(client: TestClient) -> None:
    value = den()
    level = value["levels"][0]
    level["walls"][0]["b"] = [99_999, 0]
    level["openings"][0]["kind"] = "hatch"
    level["devices"][1]["facing"] = None
    level["devices"][1]["spin"] = 3
    places = {error["at"] for error in client.post("/api/plans", json=value).json()["errors"]}
    assert places >= {"levels[0].walls[0].b[0]", "levels[0].openings[0].kind", "levels[0].devices[1].spin"}


def test_fifty_thousand_and_one_things_are_refused(client: TestClient) -> None:
    value = den()
    value["levels"][0]["walls"] = [{"id": f"w{i}", "a": [0, 0], "b": [20, i]} for i in range(50_001)]
    answer = client.post("/api/plans", json=value)
    assert answer.status_code == 422
    assert "50,000" in answer.json()["errors"][0]["message"]


def test_a_body_over_the_limit_is_refused(client: TestClient, kept: Value) -> None:
    body = b" " * (LARGEST_FILE + 1)
    for path in ("/api/plans", "/api/check", f"/api/plans/{kept['id']}/trial"):
        answer = client.post(path, content=body, headers=JSON)
        assert (answer.status_code, answer.json()["status"]) == (413, 413)
        assert [error["at"] for error in answer.json()["errors"]] == [""]
    answer = client.put(f"/api/plans/{kept['id']}", content=body, headers=JSON | {"If-Match": '"1"'})
    assert answer.status_code == 413


def test_a_body_of_the_largest_size_is_read(client: TestClient) -> None:
    body = json.dumps(den()).encode()
    answer = client.post("/api/check", content=body + b" " * (LARGEST_FILE - len(body)), headers=JSON)
    assert answer.status_code == 200


def test_a_body_without_end_is_not_read_to_its_end(client: TestClient) -> None:
    given, told = 0, []
    scope = {"type": "http", "http_version": "1.1", "method": "POST", "path": "/api/plans", "raw_path": b"/api/plans"}
    scope |= {"query_string": b"", "root_path": "", "scheme": "http", "headers": [(b"host", b"localhost")]}

    async def receive() -> Message:
        nonlocal given
        given += 2**20
        return {"type": "http.request", "body": b" " * 2**20, "more_body": True}

    async def send(message: Message) -> None:
        told.append(message)

    asyncio.run(client.app(scope, receive, send))
    assert told[0]["status"] == 413
    assert given < 5 * LARGEST_FILE


def test_a_declared_length_far_over_the_limit_is_refused_unread(client: TestClient) -> None:
    answer = client.post("/api/plans", content=b"{}", headers=JSON | {"Content-Length": str(10**12)})
    assert answer.status_code == 413


def test_a_body_that_says_it_is_something_else_is_refused(client: TestClient) -> None:
    for said in ("application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain", "image/png"):
        answer = client.post("/api/plans", content=json.dumps(den()), headers={"Content-Type": said})
        assert answer.status_code == 415, said
        assert "application/json" in answer.json()["detail"]


def test_unknown_places_and_methods_are_problems(client: TestClient, kept: Value) -> None:
    for method, path, status in (
        ("GET", "/api/nothing", 404),
        ("GET", "/api/plans/none", 404),
        ("GET", "/api/plans/none/check", 404),
        ("GET", f"/api/plans/{kept['id']}/levels/L9/overlay.svg", 404),
        ("GET", "/static/nothing.js", 404),
        ("PATCH", "/api/plans", 405),
        ("POST", f"/api/plans/{kept['id']}", 405),
        ("GET", "/api/check", 405),
    ):
        answer = client.request(method, path)
        assert (answer.status_code, answer.json()["status"]) == (status, status), path
        assert answer.headers["content-type"] == "application/problem+json"


@pytest.mark.parametrize(
    "hostile", ["..%2f..%2fetc%2fpasswd", "%00", "a" * 3000, "%f0%9f%8f%a0", "'%20OR%201=1--", "<script>", "%ff%fe"]
)
def test_a_hostile_id_reaches_nothing(client: TestClient, hostile: str) -> None:
    for path in (f"/api/plans/{hostile}", f"/plans/{hostile}", f"/api/samples/{hostile}", f"/static/{hostile}"):
        assert client.get(path).status_code == 404
    assert client.delete(f"/api/plans/{hostile}", headers={"If-Match": '"1"'}).status_code == 404
