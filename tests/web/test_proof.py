"""The proof by HTTP: check, trial and overlay agree with each other and with the command's answer."""

from __future__ import annotations

import json
import xml.etree.ElementTree as ET

import pytest
from fastapi.testclient import TestClient

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.web.plan_values import Value, den, grid

CAN_HEAR = {"id": "g1", "kind": "glass_break", "at": [7, 6]}
TOO_FAR = {"id": "g1", "kind": "glass_break", "at": [19, 14]}


def tried(client: TestClient, kept: Value, device: Value, **more: object) -> Value:
    answer = client.post(f"/api/plans/{kept['id']}/trial", json={"level": "L1", "device": device} | more)
    assert answer.status_code == 200, answer.text
    value: Value = answer.json()
    return value


def test_the_check_is_the_command_s(client: TestClient, kept: Value) -> None:
    expected = json.loads(json.dumps(check_plan(plan_from(den()))))
    stored = client.get(f"/api/plans/{kept['id']}/check")
    assert stored.json() == expected
    assert stored.headers["etag"] == '"1"'
    assert client.post("/api/check", json=den()).json() == expected


def test_a_check_of_a_sent_plan_keeps_nothing(client: TestClient, kept: Value) -> None:
    before = client.get("/api/plans").json()
    assert client.post("/api/check", json=den("not kept")).status_code == 200
    assert client.get("/api/plans").json() == before


def test_a_check_follows_the_newest_revision(client: TestClient, kept: Value) -> None:
    place = f"/api/plans/{kept['id']}"
    assert client.get(f"{place}/check").json()["summary"]["covered"] == 1
    changed = den()
    changed["levels"][0]["devices"][0] = TOO_FAR
    client.put(place, json=changed, headers={"If-Match": '"1"'})
    assert client.get(f"{place}/check").json()["summary"]["covered"] == 0


def test_a_trial_tells_how_the_level_would_stand_and_stores_nothing(client: TestClient, kept: Value) -> None:
    near, far = tried(client, kept, CAN_HEAR), tried(client, kept, TOO_FAR)
    assert [pane["status"] for pane in near["panes"]] == ["covered"]
    assert [pane["status"] for pane in far["panes"]] == ["uncovered"]
    assert client.get(f"/api/plans/{kept['id']}").json() == kept


def test_a_trial_is_what_a_check_gives_once_the_device_is_saved(client: TestClient) -> None:
    value = grid(3, 3, windows=12, detectors=4)
    kept = client.post("/api/plans", json=value).json()
    moved = {"id": "g2", "kind": "glass_break", "at": [14.5, 13.25]}
    would_be = tried(client, kept, moved)["panes"]
    value["levels"][0]["devices"][2] = moved
    after = client.post("/api/check", json=value).json()["panes"]
    keys = ("id", "status", "fractions", "best", "segment", "stretches")
    assert [{key: pane[key] for key in keys} for pane in would_be] == [
        {key: pane[key] for key in keys} for pane in after
    ]


def parts_of(svg: str) -> dict[str, str]:
    """The parts of an overlay by what they are about."""
    parts = {}
    for group in ET.fromstring(svg):
        name = group.get("class", "")
        for part in group if name != "leaders" else ():
            mark = part.get("data-mark")
            about = f"mark {mark}" if mark else part.get("data-pane") or part.get("data-device") or part.get("class")
            parts[f"{name} {about}"] = plain(part)
        if name == "leaders":
            parts[name] = plain(group)
    return parts


def plain(part: ET.Element) -> str:
    return ET.canonicalize(ET.tostring(part, encoding="unicode"))


