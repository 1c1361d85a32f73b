"""Who may come in and what the browser may do: hosts, origins, headers, and the access key."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from app.storage.opening import open_folder
from app.web.doors.hosts import name_of
from app.web.doors.passes import Passes
from app.web.factory import create_app
from tests.web.conftest import HOME
from tests.web.plan_values import Value, den

KEY = "a key of the test, long enough"


@pytest.mark.parametrize(
    "host", ["localhost", "localhost:8000", "127.0.0.1:1", "[::1]:8000", "[::1]", "LOCALHOST:8000"]
)
def test_the_machine_s_own_names_are_served(client: TestClient, host: str) -> None:
    assert client.get("/healthz", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        "plans.example",
        "127.0.0.1.plans.example",
        "localhost.plans.example:8000",
        "10.0.0.9",
        "0.0.0.0",
        "[::2]:8000",
        "",
        "localhost:x",
    ],
)
def test_a_foreign_host_is_refused_everywhere(client: TestClient, host: str) -> None:
    for path in ("/", "/api/plans", "/healthz", "/static/home.css"):
        answer = client.get(path, headers={"Host": host})
        assert (answer.status_code, answer.headers["content-type"]) == (403, "application/problem+json")


def test_the_name_of_a_host_is_read_without_its_port() -> None:
    assert name_of("Studio.local:8000") == "studio.local"
    assert name_of("[::1]:8000") == "[::1]"
    assert name_of("::1") == "::1"


def test_a_foreign_origin_may_neither_change_nor_read(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    for origin in ("https://plans.example", "null", "http://127.0.0.1:9000", "http://localhost:8000"):
        headers = {"Origin": origin, "If-Match": '"1"'}
        assert client.put(place, json=den("foreign"), headers=headers).status_code == 403
        assert client.delete(place, headers=headers).status_code == 403
        assert client.post("/api/check", json=den(), headers=headers).status_code == 403
        assert client.get(place, headers=headers).status_code == 403
    assert client.get(place).json() == kept


def test_the_server_s_own_pages_and_programs_may_do_both(client: TestClient) -> None:
    assert client.post("/api/plans", json=den(), headers={"Origin": HOME}).status_code == 201
    assert client.post("/api/plans", json=den()).status_code == 201


def test_a_cross_site_call_without_an_origin_is_refused(client: TestClient) -> None:
    assert client.get("/api/plans", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 403
    assert client.get("/api/plans", headers={"Sec-Fetch-Site": "same-origin"}).status_code == 200
    assert client.get("/", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 200  # a link may be followed


@pytest.mark.parametrize("path", ["/", "/help", "/api/reference", "/api/plans", "/api/nothing", "/static/home.css"])
def test_every_answer_carries_the_browser_s_orders(client: TestClient, path: str) -> None:
    headers = client.get(path).headers
    orders = dict(order.strip().split(" ", 1) for order in headers["content-security-policy"].split(";"))
    assert orders["default-src"] == "'none'"
    assert orders["script-src"] == "'self'"
    assert orders["style-src"] == "'self'"
    assert (orders["frame-ancestors"], orders["base-uri"]) == ("'none'", "'none'")
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert headers["cache-control"] == ("no-cache" if path.startswith("/static") else "no-store")


def test_a_mistake_of_the_program_is_a_problem_with_the_same_orders(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(type(client.app.state.store), "listed", lambda _store: 1 / 0)  # type: ignore[attr-defined]
    answer = client.get("/api/plans")
    assert (answer.status_code, answer.json()["status"]) == (500, 500)
    assert "division" not in answer.text
    assert answer.headers["x-content-type-options"] == "nosniff"


@pytest.fixture
def guarded(data: Path) -> Iterator[TestClient]:
    """A server that asks for the access key; no process of work is started."""
    app = create_app(open_folder(data), hosts=["0.0.0.0"], key=KEY)
    yield TestClient(app, base_url="http://192.0.2.7:8000", follow_redirects=False)
    app.state.store.close()


def test_without_the_key_nothing_is_told(guarded: TestClient) -> None:
    for path in ("/api/plans", "/api/schema", "/plans/x", "/static/home.js", "/help"):
        answer = guarded.get(path)
        assert (answer.status_code, answer.headers["www-authenticate"]) == (401, "Bearer")
    assert guarded.post("/api/plans", json=den()).status_code == 401
    assert guarded.get("/healthz").status_code == 200


def test_a_person_is_led_to_the_door_and_back(guarded: TestClient) -> None:
    led = guarded.get("/plans/abc", headers={"Accept": "text/html"})
    assert (led.status_code, led.headers["location"]) == (303, "/door?to=/plans/abc")
    assert guarded.get(led.headers["location"]).status_code == 200
    opened = guarded.post("/door", data={"key": KEY, "to": "/plans/abc"})
    assert (opened.status_code, opened.headers["location"]) == (303, "/plans/abc")
    cookie = opened.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert KEY not in opened.headers["set-cookie"]
    assert guarded.get("/api/plans").status_code == 200


def test_the_door_sends_nobody_to_another_site(guarded: TestClient) -> None:
    for to in ("https://plans.example/", "//plans.example", "/\\plans.example", "plans.example", "/\nx"):
        assert guarded.post("/door", data={"key": KEY, "to": to}).headers["location"] == "/"


def test_a_program_gives_the_key_as_a_bearer_token(guarded: TestClient) -> None:
    assert guarded.get("/api/plans", headers={"Authorization": f"Bearer {KEY}"}).status_code == 200
    assert guarded.get("/api/plans", headers={"Authorization": "Bearer wrong"}).status_code == 401


def test_wrong_keys_shut_the_door_for_a_while_even_to_the_right_one(guarded: TestClient) -> None:
    told = [guarded.post("/door", data={"key": f"guess {number}"}).status_code for number in range(6)]
    assert told == [403] * 5 + [429]
    shut = guarded.post("/door", data={"key": KEY})
    assert (shut.status_code, int(shut.headers["retry-after"]) > 0) == (429, True)
    assert guarded.get("/api/plans", headers={"Authorization": f"Bearer {KEY}"}).status_code == 429


def test_an_altered_or_outdated_pass_opens_nothing() -> None:
    passes = Passes(KEY)
    good = passes.issue()
    until, mark = good.split(".")
    assert passes.holds(good)
    for bad in (f"{int(until) + 1}.{mark}", f"{until}.{mark[:-1]}", until, "", ".", f"{until}.é", mark):
        assert not passes.holds(bad)
    assert not Passes("another key of the test").holds(good)


def test_an_address_in_figures_is_a_known_host_only_where_every_address_is_listened_to(guarded: TestClient) -> None:
    assert guarded.get("/healthz", headers={"Host": "198.51.100.4:8000"}).status_code == 200
    assert guarded.get("/healthz", headers={"Host": "plans.example:8000"}).status_code == 403
