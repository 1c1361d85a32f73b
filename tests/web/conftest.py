"""One server for the tests of this folder, called in this process; each test makes the plans it needs."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from app.storage.opening import open_folder
from app.web.factory import create_app
from tests.web.plan_values import Value, den

HOME = "http://127.0.0.1:8000"


@pytest.fixture(scope="session")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    app = create_app(open_folder(tmp_path_factory.mktemp("plans")))
    with TestClient(app, base_url=HOME, raise_server_exceptions=False) as client:
        yield client


@pytest.fixture
def kept(client: TestClient) -> Value:
    """A plan that was just kept: its id, revision and plan."""
    answer: Value = client.post("/api/plans", json=den()).json()
    return answer


@pytest.fixture
def data(tmp_path: Path) -> Path:
    return tmp_path / "data"
