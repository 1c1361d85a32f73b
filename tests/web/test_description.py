"""The published description of the API: it lists every route, and calls made up from it find no mistake."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator

import pytest
import schemathesis
import uvicorn
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, Phase, given, settings
from jsonschema_rs import Draft202012Validator

from app.storage.opening import open_folder
from app.web.factory import API, create_app
from tests.web.plan_values import REFUSED, den, grid

for media_type in ("application/pdf", "application/zip", "application/dxf", "application/x-step"):
    schemathesis.serializer.alias(media_type, "application/octet-stream")  # files are sent as the bytes that they are


def test_the_description_names_every_route_of_the_api(client: TestClient) -> None:
    described = client.get("/api/openapi.json").json()["paths"]
    routes = {(route.path, method.lower()) for router in API for route in router.routes for method in route.methods}
    assert {path for path, _ in routes} == set(described)
    assert all(method in described[path] for path, method in routes)
    page = client.get("/api/reference").text
    assert all(path in page for path in described)


def test_the_schema_takes_plans_and_refuses_wrong_shapes(client: TestClient) -> None:
    judge = Draft202012Validator(client.get("/api/schema").json())
    assert judge.is_valid(den())
    assert judge.is_valid(grid(2, 2, windows=3, detectors=1))
    for what in ("an unknown key", "a name over its limit", "text for a number", "an id with a space", "no levels"):
        assert not judge.is_valid(REFUSED[what][1]), what


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a server that serves in a thread."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        app = create_app(open_folder(tmp_path_factory.mktemp("described")))
        server = uvicorn.Server(uvicorn.Config(app, log_level="error"))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        thread.start()
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
        server.should_exit = True
        thread.join(timeout=20)


def test_calls_made_up_from_the_description_find_no_mistake(served: str) -> None:
    for found in schemathesis.openapi.from_url(f"{served}/api/openapi.json").get_all_operations():
        _call_at_random(found.ok())


def _call_at_random(operation: schemathesis.schemas.APIOperation) -> None:
    @settings(
        max_examples=2 if operation.body else 6,
        deadline=None,
        derandomize=True,
        database=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy())
    def call(case: schemathesis.Case) -> None:
        answer = case.call()
        assert answer.status_code < 500, f"{operation.label}: {answer.text}"
        if answer.status_code >= 400:
            assert answer.headers["content-type"] == ["application/problem+json"], operation.label

    call()
