"""Heads kept in memory: never older than the file, whoever writes to it."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import create_engine

from app.plan.reading import plan_from
from app.storage.engine import open_file
from app.storage.heads import Heads
from app.storage.opening import open_folder
from app.storage.place import DATABASE_NAME
from app.storage.plans import PlanStore
from app.storage.troubles import PlanMissing
from tests.web.plan_values import den


@pytest.fixture
def store(tmp_path: Path) -> Iterator[PlanStore]:
    store = open_folder(tmp_path)
    yield store
    store.close()


@pytest.fixture
def heads(store: PlanStore) -> Iterator[Heads]:
    heads = Heads(store)
    yield heads
    heads.close()


def test_a_head_is_asked_of_the_store_once_while_nothing_is_written(
    store: PlanStore, heads: Heads, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = store.add(plan_from(den()))
    first = asyncio.run(heads.of(kept.id))
    assert first == store.head(kept.id)
    monkeypatch.setattr(store, "head", lambda plan_id: pytest.fail("the store was asked again"))
    assert asyncio.run(heads.of(kept.id)) == first


@pytest.mark.parametrize("by", ["the store itself", "another program"])
def test_what_anybody_writes_is_seen_at_once(store: PlanStore, heads: Heads, tmp_path: Path, by: str) -> None:
    writer = store if by == "the store itself" else PlanStore(open_file(tmp_path / DATABASE_NAME))
    kept = store.add(plan_from(den()))
    for number in range(1, 4):
        assert asyncio.run(heads.of(kept.id)).revision == number
        writer.save(kept.id, plan_from(den(f"version {number}")), number)
    assert asyncio.run(heads.of(kept.id)) == store.head(kept.id)
    writer.remove(kept.id, None)
    with pytest.raises(PlanMissing):
        asyncio.run(heads.of(kept.id))
    writer.put_back(kept.id)
    assert asyncio.run(heads.of(kept.id)).revision == 4


def test_a_write_while_the_store_is_asked_leaves_nothing_old_behind(
    store: PlanStore, heads: Heads, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = store.add(plan_from(den()))
    asked = store.head

    def overtaken(plan_id: str) -> object:
        head = asked(plan_id)
        store.save(kept.id, plan_from(den("meanwhile")), 1)
        return head

    monkeypatch.setattr(store, "head", overtaken)
    assert asyncio.run(heads.of(kept.id)).revision == 1
    monkeypatch.undo()
    assert asyncio.run(heads.of(kept.id)).revision == 2


def test_a_database_that_counts_no_writes_is_asked_each_time(store: PlanStore, monkeypatch: pytest.MonkeyPatch) -> None:
    head, asked = store.head(store.add(plan_from(den())).id), []
    elsewhere = PlanStore(create_engine("sqlite://"))
    monkeypatch.setattr(elsewhere, "head", lambda plan_id: asked.append(plan_id) or head)
    heads = Heads(elsewhere)
    assert asyncio.run(heads.of(head.id)) == asyncio.run(heads.of(head.id)) == head
    assert asked == [head.id, head.id]
