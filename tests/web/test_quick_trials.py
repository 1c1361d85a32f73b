"""The quick way of a drag call against the routes' own: the same answers, refusals and doors, byte for byte."""

from __future__ import annotations

import json
import re

import pytest
from fastapi.testclient import TestClient

from app.web import quick_trials
from tests.web.plan_values import Value

MOVED = {"level": "L1", "device": {"id": "g1", "kind": "glass_break", "at": [7, 6]}}
BODIES = {
    "a trial": json.dumps(MOVED),
    "another zoom": json.dumps(MOVED | {"scale": 40}),
    "no such level": json.dumps(MOVED | {"level": "attic"}),
    "no zoom": json.dumps(MOVED | {"scale": "near"}),
    "another thing's id": json.dumps(MOVED | {"device": MOVED["device"] | {"id": "w1"}}),  # type: ignore[operator]
    "a key too many": json.dumps(MOVED | {"why": 1}),
    "no device": json.dumps({"level": "L1"}),
    "not finite": '{"level": "L1", "device": {"id": "g1", "kind": "glass_break", "at": [NaN, 6]}}',
    "a key twice": '{"level": "L1", "level": "L1"}',
    "no JSON": "{",
    "a list": "[]",
    "too large": " " * (2**24 + 1),
}


@pytest.fixture
def by_the_routes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(quick_trials, "_TRIAL", re.compile("nothing"))


@pytest.mark.parametrize("path", ["trial", "trial/touched"])
@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("headers", [{}, {"Content-Type": "text/plain"}, {"Origin": "http://elsewhere.example"}])
def test_the_quick_way_answers_as_the_routes_do(
    client: TestClient, kept: Value, path: str, body: str, headers: dict[str, str], request: pytest.FixtureRequest
) -> None:
    place = f"/api/plans/{kept['id']}/{path}"
    quick = client.post(place, content=BODIES[body], headers=headers)
    request.getfixturevalue("by_the_routes")
    routed = client.post(place, content=BODIES[body], headers=headers)
    assert (quick.status_code, quick.content) == (routed.status_code, routed.content)
    assert sorted(quick.headers.items()) == sorted(routed.headers.items())
    assert (quick.status_code == 200) == (not headers and body in ("a trial", "another zoom"))


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("POST", "/api/plans/nowhere/trial"),
        ("POST", "/api/plans/a%2Fb/trial"),
        ("POST", "/api/plans/nowhere/trial/"),
        ("GET", "/api/plans/nowhere/trial"),
        ("HEAD", "/api/plans/nowhere/trial/touched"),
        ("POST", "/api/plans/nowhere/trials"),
    ],
)
def test_other_calls_are_left_to_the_routes(
    client: TestClient, method: str, path: str, request: pytest.FixtureRequest
) -> None:
    quick = client.request(method, path, json=MOVED, follow_redirects=False)
    request.getfixturevalue("by_the_routes")
    routed = client.request(method, path, json=MOVED, follow_redirects=False)
    assert (quick.status_code, quick.content) == (routed.status_code, routed.content)
    assert quick.status_code >= 300
