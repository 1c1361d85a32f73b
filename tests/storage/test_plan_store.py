"""The store of plans: revisions, one edit at a time, removal, and a disk that is full."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from sqlalchemy import event

from app.plan.model import Plan
from app.plan.reading import plan_from
from app.storage.engine import open_file
from app.storage.migrating import migrate
from app.storage.opening import open_database, open_folder
from app.storage.place import DATABASE_NAME, usual_folder
from app.storage.plans import PlanStore
from app.storage.samples import sample_files
from app.storage.troubles import EditedMeanwhile, PlanMissing, StoreFull, StoreRefused
from tests.web.plan_values import den, grid


def a_plan(name: str = "14 Larch Lane") -> Plan:
    return plan_from(den(name))


@pytest.fixture
def store(tmp_path: Path) -> Iterator[PlanStore]:
    """An empty store: no samples in it."""
    store = PlanStore(open_file(tmp_path / DATABASE_NAME))
    migrate(store.engine)
    yield store
    store.close()


def test_a_kept_plan_is_read_as_it_was_given(store: PlanStore) -> None:
    kept = store.add(a_plan())
    assert store.newest(kept.id).plan() == a_plan()
    assert [entry.name for entry in store.listed()] == ["14 Larch Lane"]


def test_every_save_stays_readable(store: PlanStore) -> None:
    plan_id = store.add(a_plan("0")).id
    for number in range(1, 30):
        store.save(plan_id, a_plan(str(number)), number)
    assert [entry.name for entry in store.revisions(plan_id)] == [str(number) for number in reversed(range(30))]
    assert [store.revision(plan_id, number + 1).plan().name for number in range(30)] == [str(n) for n in range(30)]


def test_of_many_writers_from_one_revision_one_is_kept(store: PlanStore) -> None:
    plan_id = store.add(a_plan()).id

    def write(number: int) -> bool:
        try:
            store.save(plan_id, a_plan(f"writer {number}"), 1)
        except EditedMeanwhile:
            return False
        return True

    with ThreadPoolExecutor(8) as writers:
        assert sum(writers.map(write, range(24))) == 1
    assert len(store.revisions(plan_id)) == 2


def test_two_stores_on_one_file_see_each_other_s_edits(store: PlanStore, tmp_path: Path) -> None:
    other = PlanStore(open_file(tmp_path / DATABASE_NAME))
    plan_id = store.add(a_plan()).id
    other.save(plan_id, a_plan("other"), 1)
    with pytest.raises(EditedMeanwhile):
        store.save(plan_id, a_plan("store"), 1)
    assert store.newest(plan_id).plan().name == "other"
    other.close()


def test_a_removed_plan_can_be_neither_read_nor_saved_until_it_is_put_back(store: PlanStore) -> None:
    plan_id = store.add(a_plan()).id
    store.remove(plan_id, 1)
    for call in (store.head, store.newest, store.revisions):
        with pytest.raises(PlanMissing):
            call(plan_id)
    with pytest.raises(PlanMissing):
        store.save(plan_id, a_plan(), 1)
    assert [entry.id for entry in store.removed()] == [plan_id]
    assert store.put_back(plan_id).plan() == a_plan()
    assert store.removed() == []


def test_a_full_disk_refuses_the_save_and_leaves_the_plan(store: PlanStore) -> None:
    plan_id = store.add(a_plan()).id
    limit = "PRAGMA max_page_count = 1"  # as many as there are now
    event.listen(store.engine, "checkout", lambda connection, _record, _proxy: connection.execute(limit))
    with pytest.raises(StoreFull, match="make room"):
        store.save(plan_id, plan_from(grid(30, 30, windows=300, detectors=0)), 1)
    assert store.head(plan_id).revision == 1
    assert store.newest(plan_id).plan() == a_plan()


def test_the_settings_that_make_a_save_durable_are_in_force(store: PlanStore) -> None:
    with store.engine.connect() as connection:
        settings = [
            connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        ]
    assert settings == ["wal", 2, 1]


def test_folder_and_file_are_open_to_their_owner_only(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "plans"
    store = open_folder(folder)
    store.add(a_plan())
    assert folder.stat().st_mode & 0o777 == 0o700
    assert {path.stat().st_mode & 0o077 for path in folder.iterdir()} == {0}
    store.close()


def test_the_samples_are_there_on_the_first_run_only(tmp_path: Path) -> None:
    store = open_folder(tmp_path)
    stems = {path.stem for path in sample_files()}
    assert {entry.id for entry in store.listed()} == stems
    for entry in store.listed():
        store.remove(entry.id, entry.revision)
    store.close()
    again = open_folder(tmp_path)
    assert again.listed() == []
    again.close()


def test_another_database_is_taken_by_its_url(tmp_path: Path) -> None:
    store = open_database(f"sqlite:///{tmp_path / 'other.sqlite3'}")
    assert store.newest(store.add(a_plan()).id).plan() == a_plan()
    store.close()


def test_a_store_of_a_newer_program_is_refused_and_left(tmp_path: Path) -> None:
    store = open_folder(tmp_path)
    with store.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE alembic_version SET version_num = '9999'")
    store.close()
    with pytest.raises(StoreRefused, match="newer Studbay"):
        open_folder(tmp_path)


def test_a_file_in_place_of_the_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "plans").write_text("x")
    with pytest.raises(StoreRefused, match="folder"):
        open_folder(tmp_path / "plans")


def test_the_usual_folder_is_the_user_s_own(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert usual_folder() == tmp_path / "studbay"
    monkeypatch.setenv("XDG_DATA_HOME", "relative")
    assert usual_folder() == Path.home() / ".local" / "share" / "studbay"


def test_the_tables_are_what_the_steps_make(store: PlanStore) -> None:
    from alembic.autogenerate import compare_metadata
    from alembic.migration import MigrationContext

    from app.storage.tables import metadata

    with store.engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) == []
