"""The README's reference names every command, route and environment variable, and nothing that is not there."""

from __future__ import annotations

import re

from app.command_line import data_folder, entry, serve
from app.web.factory import API, PAGES
from tests.command_line.running import TOP

REFERENCE = (TOP / "README.md").read_text(encoding="utf-8").partition("\n## Reference\n")[2]


def test_every_command_is_named() -> None:
    assert set(re.findall(r"^\| `studbay (\w+)", REFERENCE, flags=re.MULTILINE)) == set(entry.COMMANDS)


def test_every_call_is_named() -> None:
    named = set(re.findall(r"^\| `([A-Z]+ /\S*)`", REFERENCE, flags=re.MULTILINE))
    routes = {
        f"{method} {route.path}"
        for router in API
        for route in router.routes
        for method in route.methods
        if method != "HEAD"
    }
    assert named == routes


def test_every_page_is_named() -> None:
    paths = {route.path for router in PAGES for route in router.routes}
    assert {path for path in paths if f"`{path}`" not in REFERENCE} <= {"/plans/{plan_id}/picture.svg"}


def test_every_environment_variable_is_named() -> None:
    for name in (serve.KEY_NAMED, data_folder.DATABASE_NAMED, entry.TRACE_NAMED):
        assert f"`{name}`" in REFERENCE
