"""The data folder that a command works on, and its store."""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from app.command_line.failing import CannotDo
from app.storage.place import DATABASE_NAME, usual_folder
from app.storage.troubles import StoreTrouble

if TYPE_CHECKING:
    from app.storage.plans import PlanStore

DATABASE_NAMED = "STUDBAY_DATABASE"


def add_data_argument(parser: argparse.ArgumentParser) -> None:
    """Let a command take the data folder."""
    parser.add_argument("--data", type=Path, default=None, help=f"folder that keeps the plans ({usual_folder()})")


def opened(folder: Path | None) -> PlanStore:
    """The store of a data folder, of the database that the environment names, or the user's own."""
    # The database's libraries take half a second to load: a command that keeps nothing does without.
    from app.storage.opening import open_database, open_folder

    with store_troubles():
        if folder is None and (url := os.environ.get(DATABASE_NAMED)):
            return open_database(url)
        return open_folder(folder or usual_folder())


def database_of(folder: Path | None) -> Path:
    """The file that keeps the plans of a data folder."""
    if folder is None and DATABASE_NAMED in os.environ:
        raise CannotDo(f"{DATABASE_NAMED} names a database of its own; back it up with that database's tools")
    return (folder or usual_folder()) / DATABASE_NAME


@contextmanager
def store_troubles() -> Iterator[None]:
    """Turn the store's troubles into lines on stderr."""
    try:
        yield
    except StoreTrouble as trouble:
        raise CannotDo(str(trouble)) from None