@pytest.mark.parametrize(
    "device",
    [
        {"id": "g2", "kind": "glass_break", "at": [14.5, 13.25]},
        {"id": "g2", "kind": "glass_break", "at": [500, 500]},
        {"id": "new", "kind": "glass_break", "at": [5, 5]},
        {"id": "g2", "kind": "motion", "at": [5, 5], "facing": 45},
        {"id": "m1", "kind": "motion", "at": [500, 500], "facing": 45},
    ],
)
def test_what_a_trial_touches_laid_over_the_stored_plan_is_the_trial(client: TestClient, device: Value) -> None:
    value = grid(3, 3, windows=12, detectors=4)
    value["levels"][0]["devices"].append({"id": "m1", "kind": "motion", "at": [3, 3], "facing": 45})
    kept = client.post("/api/plans", json=value).json()
    place, body = f"/api/plans/{kept['id']}", {"level": "L1", "device": device, "scale": 9}
    whole = client.post(f"{place}/trial", json=body).json()
    answer = client.post(f"{place}/trial/touched", json=body)
    assert answer.headers["etag"] == '"1"'
    touched, standing = answer.json(), client.get(f"{place}/check").json()
    keys = ("id", "status", "why", "fractions", "best", "stretches")
    laid = {pane["id"]: pane for pane in (*standing["panes"], *touched["panes"])}
    assert [{key: laid[pane["id"]][key] for key in keys} for pane in whole["panes"]] == [
        {key: pane[key] for key in keys} for pane in whole["panes"]
    ]
    moved = {motion["id"]: motion for motion in (*standing["motions"], *touched["motions"])}
    assert all(moved[motion["id"]]["area_sqft"] == motion["area_sqft"] for motion in whole["motions"])
    drawn, pieces = parts_of(client.get(f"{place}/levels/L1/overlay.svg?scale=9").text), touched["overlay"]
    changed = {f"glass {pane}": text for pane, text in pieces["panes"].items()}
    changed |= {f"glass mark {pane}": text for pane, text in pieces["marks"].items()}
    changed |= {f"{kind} {about}": text for kind in ("reach", "motion") for about, text in pieces[kind].items()}
    for about, text in {**changed, "leaders": pieces["leaders"]}.items():
        drawn.pop(about, None)
        if text:
            drawn[about] = plain(ET.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg">{text}</svg>')[0])
    assert drawn == parts_of(whole["overlay"])


def test_a_trial_adds_a_device_that_is_new(client: TestClient, kept: Value) -> None:
    answer = tried(client, kept, CAN_HEAR | {"id": "g9"})
    assert set(answer["panes"][0]["fractions"]) == {"g1", "g9"}


def test_a_trial_of_a_motion_detector_tells_the_watched_floor(client: TestClient, kept: Value) -> None:
    corner = {"id": "m1", "kind": "motion", "at": [0.3, 0.3], "facing": 45}
    away = corner | {"facing": 225}
    watched = [room["motion_fraction"] for room in tried(client, kept, corner)["rooms"]]
    assert watched[0] > 0.98
    assert [room["motion_fraction"] for room in tried(client, kept, away)["rooms"]] < watched


@pytest.mark.parametrize("path", ["trial", "stored"])
def test_the_overlay_is_svg_without_script_or_style(client: TestClient, kept: Value, path: str) -> None:
    if path == "trial":
        text = tried(client, kept, CAN_HEAR, scale=24)["overlay"]
    else:
        answer = client.get(f"/api/plans/{kept['id']}/levels/L1/overlay.svg")
        assert answer.headers["content-type"].startswith("image/svg+xml")
        text = answer.text
    root = ET.fromstring(text)
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert all("style" not in part.attrib and "script" not in part.tag for part in root.iter())


@pytest.mark.parametrize(
    ("body", "place"),
    [
        ([], ""),
        ({}, "level"),
        ({"level": "L1"}, "device"),
        ({"level": 1, "device": CAN_HEAR}, "level"),
        ({"level": "L1", "device": None}, "device"),
        ({"level": "L1", "device": CAN_HEAR | {"at": [1, None]}}, "device.at[1]"),
        ({"level": "L1", "device": CAN_HEAR | {"kind": "drone"}}, "device.kind"),
        ({"level": "L1", "device": CAN_HEAR | {"at": [20_000, 0]}}, "device.at[0]"),
        ({"level": "L1", "device": CAN_HEAR, "scale": -1}, "scale"),
        ({"level": "L1", "device": CAN_HEAR, "seconds": 9}, "seconds"),
    ],
)
def test_a_trial_with_a_fault_is_refused_at_its_place(
    client: TestClient, kept: Value, body: object, place: str
) -> None:
    answer = client.post(f"/api/plans/{kept['id']}/trial", json=body)
    assert answer.status_code == 422
    assert place in {error["at"] for error in answer.json()["errors"]}


def test_a_trial_s_device_bears_no_id_of_another_thing(client: TestClient, kept: Value) -> None:
    level = kept["plan"]["levels"][0]
    for taken in (level["walls"][0]["id"], level["openings"][0]["id"], level["id"]):
        for call in ("trial", "pulls/trial"):
            body = {"level": level["id"], "device": CAN_HEAR | {"id": taken}}
            answer = client.post(f"/api/plans/{kept['id']}/{call}", json=body)
            assert answer.status_code == 422
            assert [error["at"] for error in answer.json()["errors"]] == ["device.id"]


def test_a_trial_s_device_bears_no_id_of_another_level_s(client: TestClient) -> None:
    value = den()
    value["levels"].append({"id": "L2", "name": "Upper", "devices": [CAN_HEAR | {"id": "upstairs"}]})
    plan_id = client.post("/api/plans", json=value).json()["id"]
    for level, status in (("L2", 200), ("L1", 422)):
        body = {"level": level, "device": CAN_HEAR | {"id": "upstairs"}}
        assert client.post(f"/api/plans/{plan_id}/trial", json=body).status_code == status


def test_a_trial_on_a_level_that_is_not_there_is_not_found(client: TestClient, kept: Value) -> None:
    answer = client.post(f"/api/plans/{kept['id']}/trial", json={"level": "L9", "device": CAN_HEAR})
    assert answer.status_code == 404
    assert "L1" in answer.json()["detail"]
