"""The drag's own line: it says what the calls say, refuses in the same words, and stands behind the same doors."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from fastapi.testclient import TestClient
from starlette.testclient import WebSocketDenialResponse

from app.web.routes.live import LONGEST_QUESTION
from tests.web.conftest import HOME
from tests.web.plan_values import Value, den
from tests.web.test_doors import KEY, guarded
from tests.web.test_quick_trials import BODIES, MOVED

__all__ = ["guarded"]


def address(plan_id: str, home: str = HOME) -> str:
    return f"{home.replace('http', 'ws')}/api/plans/{plan_id}/trial/live"


@contextmanager
def line_to(client: TestClient, place: str, **headers: str) -> Iterator[Any]:
    with client.websocket_connect(place, headers=headers) as line:
        yield line


def refused(client: TestClient, place: str, **headers: str) -> Any:
    with pytest.raises(WebSocketDenialResponse) as turned_away, line_to(client, place, **headers):
        pass
    return turned_away.value


@pytest.mark.parametrize("body", [body for body in BODIES if body != "too large"])
def test_each_question_is_answered_as_the_call_answers_it(client: TestClient, kept: Value, body: str) -> None:
    called = client.post(f"/api/plans/{kept['id']}/trial/touched", content=BODIES[body])
    with line_to(client, address(kept["id"])) as line:
        line.send_text(BODIES[body])
        said = json.loads(line.receive_text())
    expected = {"revision": 1, "answer": called.json()} if called.status_code == 200 else {"problem": called.json()}
    assert said == expected


def test_many_questions_are_answered_in_their_order_and_a_refused_one_ends_nothing(
    client: TestClient, kept: Value
) -> None:
    questions = [MOVED | {"device": MOVED["device"] | {"at": [x, 6]}} for x in (4, 5, 6)]  # type: ignore[operator]
    with line_to(client, address(kept["id"])) as line:
        for question in (questions[0], {"level": "attic"}, *questions[1:]):
            line.send_text(json.dumps(question))
        said = [json.loads(line.receive_text()) for _ in range(4)]
    called = [client.post(f"/api/plans/{kept['id']}/trial/touched", json=question).json() for question in questions]
    assert [one.get("answer") for one in said] == [called[0], None, *called[1:]]
    assert said[1]["problem"]["status"] == 422


def test_an_answer_tells_the_revision_that_it_differs_from(client: TestClient, kept: Value) -> None:
    with line_to(client, address(kept["id"])) as line:
        for revision in (1, 2):
            line.send_bytes(json.dumps(MOVED).encode())
            assert json.loads(line.receive_text())["revision"] == revision
            client.put(f"/api/plans/{kept['id']}", json=den("saved"), headers={"If-Match": f'"{revision}"'})


def test_a_plan_that_is_not_there_and_a_question_that_is_too_long_are_told(client: TestClient, kept: Value) -> None:
    with line_to(client, address("nowhere")) as line:
        line.send_text(json.dumps(MOVED))
        assert json.loads(line.receive_text())["problem"]["status"] == 404
    with line_to(client, address(kept["id"])) as line:
        line.send_text(json.dumps(MOVED) + " " * LONGEST_QUESTION)
        assert json.loads(line.receive_text())["problem"]["status"] == 413


@pytest.mark.parametrize(
    ("home", "headers"),
    [
        ("http://plans.example", {}),
        (HOME, {"Origin": "https://plans.example"}),
        (HOME, {"Origin": "null"}),
        (HOME, {"Sec-Fetch-Site": "cross-site"}),
    ],
)
def test_another_site_s_page_opens_no_line(client: TestClient, kept: Value, home: str, headers: dict[str, str]) -> None:
    answer = refused(client, address(kept["id"], home), **headers)
    assert (answer.status_code, answer.headers["x-content-type-options"]) == (403, "nosniff")


def test_the_server_s_own_page_opens_one(client: TestClient, kept: Value) -> None:
    with line_to(client, address(kept["id"]), Origin=HOME, **{"Sec-Fetch-Site": "same-origin"}) as line:
        line.send_text(json.dumps(MOVED))
        assert "answer" in json.loads(line.receive_text())


def test_without_the_key_there_is_no_line(guarded: TestClient) -> None:
    there = address("nowhere", "http://192.0.2.7:8000")
    assert refused(guarded, there).status_code == 401
    assert refused(guarded, there, Authorization="Bearer wrong").status_code == 401
    with line_to(guarded, there, Authorization=f"Bearer {KEY}") as line:
        line.send_text("{")
        assert json.loads(line.receive_text())["problem"]["status"] == 422
