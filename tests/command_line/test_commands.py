"""The commands of contract §4, as a shell sees them: what they print, and their exit codes."""

from __future__ import annotations

import json
import re
import signal
import socket
import subprocess
import sys
from pathlib import Path

import httpx
import pytest

from app.command_line.entry import COMMANDS, run
from tests.command_line.running import TOP, served, studbay
from tests.web.plan_values import REFUSED, REFUSED_BYTES, Value, den, grid


def written(folder: Path, value: Value, name: str = "plan.json") -> str:
    path = folder / name
    path.write_text(json.dumps(value).replace("Infinity", "1e999"))
    return str(path)


@pytest.fixture
def good(tmp_path: Path) -> str:
    return written(tmp_path, den())


@pytest.fixture
def faulty(tmp_path: Path) -> str:
    """A plan with a finding that must be mended: a detector inside a wall."""
    value = den()
    value["levels"][0]["devices"][0]["at"] = [10, 0]
    return written(tmp_path, value, "faulty.json")


def test_check_prints_json_and_exits_0_without_a_must(good: str) -> None:
    done = studbay("check", good, "--json")
    answer = json.loads(done.stdout)
    assert (done.returncode, done.stderr) == (0, "")
    assert answer["plan"] == "14 Larch Lane"
    assert answer["summary"] | {"panes": 1, "covered": 1, "must": 0} == answer["summary"]
    assert set(answer) >= {"plan", "panes", "rooms", "motions", "findings", "summary"}


