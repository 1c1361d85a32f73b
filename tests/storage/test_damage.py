"""A damaged plans file is told in clear words and never overwritten; what can still be read is given out."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from app.plan.reading import plan_from, read_plan
from app.storage.backup import back_up, put_back, still_readable
from app.storage.opening import open_folder
from app.storage.place import DATABASE_NAME
from app.storage.troubles import StoreDamaged, StoreRefused
from tests.web.plan_values import den, grid


@pytest.fixture
def database(tmp_path: Path) -> Path:
    """A closed plans file with two plans, ``a`` in two revisions and ``b``."""
    store = open_folder(tmp_path)
    store.add(plan_from(den("a, first")), "a")
    store.save("a", plan_from(den("a, second")), 1)
    store.add(plan_from(grid(6, 6, windows=20, detectors=3)), "b")
    store.close()
    return tmp_path / DATABASE_NAME


def spoil_revision(database: Path, plan_id: str, number: int) -> None:
    with sqlite3.connect(database) as connection:
        connection.execute(
            "UPDATE revisions SET content = zeroblob(50) WHERE plan_id = ? AND number = ?", (plan_id, number)
        )
    connection.close()


@pytest.mark.parametrize("damage", ["no database", "torn", "scribbled"])
def test_a_damaged_file_is_told_and_left_as_it_is(database: Path, damage: str) -> None:
    whole = database.read_bytes()
    spoiled = {
        "no database": b"this is no database, but somebody's notes" * 200,
        "torn": whole[: len(whole) // 2 // 4096 * 4096],
        "scribbled": whole[:8192] + b"\xff" * 8192 + whole[16384:],
    }[damage]
    database.write_bytes(spoiled)
    with pytest.raises(StoreDamaged, match=r"damaged .* left as it is.* restore .* rescue"):
        open_folder(database.parent)
    assert database.read_bytes() == spoiled


def test_a_damaged_revision_is_told_and_the_earlier_one_is_brought_back(database: Path) -> None:
    spoil_revision(database, "a", 2)
    store = open_folder(database.parent)
    with pytest.raises(StoreDamaged, match="revision 2 of the plan a"):
        store.newest("a")
    assert store.revision("a", 1).plan().name == "a, first"
    assert store.bring_back("a", 1, 2).plan().name == "a, first"
    assert store.newest("a").revision == 3
    store.close()


def test_what_can_be_read_of_a_damaged_file_is_given_out(database: Path) -> None:
    spoil_revision(database, "a", 2)
    spoil_revision(database, "b", 1)
    given = {plan.plan_id: plan for plan in still_readable(database)}
    assert read_plan(given["a"].content or b"").name == "a, first"
    assert given["b"].content is None


def test_a_backup_holds_every_revision_while_the_store_serves(database: Path, tmp_path: Path) -> None:
    store = open_folder(database.parent)
    out = tmp_path / "backup"
    back_up(database, out)
    store.save("a", plan_from(den("a, after the backup")), 2)
    assert out.stat().st_mode & 0o777 == 0o600
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    put_back(out, elsewhere / DATABASE_NAME)
    restored = open_folder(elsewhere)
    assert [entry.name for entry in restored.revisions("a")] == ["a, second", "a, first"]
    restored.close()
    store.close()


def test_a_backup_put_back_keeps_what_was_there_aside(database: Path, tmp_path: Path) -> None:
    out = tmp_path / "backup"
    back_up(database, out)
    store = open_folder(database.parent)
    store.save("a", plan_from(den("a, third")), 2)
    aside = put_back(out, database)
    assert store.newest("a").revision == 2  # the store that serves sees it at once
    store.close()
    assert aside is not None
    assert {plan.plan_id: plan.revision for plan in still_readable(aside)}["a"] == 3


def test_a_backup_is_put_in_place_of_a_damaged_file(database: Path, tmp_path: Path) -> None:
    out = tmp_path / "backup"
    back_up(database, out)
    database.write_bytes(b"scribble" * 1000)
    aside = put_back(out, database)
    store = open_folder(database.parent)
    assert store.newest("a").plan().name == "a, second"
    store.close()
    assert aside is not None
    assert aside.read_bytes() == b"scribble" * 1000


def test_nothing_is_overwritten_by_a_backup(database: Path, tmp_path: Path) -> None:
    out = tmp_path / "notes.txt"
    out.write_text("notes")
    with pytest.raises(StoreRefused, match="there already"):
        back_up(database, out)
    assert out.read_text() == "notes"


def test_a_file_that_is_no_backup_is_refused_and_changes_nothing(database: Path, tmp_path: Path) -> None:
    before = database.read_bytes()
    other = tmp_path / "other.sqlite3"
    with sqlite3.connect(other) as connection:
        connection.execute("CREATE TABLE songs (name TEXT)")
    connection.close()
    notes = tmp_path / "notes"
    notes.write_text("no database " * 500)
    for wrong in (other, notes, tmp_path / "missing"):
        with pytest.raises(StoreRefused):
            put_back(wrong, database)
    assert database.read_bytes() == before


def test_a_damaged_backup_is_refused(database: Path, tmp_path: Path) -> None:
    out = tmp_path / "backup"
    back_up(database, out)
    whole = out.read_bytes()
    out.write_bytes(whole[:8192] + b"\xff" * 8192 + whole[16384:])
    with pytest.raises(StoreDamaged):
        put_back(out, database)
    assert {plan.plan_id for plan in still_readable(database)} >= {"a", "b"}


def test_a_backup_of_an_older_studbay_is_brought_up_to_date(database: Path, tmp_path: Path) -> None:
    out = tmp_path / "backup"
    back_up(database, out)
    later = ("history", "as_built", "underlays", "pictures", "letterheads", "templates")
    with sqlite3.connect(out) as connection:
        for table in later:
            connection.execute(f"DROP TABLE {table}")
        connection.execute("UPDATE alembic_version SET version_num = '0001'")
    connection.close()
    serving = open_folder(database.parent)
    put_back(out, database)
    with serving.engine.connect() as connected:
        for table in later:  # the store that serves has every table at once
            assert connected.exec_driver_sql(f"SELECT count(*) FROM {table}").scalar_one() == 0
    assert serving.newest("a").plan().name == "a, second"
    serving.close()


def test_a_backup_of_a_newer_studbay_is_refused_and_changes_nothing(database: Path, tmp_path: Path) -> None:
    out = tmp_path / "backup"
    back_up(database, out)
    with sqlite3.connect(out) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    before = database.read_bytes()
    with pytest.raises(StoreRefused, match="newer Studbay"):
        put_back(out, database)
    assert database.read_bytes() == before
