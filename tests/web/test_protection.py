"""Protection by HTTP: the answer of the pure side, in the shape that the description tells."""

from __future__ import annotations

import json
from typing import Any

from fastapi.testclient import TestClient

from app.plan.reading import plan_from
from app.review.house import House
from app.review.protection import protection
from app.storage.samples import sample_names
from app.web.routes.protection import ProtectionAnswer
from tests.web.plan_values import Value, den


def asked(client: TestClient, plan_id: str) -> Any:
    answer = client.get(f"/api/plans/{plan_id}/protection")
    assert answer.status_code == 200, answer.text
    return answer.json()


def test_the_answer_is_that_of_the_pure_side(client: TestClient, kept: Value) -> None:
    assert asked(client, kept["id"]) == json.loads(json.dumps(protection(House(plan_from(den())))))


def test_a_window_without_contact_is_told_by_motion_in_away_only(client: TestClient, kept: Value) -> None:
    states = asked(client, kept["id"])["states"]
    assert [(one["id"], one["gaps"], one["stay"], one["away"]) for one in states["openings"]] == [
        ("o1", ["opened"], "nothing", "inside")
    ]
    assert states["stay_loses"]["openings"] == ["o1"]


def test_every_sample_has_the_described_shape(client: TestClient) -> None:
    names = sample_names()
    assert names
    for name in names:
        plan_id = client.post("/api/plans", json=client.get(f"/api/samples/{name}").json()).json()["id"]
        ProtectionAnswer.model_validate(asked(client, plan_id), extra="forbid")


def test_the_answer_follows_the_newest_revision(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    changed = den()
    changed["levels"][0]["devices"].append({"id": "c1", "kind": "window_contact", "at": [7, 0], "serves": ["o1"]})
    client.put(place, json=changed, headers={"If-Match": '"1"'})
    answer = client.get(f"{place}/protection")
    assert answer.headers["etag"] == '"2"'
    assert answer.json()["states"]["openings"][0]["stay"] == "at the opening"


def test_a_plan_that_is_not_there_is_told(client: TestClient) -> None:
    assert client.get("/api/plans/nowhere/protection").status_code == 404
