"""The first pass by HTTP: proposals with reasons for a kept plan, and nothing kept of them."""

from __future__ import annotations

import json

from fastapi.testclient import TestClient

from app.plan.model import Device
from app.plan.reading import plan_from
from app.proposal.draft import draft_answer, draft_plan
from tests.web.plan_values import Value, den


def test_the_answer_is_the_command_s(client: TestClient, kept: Value) -> None:
    answer = client.post(f"/api/plans/{kept['id']}/draft")
    assert answer.status_code == 200, answer.text
    assert answer.headers["etag"] == '"1"'
    assert answer.json() == json.loads(json.dumps(draft_answer(draft_plan(plan_from(den())))))


def test_each_proposal_can_be_taken_and_says_why(client: TestClient, kept: Value) -> None:
    answer = client.post(f"/api/plans/{kept['id']}/draft").json()
    assert answer["proposals"]
    for proposal in answer["proposals"]:
        Device.model_validate(proposal["device"])
        assert proposal["reason"].endswith(".")
        assert proposal["level"] == "L1"


def test_nothing_is_kept_of_a_first_pass(client: TestClient, kept: Value) -> None:
    before = client.get(f"/api/plans/{kept['id']}").json()
    client.post(f"/api/plans/{kept['id']}/draft")
    assert client.get(f"/api/plans/{kept['id']}").json() == before


def test_a_plan_that_is_not_there_is_told(client: TestClient) -> None:
    answer = client.post("/api/plans/nowhere/draft")
    assert answer.status_code == 404
    assert answer.headers["content-type"].startswith("application/problem+json")


def test_contacts_alone_are_those_of_the_whole_pass(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}/draft"
    whole = client.post(place).json()["proposals"]
    contacts = client.post(f"{place}/contacts").json()["proposals"]
    assert [one["room"] for one in contacts] == ["r1"]
    assert [one["device"] for one in contacts] == [
        one["device"] for one in whole if one["device"]["kind"].endswith("contact")
    ]
