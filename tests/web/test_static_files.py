"""The page's own files: compressed, known again by tag, kept for good under a versioned name; the graph of modules."""

from __future__ import annotations

import gzip
import os
import re
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from app.web.modules import needed_by
from app.web.static_files import digest_of
from app.web.templates import STATIC

WEIGHT = 200_000  # bytes of script, as sent
MODULE = "/static/start.js"


def test_a_script_is_sent_compressed_and_is_the_file(client: TestClient) -> None:
    packed = client.get(MODULE, headers={"Accept-Encoding": "gzip"})
    plain = client.get(MODULE, headers={"Accept-Encoding": "identity"})
    assert packed.headers["content-encoding"] == "gzip"
    assert "content-encoding" not in plain.headers
    assert packed.content == plain.content == (STATIC / "start.js").read_bytes()
    assert int(packed.headers["content-length"]) < len(plain.content) / 2
    assert packed.headers["vary"] == plain.headers["vary"] == "Accept-Encoding"
    assert packed.headers["etag"] != plain.headers["etag"]


def test_a_file_that_the_browser_has_is_not_sent_again(client: TestClient) -> None:
    tag = client.get(MODULE).headers["etag"]
    again = client.get(MODULE, headers={"If-None-Match": tag})
    assert again.status_code == 304
    assert again.content == b""
    assert again.headers["etag"] == tag
    assert again.headers["cache-control"] == "no-cache"


def test_a_versioned_name_holds_for_good(client: TestClient) -> None:
    answer = client.get(f"/static/~{digest_of(STATIC)}/start.js")
    assert answer.content == (STATIC / "start.js").read_bytes()
    assert "immutable" in answer.headers["cache-control"]


@pytest.mark.parametrize(
    "path", ["../pyproject.toml", "~000000000000/../../pyproject.toml", "%2e%2e/pyproject.toml", "page"]
)
def test_nothing_but_files_of_the_folder_is_served(client: TestClient, path: str) -> None:
    assert client.get(f"/static/{path}").status_code in (404, 405)


def test_the_version_changes_with_a_file(tmp_path: Path) -> None:
    script = tmp_path / "one.js"
    script.write_text("1;")
    before = digest_of(tmp_path)
    assert digest_of(tmp_path) == before
    script.write_text("2;")
    os.utime(script, ns=(1, 1))
    assert digest_of(tmp_path) != before


def test_modules_are_found_through_imports_of_every_form(tmp_path: Path) -> None:
    (tmp_path / "deep").mkdir()
    (tmp_path / "start.js").write_text(
        '/** @import { T } from "./types.js" */\nimport {\n  a,\n} from "./deep/a.js";\n'
        'import "./side.js";\nimport("./late.js");\n'
    )
    (tmp_path / "deep/a.js").write_text('export { b as a } from "../b.js";\n')
    (tmp_path / "b.js").write_text('import * as s from "./side.js";\nexport const b = s;\n')
    (tmp_path / "side.js").write_text("")
    assert needed_by(tmp_path, "start.js") == ["start.js", "deep/a.js", "side.js", "b.js"]
    (tmp_path / "b.js").write_text('import "./gone.js";\n')
    with pytest.raises(FileNotFoundError):
        needed_by(tmp_path, "start.js")


def test_the_plan_s_page_names_every_module_it_needs_and_no_other(client: TestClient, kept: dict[str, str]) -> None:
    page = client.get(f"/plans/{kept['id']}").text
    named = re.findall(r'<link rel="modulepreload" href="/static/~[0-9a-f]{12}/([^"]+)">', page)
    assert named == needed_by(STATIC, "start.js", "panels/shell_tools.js")
    assert len(set(named)) == len(named) > 30
    for late in (
        "panels/shell.js",
        "panels/proof.js",
        "panels/cable.js",
        "panels/inspector.js",
        "gestures/draw_wall.js",
        "server/trial.js",
        "drawing/underlay.js",
    ):
        assert late not in named


def test_the_weight_of_the_scripts_is_bounded() -> None:
    def sent(modules: list[str]) -> int:
        return sum(len(gzip.compress((STATIC / module).read_bytes(), 9)) for module in modules)

    first = needed_by(STATIC, "start.js", "panels/shell_tools.js")
    assert sum((STATIC / module).stat().st_size for module in first) < WEIGHT  # even as they are written
    gestures = [module.relative_to(STATIC).as_posix() for module in (STATIC / "gestures").glob("*.js")]
    late = ["panels/inspector.js", "panels/help.js", "find/find_box.js", "panels/shell.js", *gestures]
    assert sent(needed_by(STATIC, "start.js", *late)) < WEIGHT  # with all that is fetched ahead
    for step in ("shell", "devices", "proof", "cable", "handover"):
        assert sent(needed_by(STATIC, "start.js", f"panels/{step}.js", *late)) < WEIGHT


def test_style_sheets_are_joined_in_the_order_named_and_nothing_else_is(client: TestClient) -> None:
    joined = client.get("/static/page/frame.css,page/drawing.css")
    sheets = [(STATIC / "page" / name).read_bytes() for name in ("frame.css", "drawing.css")]
    assert joined.headers["content-type"].startswith("text/css")
    assert joined.content == b"\n".join(sheets)
    assert (
        client.get(
            "/static/page/frame.css,page/drawing.css", headers={"If-None-Match": joined.headers["etag"]}
        ).status_code
        == 304
    )
    for other in (
        "start.js,desk.js",
        "page/frame.css,start.js",
        "page/frame.css,../pyproject.toml",
        "page/frame.css,page/gone.css",
        ",".join(["page/frame.css"] * 21),
    ):
        assert client.get(f"/static/{other}").status_code == 404


def test_what_opens_a_plan_names_nothing_beyond_the_server(client: TestClient, kept: dict[str, str]) -> None:
    pages = [client.get("/").text, client.get(f"/plans/{kept['id']}").text, client.get("/help").text]
    for page in pages:
        assert not re.findall(r'(?:src|href)="(?:https?:)?//[^"]*"', page)
    for script in STATIC.rglob("*.js"):
        assert not re.search(r'(?:from|import\(|fetch\()\s*[`"](?:https?:)?//', script.read_text("utf-8")), script
