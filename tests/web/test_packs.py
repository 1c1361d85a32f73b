"""Everything as one file by HTTP and by command: out of one data folder and into another."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

from fastapi.testclient import TestClient

from app.storage.opening import open_folder
from tests.command_line.running import studbay
from tests.web.picture_files import drawing, file_of
from tests.web.plan_values import Value, den


def test_a_pack_is_sent_and_found_to_be_here(client: TestClient, kept: Value) -> None:
    client.post(f"/api/plans/{kept['id']}/levels/L1/underlay", content=file_of(drawing()))
    answer = client.get("/api/pack")
    assert answer.headers["content-type"] == "application/zip"
    assert answer.headers["content-disposition"].startswith('attachment; filename="studbay-')
    assert answer.headers["cache-control"] == "no-store"
    names = zipfile.ZipFile(io.BytesIO(answer.content)).namelist()
    assert {"manifest.json", f"plans/{kept['id']}/plan.json", f"plans/{kept['id']}/revisions/1.json"} <= {*names}
    came = client.post("/api/pack", content=answer.content, headers={"Content-Type": "application/zip"})
    assert (came.status_code, {each["how"] for each in came.json()}) == (200, {"here"})


def test_what_is_no_pack_is_a_problem_and_changes_nothing(client: TestClient, kept: Value) -> None:
    before = client.get("/api/plans").json()
    for source in (b"", b"PK\3\4 torn", file_of(drawing())):
        answer = client.post("/api/pack", content=source)
        assert (answer.status_code, answer.headers["content-type"]) == (422, "application/problem+json")
        assert "no pack" in answer.json()["detail"]
    assert client.get("/api/plans").json() == before


def test_by_command_a_pack_goes_from_one_folder_to_another(tmp_path: Path) -> None:
    here, there, out = tmp_path / "here", tmp_path / "there", tmp_path / "all.zip"
    store = open_folder(here)
    from app.plan.reading import plan_from

    store.add(plan_from(den("7 Cooper Row")), "cooper")
    content = store.newest("cooper").content
    store.close()
    written = studbay("pack", str(out), "--data", str(here))
    assert (written.returncode, "keep it as confidential as the plans" in written.stdout) == (0, True)
    assert out.stat().st_mode & 0o777 == 0o600
    assert studbay("pack", str(out), "--data", str(here)).returncode == 2
    brought = studbay("unpack", str(out), "--data", str(there))
    assert brought.returncode == 0
    assert "7 Cooper Row (plan cooper), 1 revision: came in" in brought.stdout
    assert "nothing that was here was changed" in brought.stdout
    other = open_folder(there)
    assert other.newest("cooper").content == content
    other.close()
    notes = tmp_path / "notes.zip"
    notes.write_text("no zip")
    refused = studbay("unpack", str(notes), "--data", str(tmp_path / "none"))
    assert (refused.returncode, refused.stderr.count("\n")) == (2, 1)
    assert not (tmp_path / "none").exists()
