"""Pictures laid aside are kept for whoever undoes, the last few of a plan; those that lie under a level always."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from app.plan.placement import Placement
from app.plan.reading import plan_from
from app.storage.opening import open_folder
from app.storage.troubles import PlanMissing, UnderlayMoved
from app.storage.underlays import LAID_ASIDE, Picture, UnderlayStore
from tests.web.plan_values import den


def lay(store: UnderlayStore, level: str, content: bytes) -> Picture:
    picture = Picture(hashlib.sha256(content).hexdigest(), "sketch.png", "image/png", 1, 1, None)
    store.lay("a", level, picture, content, Placement(picture=picture.digest, scale=1))
    return picture


@pytest.fixture
def store(tmp_path: Path) -> UnderlayStore:
    plans = open_folder(tmp_path)
    plans.add(plan_from(den()), "a")
    return UnderlayStore(plans.engine)


def test_the_last_few_laid_aside_are_kept(store: UnderlayStore) -> None:
    below = lay(store, "L0", b"below")
    laid = [lay(store, "L1", bytes([i])) for i in range(LAID_ASIDE + 2)]
    with pytest.raises(PlanMissing, match="no such picture"):
        store.content("a", laid[0].digest)
    for picture in (below, *laid[1:]):
        assert store.content("a", picture.digest)[0] == picture
    placement = Placement(picture=laid[1].digest, scale=2)
    assert store.place("a", "L1", placement, LAID_ASIDE + 2).picture == laid[1]
    with pytest.raises(PlanMissing, match="no longer"):
        store.place("a", "L1", Placement(picture=laid[0].digest, scale=2), None)


def test_of_two_who_place_it_the_later_is_told(store: UnderlayStore) -> None:
    picture = lay(store, "L1", b"x")
    store.place("a", "L1", Placement(picture=picture.digest, scale=2), 1)
    with pytest.raises(UnderlayMoved, match="edition 2"):
        store.place("a", "L1", Placement(picture=picture.digest, scale=3), 1)
    store.take_away("a", "L1", 2)
    with pytest.raises(UnderlayMoved, match="nothing lies there"):
        store.place("a", "L1", Placement(picture=picture.digest, scale=3), 2)
    assert store.place("a", "L1", Placement(picture=picture.digest, scale=3), 0).placement.scale == 3
