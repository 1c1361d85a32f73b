"""The history of revisions: entries that are never erased, what they forbid, and stores of before it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy.exc import IntegrityError

from app.plan.model import Plan
from app.plan.reading import plan_from
from app.storage.as_built import AsBuiltStore
from app.storage.engine import open_file
from app.storage.history import History
from app.storage.migrating import migrate
from app.storage.opening import open_folder
from app.storage.place import DATABASE_NAME
from app.storage.plans import PlanStore
from app.storage.troubles import HistoryForbids, PlanMissing, RecordedMeanwhile
from tests.web.plan_values import den

DAY = date(2026, 11, 12)


def a_plan(name: str = "14 Larch Lane") -> Plan:
    return plan_from(den(name))


@pytest.fixture
def store(tmp_path: Path) -> Iterator[PlanStore]:
    store = PlanStore(open_file(tmp_path / DATABASE_NAME))
    migrate(store.engine)
    yield store
    store.close()


@pytest.fixture
def plan_id(store: PlanStore) -> str:
    kept = store.add(a_plan("first"))
    store.save(kept.id, a_plan("second"), 1)
    return kept.id


@pytest.fixture
def history(store: PlanStore) -> History:
    return History(store.engine)


def test_a_name_can_be_given_anew_until_it_is_approved(history: History, plan_id: str) -> None:
    history.name(plan_id, 1, "A", "", "J. Ash", 0)
    after = history.name(plan_id, 1, "B", "Issued for rough-in", "J. Ash", 1)
    assert (after.standings[1].mark, after.standings[1].words) == ("B", "Issued for rough-in")
    assert [entry.mark for entry in after.entries] == ["A", "B"]
    history.approve(plan_id, 1, "Ann Lee", DAY, "", 2)
    with pytest.raises(HistoryForbids, match="locked"):
        history.name(plan_id, 1, "C", "", "J. Ash", 3)
    assert history.of(plan_id).standings[1].mark == "B"


def test_one_letter_stands_for_one_revision(history: History, plan_id: str) -> None:
    history.name(plan_id, 1, "A", "", "J. Ash", 0)
    with pytest.raises(HistoryForbids, match="revision 1"):
        history.name(plan_id, 2, "a", "", "J. Ash", 1)


def test_an_approval_needs_a_name_and_is_entered_once(history: History, plan_id: str) -> None:
    with pytest.raises(HistoryForbids, match="no name"):
        history.approve(plan_id, 1, "Ann Lee", DAY, "", 0)
    history.name(plan_id, 1, "A", "", "J. Ash", 0)
    history.approve(plan_id, 1, "Ann Lee", DAY, "", 1)
    with pytest.raises(HistoryForbids, match="already, by Ann Lee"):
        history.approve(plan_id, 1, "Ann Lee", DAY, "", 2)


def test_a_withdrawn_approval_stays_in_the_history(history: History, plan_id: str) -> None:
    history.name(plan_id, 1, "A", "", "J. Ash", 0)
    history.approve(plan_id, 1, "Ann Lee", DAY, "", 1)
    after = history.withdraw(plan_id, 1, "Ann Lee", "keypads too high", 2)
    assert after.approved is None
    assert [(entry.what, entry.person, entry.day) for entry in after.entries] == [
        ("named", "J. Ash", None),
        ("approved", "Ann Lee", DAY),
        ("withdrawn", "Ann Lee", None),
    ]
    with pytest.raises(HistoryForbids, match="nothing to withdraw"):
        history.withdraw(plan_id, 1, "Ann Lee", "again", 3)


def test_the_revision_approved_last_is_the_approved_one(history: History, plan_id: str) -> None:
    history.name(plan_id, 1, "A", "", "J. Ash", None)
    history.name(plan_id, 2, "B", "", "J. Ash", None)
    history.approve(plan_id, 2, "Ann Lee", DAY, "", None)
    approved = history.approve(plan_id, 1, "Ann Lee", DAY, "", None).approved
    assert approved is not None
    assert approved.mark == "A"
    again = history.withdraw(plan_id, 1, "Ann Lee", "no", None).approved
    assert again is not None
    assert again.mark == "B"


def test_of_two_who_enter_from_one_edition_one_is_told(history: History, plan_id: str) -> None:
    history.name(plan_id, 1, "A", "", "J. Ash", 0)
    with pytest.raises(RecordedMeanwhile) as told:
        history.name(plan_id, 2, "B", "", "R. Vole", 0)
    assert told.value.revision == 1
    assert len(history.of(plan_id).entries) == 1


def test_a_revision_that_is_not_there_is_not_named(history: History, plan_id: str) -> None:
    with pytest.raises(PlanMissing):
        history.name(plan_id, 9, "A", "", "J. Ash", 0)
    with pytest.raises(PlanMissing):
        history.of("none")


def test_saves_go_on_after_an_approval_and_leave_the_approved_revision(
    store: PlanStore, history: History, plan_id: str
) -> None:
    history.name(plan_id, 2, "A", "", "J. Ash", 0)
    entry = history.approve(plan_id, 2, "Ann Lee", DAY, "", 1).entries[-1]
    store.save(plan_id, a_plan("third"), 2)
    assert store.revision(plan_id, 2).plan().name == "second"
    assert store.revision(plan_id, 2).digest == entry.digest
    assert store.bring_back(plan_id, 2, 3).plan().name == "second"


def test_the_database_itself_keeps_a_revision_that_was_spoken_of(
    store: PlanStore, history: History, plan_id: str
) -> None:
    history.name(plan_id, 1, "A", "", "J. Ash", 0)
    with pytest.raises(IntegrityError), store.engine.begin() as connection:
        connection.exec_driver_sql("DELETE FROM revisions WHERE number = 1")


def test_a_store_of_before_the_history_is_brought_up_with_all_it_holds(tmp_path: Path) -> None:
    old = PlanStore(open_file(tmp_path / DATABASE_NAME))
    settings = Config()
    settings.set_main_option("script_location", "app/storage/migrations")
    with old.engine.begin() as connection:
        settings.attributes["connection"] = connection
        command.upgrade(settings, "0001")
    kept = old.add(a_plan("first"))
    old.save(kept.id, a_plan("second"), 1)
    old.close()
    store = open_folder(tmp_path)
    assert [entry.name for entry in store.revisions(kept.id)] == ["second", "first"]
    assert History(store.engine).of(kept.id).entries == ()
    assert History(store.engine).name(kept.id, 1, "A", "", "J. Ash", 0).edition == 1
    assert AsBuiltStore(store.engine).newest(kept.id) is None
    store.close()


def test_every_edition_of_what_was_built_stays(store: PlanStore, plan_id: str) -> None:
    records = AsBuiltStore(store.engine)
    assert records.save(plan_id, b'{"one": 1}', 1, 0).edition == 1
    with pytest.raises(RecordedMeanwhile):
        records.save(plan_id, b"{}", 0, 0)
    second = records.save(plan_id, b'{"two": 2}', 2, 1)
    assert (second.edition, second.number) == (2, 2)
    newest = records.newest(plan_id)
    assert newest is not None
    assert newest.content == b'{"two": 2}'
    with store.engine.connect() as connection:
        assert connection.exec_driver_sql("SELECT edition, entries FROM as_built").fetchall() == [(1, 1), (2, 2)]
