"""The pages for people: what they show, that names come out as text, and that nothing is fetched from elsewhere."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser

import pytest
from fastapi.testclient import TestClient

from app.command_line.entry import COMMANDS
from app.plan.devices import DEVICE_KINDS
from app.plan.practice import DESIGN_VALUES
from app.review.rulebook import all_rules
from tests.web.plan_values import Value, den

HOSTILE = "</script><script>alert(1)</script>\"'&<img src=x onerror=alert(1)>\u202egnp.exe"


class Seen(HTMLParser):
    """The tags and attributes of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))


@pytest.fixture
def hostile(client: TestClient) -> Value:
    value = den(HOSTILE)
    value["levels"][0]["name"] = HOSTILE
    value["levels"][0]["rooms"][0]["name"] = HOSTILE
    value["levels"][0]["devices"][0]["label"] = HOSTILE
    kept: Value = client.post("/api/plans", json=value).json()
    return kept


def pages_of(client: TestClient, plan_id: str) -> dict[str, str]:
    paths = ("/", f"/plans/{plan_id}", "/templates", "/help", "/api/reference", "/plans/none")
    return {path: client.get(path, headers={"Accept": "text/html"}).text for path in paths}


def test_no_page_runs_inline_code_or_reaches_elsewhere(client: TestClient, hostile: Value) -> None:
    for path, text in pages_of(client, hostile["id"]).items():
        for tag, attributes in Seen(text).tags:
            assert not any(name.startswith("on") or name == "style" for name in attributes), (path, tag, attributes)
            assert tag != "style", path
            if tag == "script":
                assert str(attributes.get("src", "")).startswith("/static/"), path
            for name in ("src", "href"):
                assert not str(attributes.get(name) or "").startswith(("http:", "https:", "//", "javascript:")), path


def test_names_come_out_as_text(client: TestClient, hostile: Value) -> None:
    for path, text in pages_of(client, hostile["id"]).items():
        assert "<script>alert" not in text, path
        assert "<img src=x" not in text, path
    assert "&lt;/script&gt;" in client.get("/").text


def test_names_come_out_as_text_in_drawings(client: TestClient, hostile: Value) -> None:
    for path in (f"/api/plans/{hostile['id']}/levels/L1/overlay.svg", f"/plans/{hostile['id']}/picture.svg"):
        answer = client.get(path)
        assert answer.headers["content-type"].startswith("image/svg+xml")
        assert "<script" not in answer.text
        assert "<img" not in answer.text


def test_the_page_of_a_plan_brings_what_it_begins_from(client: TestClient, hostile: Value) -> None:
    plan = f"/api/plans/{hostile['id']}"
    text = client.get(f"/plans/{hostile['id']}").text
    brought = re.findall(r'<template id="given">([^<&]*)</template>', text)
    asked = {"kept": plan, "tables": "/api/tables", "underlays": f"{plan}/underlays"}
    assert [json.loads(given) for given in brought] == [{key: client.get(at).json() for key, at in asked.items()}]


def test_home_lists_plans_with_links_and_pictures(client: TestClient, kept: Value) -> None:
    tags = Seen(client.get("/").text).tags
    assert ("a", {"class": "open", "href": f"/plans/{kept['id']}"}) in tags
    picture = f"/plans/{kept['id']}/picture.svg?revision=1"
    assert picture in {attributes.get("src") for tag, attributes in tags if tag == "img"}
    assert client.get(picture).text.startswith("<svg")


def test_home_offers_every_sample_to_begin_with(client: TestClient) -> None:
    offered = {attributes.get("value") for tag, attributes in Seen(client.get("/").text).tags if tag == "option"}
    assert {line["id"] for line in client.get("/api/samples").json()} <= offered


def test_every_file_a_page_asks_for_is_there(client: TestClient, kept: Value) -> None:
    for path, text in pages_of(client, kept["id"]).items():
        for _, attributes in Seen(text).tags:
            for name in ("src", "href"):
                asked = str(attributes.get(name) or "")
                if asked.startswith("/static/"):
                    assert client.get(asked).status_code == 200, (path, asked)


def test_a_missing_plan_is_told_on_a_page_to_a_person(client: TestClient) -> None:
    answer = client.get("/plans/none", headers={"Accept": "text/html"})
    assert (answer.status_code, answer.headers["content-type"]) == (404, "text/html; charset=utf-8")
    assert "no plan has the id none" in answer.text
    assert client.get("/plans/none").headers["content-type"] == "application/problem+json"


def test_help_names_every_device_kind_rule_design_value_and_command(client: TestClient) -> None:
    text = client.get("/help").text
    wanted = [kind.name for kind in DEVICE_KINDS] + [rule.name for rule in all_rules()]
    wanted += [value.key for value in DESIGN_VALUES] + [f"studbay {name}" for name in COMMANDS]
    assert [word for word in wanted if word not in text] == []


def test_the_tables_are_those_of_the_program(client: TestClient) -> None:
    tables = client.get("/api/tables").json()
    assert [value["key"] for value in tables["practice"]] == [value.key for value in DESIGN_VALUES]
    kinds = {kind["kind"]: kind for kind in tables["device_kinds"]}
    assert kinds["keypad"]["height"] == 5
    assert kinds["glass_break"]["height"] is None
    assert kinds["door_contact"]["cable"] == "22/2"
    assert kinds["smoke"]["located_by_others"]