def test_check_exits_1_where_something_must_be_mended(faulty: str, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert run(["check", faulty, "--json"]) == 1
    assert json.loads(capfdbinary.readouterr().out)["summary"]["must"] > 0


def test_check_tells_a_designer_panes_rooms_and_findings(
    good: str, faulty: str, capfd: pytest.CaptureFixture[str]
) -> None:
    run(["check", good])
    text = capfd.readouterr().out
    assert "1 of 1 panes covered" in text
    assert re.search(r"o1/1 +Den +covered +g1 +11'-1 1/16\" +100%", text)
    assert re.search(r"Den +287.0 sq ft +91% +m1", text)
    run(["check", faulty])
    text = capfd.readouterr().out
    assert "UNCOVERED" in text
    assert "MUST be mended" in text


def test_a_plan_is_read_from_standard_input() -> None:
    done = studbay("check", "-", "--json", given=json.dumps(den()).encode())
    assert (done.returncode, json.loads(done.stdout)["plan"]) == (0, "14 Larch Lane")


@pytest.mark.parametrize("command", ["check", "pulls"])
@pytest.mark.parametrize("what", REFUSED)
def test_a_plan_with_a_fault_exits_2_with_a_line_for_it(
    command: str, what: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    place, value = REFUSED[what]
    assert run([command, written(tmp_path, value)]) == 2
    out, err = capfd.readouterr()
    assert out == ""
    assert any(line.startswith(place) for line in err.splitlines()), err
    assert all(": " in line for line in err.splitlines())


@pytest.mark.parametrize("what", REFUSED_BYTES)
def test_what_is_no_plan_exits_2(what: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "plan.json").write_bytes(REFUSED_BYTES[what])
    assert run(["check", str(tmp_path / "plan.json")]) == 2
    out, err = capfd.readouterr()
    assert out == ""
    assert len(err.splitlines()) == 1


def test_files_that_cannot_be_read_exit_2(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    for name in (str(tmp_path / "none.json"), str(tmp_path), "\0", ""):
        assert run(["check", name]) == 2
        out, err = capfd.readouterr()
        assert (out, len(err.splitlines())) == ("", 1)


def test_no_refusal_shows_a_traceback(tmp_path: Path) -> None:
    done = studbay("check", written(tmp_path, REFUSED["an id twice"][1]))
    assert (done.returncode, done.stdout) == (2, "")
    assert (
        done.stderr
        == "levels[0].devices[0].id: the id w1 stands already at levels[0].walls[0]; give each thing its own\n"
    )


def test_an_unknown_command_exits_2(capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["chekc"]) == 2
    assert "check" in capfd.readouterr().err


def test_an_unknown_option_exits_2(good: str) -> None:
    with pytest.raises(SystemExit) as left:
        run(["check", good, "--jsno"])
    assert left.value.code == 2


def test_a_reader_that_leaves_is_not_answered_with_a_traceback(tmp_path: Path) -> None:
    plan = written(tmp_path, grid(12, 12, windows=150, detectors=4))
    shell = f"{sys.executable} -m app check {plan} --json | head -c 10"
    done = subprocess.run(["sh", "-c", shell], capture_output=True, cwd=TOP, timeout=120, check=False)
    assert (done.stdout, done.stderr) == (b'{"plan":"1', b"")


def test_pulls_prints_the_schedule(good: str, tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    value = den()
    value["levels"][0]["devices"].append({"id": "c1", "kind": "can", "at": [1, 14]})
    plan = written(tmp_path, value, "can.json")
    assert run(["pulls", plan, "--json"]) == 0
    answer = json.loads(capfdbinary.readouterr().out)
    assert {pull["device"] for pull in answer["pulls"]} == {"g1", "m1"}
    assert set(answer) >= {"pulls", "boxes", "totals"}
    assert run(["pulls", plan, "--csv"]) == 0
    assert capfdbinary.readouterr().out.startswith(b"Label,Cable,")
    assert run(["pulls", good]) == 0


def test_draft_writes_a_plan_that_check_takes(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    value = den()
    value["levels"][0]["devices"] = []
    out = tmp_path / "out.json"
    assert run(["draft", written(tmp_path, value), "-o", str(out)]) == 0
    kinds = {device["kind"] for device in json.loads(out.read_text())["levels"][0]["devices"]}
    assert "glass_break" in kinds
    assert "smoke" not in kinds
    assert run(["check", str(out)]) in (0, 1)
    assert "1 of 1 panes covered" in capfd.readouterr().out


def test_audit_tells_each_plan_and_exits_by_the_worst(
    tmp_path: Path, good: str, capfd: pytest.CaptureFixture[str]
) -> None:
    assert run(["audit", str(tmp_path)]) == 0
    written(tmp_path, grid(1, 1, windows=0, detectors=0) | {"name": "=formula"}, "second.json")
    value = den("third")
    value["levels"][0]["devices"][0]["at"] = [10, 0]
    written(tmp_path, value, "third.json")
    assert run(["audit", str(tmp_path)]) == 1
    assert "3 plans" in capfd.readouterr().out
    written(tmp_path, REFUSED["an id twice"][1], "fourth.json")
    assert run(["audit", str(tmp_path), "--json"]) == 2
    audited = {one["file"]: one for one in json.loads(capfd.readouterr().out)["plans"]}
    assert audited["plan.json"]["summary"]["covered"] == 1
    assert audited["third.json"]["summary"]["must"] > 0
    assert "w1" in audited["fourth.json"]["faults"][0]


def test_audit_shares_many_plans_out_among_processes(tmp_path: Path) -> None:
    for number in range(6):
        written(tmp_path, den(f"plan {number}"), f"{number}.json")
    done = studbay("audit", str(tmp_path))
    assert (done.returncode, done.stderr) == (0, "")
    assert "6 of 6 panes covered" in done.stdout


def test_audit_of_no_plans_exits_2(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    for folder in (tmp_path, tmp_path / "none"):
        assert run(["audit", str(folder)]) == 2
        assert str(folder) in capfd.readouterr().err


def test_schema_prints_the_schema_of_the_plan_file(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert run(["schema"]) == 0
    schema = json.loads(capfdbinary.readouterr().out)
    assert schema["properties"]["format"]["const"] == "studbay-plan/1"


def test_a_server_is_backed_up_while_it_serves_and_put_back(tmp_path: Path) -> None:
    data, out = str(tmp_path / "data"), str(tmp_path / "backup")
    with served("--data", data) as (_, address):
        plan_id = httpx.post(f"{address}/api/plans", json=den(), timeout=60).json()["id"]
        assert run(["backup", out, "--data", data]) == 0
    elsewhere, files = str(tmp_path / "elsewhere"), tmp_path / "files"
    assert run(["restore", out, "--data", elsewhere]) == 0
    assert run(["rescue", str(files), "--data", elsewhere]) == 0
    assert run(["check", str(files / f"{plan_id}.json")]) == 0


def test_wrong_files_for_backup_restore_and_rescue_exit_2(
    tmp_path: Path, good: str, capfd: pytest.CaptureFixture[str]
) -> None:
    data = ["--data", str(tmp_path / "data")]
    for command in (["backup", str(tmp_path / "out")], ["restore", good], ["rescue", str(tmp_path)]):
        assert run([*command, *data]) == 2
        assert len(capfd.readouterr().err.splitlines()) == 1


def test_a_server_is_stopped_by_an_interrupt_without_a_word(tmp_path: Path) -> None:
    with served("--data", str(tmp_path)) as (process, address):
        assert httpx.get(f"{address}/healthz", timeout=60).status_code == 200
        process.send_signal(signal.SIGINT)
        _, err = process.communicate(timeout=60)
    assert (process.returncode, err) == (0, "")


def test_a_body_over_the_limit_is_answered_before_the_connection_is_closed(tmp_path: Path) -> None:
    with served("--data", str(tmp_path)) as (_, address):
        answer = httpx.post(f"{address}/api/plans", content=b" " * (16 * 2**20 + 1), timeout=60)
        assert answer.status_code == 413


def test_a_port_that_is_taken_exits_2_and_says_so(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        done = studbay("--port", port, "--data", str(tmp_path))
    assert done.returncode == 2
    assert f"127.0.0.1:{port}" in done.stderr
    assert len(done.stderr.splitlines()) == 1


def test_a_damaged_plans_file_keeps_the_server_from_starting(tmp_path: Path) -> None:
    (tmp_path / "plans.sqlite3").write_bytes(b"scribble" * 1000)
    done = studbay("--data", str(tmp_path), "--port", "0")
    assert done.returncode == 2
    assert "damaged" in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert (tmp_path / "plans.sqlite3").read_bytes() == b"scribble" * 1000


def test_a_server_that_others_reach_asks_for_a_key_that_it_never_repeats(tmp_path: Path) -> None:
    key = "key of the environment"
    with served("--host", "0.0.0.0", "--data", str(tmp_path), STUDBAY_KEY=key) as (process, address):
        port = address.rsplit(":", 1)[1]
        here = f"http://127.0.0.1:{port}"
        with httpx.Client(base_url=here, timeout=60) as client:
            assert client.get("/api/plans").status_code == 401
            assert client.get("/api/plans", headers={"Authorization": f"Bearer {key}"}).status_code == 200
            assert client.post("/door", data={"key": "wrong key"}).status_code == 403
        process.terminate()
        out, err = process.communicate(timeout=60)
    assert key not in out + err
    assert "wrong key" not in out + err


def test_a_key_that_is_too_short_is_refused(tmp_path: Path) -> None:
    done = studbay("--host", "0.0.0.0", "--port", "0", "--data", str(tmp_path), STUDBAY_KEY="short")
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)


def test_every_command_tells_what_it_takes(capsys: pytest.CaptureFixture[str]) -> None:
    for name in COMMANDS:
        with pytest.raises(SystemExit) as left:
            run([name, "--help"])
        assert left.value.code == 0
        assert f"usage: studbay {name}" in capsys.readouterr().out
    assert run(["--help"]) == 0
    overview = capsys.readouterr().out
    assert [name for name in COMMANDS if name not in overview] == []
