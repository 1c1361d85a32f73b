"""Open the store of a data folder (or of a database URL): the file made, its tables brought up, the samples put in.

The samples go in on the first run only, so that the page opens with something to see.
"""

from __future__ import annotations

from pathlib import Path

from app.plan.faults import PlanRefused
from app.plan.reading import read_plan_file
from app.storage.engine import open_file, open_url, told
from app.storage.migrating import migrate
from app.storage.place import DATABASE_NAME, ready_folder
from app.storage.plans import PlanStore
from app.storage.samples import sample_files


def open_folder(folder: Path) -> PlanStore:
    """The store of a data folder; raises a ``StoreTrouble`` that says what is wrong with it."""
    with told():
        return _ready(PlanStore(open_file(ready_folder(folder) / DATABASE_NAME)))


def open_database(url: str) -> PlanStore:
    """The store on a database that a SQLAlchemy URL names."""
    with told():
        return _ready(PlanStore(open_url(url)))


def _ready(store: PlanStore) -> PlanStore:
    if migrate(store.engine):
        for path in reversed(sample_files()):
            try:
                store.add(read_plan_file(path), plan_id=path.stem)
            except PlanRefused:
                continue  # a sample that somebody has changed by hand keeps nobody from their plans
    return store
