"""Open the database that plans are kept in: SQLite by default, any SQLAlchemy URL for those who outgrow it.

SQLite is set so that an answered save survives a crash of program or machine (WAL, synchronous FULL), and its
errors are turned into troubles that say what to do.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import DBAPIError

from app.storage.place import ready_file
from app.storage.troubles import StoreBusy, StoreDamaged, StoreFull, StoreTrouble

BUSY_SECONDS = 10.0
READING = "studbay_reading"
_DAMAGE = ("malformed", "not a database", "disk image", "file is encrypted", "checksum")
_FULL = ("full", "readonly", "read-only", "disk i/o error", "unable to open")


def open_file(path: Path) -> Engine:
    """An engine on a SQLite file, made if it is not there; a damaged one raises ``StoreDamaged`` and is not touched."""
    if path.exists() and path.stat().st_size:
        refuse_damaged(path)
    return open_url(f"sqlite:///{ready_file(path)}")


def open_url(url: str) -> Engine:
    """An engine on any database that SQLAlchemy reaches."""
    if not url.startswith("sqlite"):
        return create_engine(url, pool_pre_ping=True)
    engine = create_engine(url, connect_args={"timeout": BUSY_SECONDS}, pool_size=10, max_overflow=40)
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def refuse_damaged(path: Path) -> None:
    """Read a SQLite file through without changing it; raises ``StoreDamaged`` with the first fault found."""
    try:
        with sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=BUSY_SECONDS) as connection:
            found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
        connection.close()
    except sqlite3.DatabaseError as error:
        found = str(error)
    if found != "ok":
        words = f"the plans file is damaged ({' '.join(found.split())}); it was left as it is."
        mend = "Put a backup back with `studbay restore FILE`, or write out what it still gives with `studbay rescue`"
        raise StoreDamaged(f"{path}: {words} {mend}")


@contextmanager
def told() -> Iterator[None]:
    """Turn the database's errors into troubles."""
    try:
        yield
    except DBAPIError as error:
        raise trouble_of(error) from error


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A connection that sees one state and takes no write lock."""
    with told(), engine.connect().execution_options(**{READING: True}) as connection:
        yield connection


@contextmanager
def changing(engine: Engine) -> Iterator[Connection]:
    """A connection whose changes are one transaction."""
    with told(), engine.begin() as connection:
        yield connection


def trouble_of(error: DBAPIError) -> StoreTrouble:
    """What a database error means for the person who saves a plan."""
    words = str(error.orig).lower()
    if any(sign in words for sign in _DAMAGE):
        return StoreDamaged(f"the plans file is damaged ({error.orig}); it was left as it is: put a backup back")
    if "locked" in words or "busy" in words:
        return StoreBusy("another program holds the plans file; nothing was changed, try again")
    if any(sign in words for sign in _FULL):
        return StoreFull(f"the plans file cannot be written ({error.orig}); nothing was changed: make room, try again")
    return StoreTrouble(f"the plans file answered: {error.orig}; nothing was changed")


def _begin(connection: Connection) -> None:
    """A reader sees one state and locks nobody out; a writer takes its lock at once, and cannot lose it."""
    reading = connection.get_execution_options().get(READING, False)
    connection.exec_driver_sql("BEGIN" if reading else "BEGIN IMMEDIATE")


def _set_up(connection: Any, _record: Any) -> None:
    connection.isolation_level = None  # transactions begin where we say so, with BEGIN IMMEDIATE
    for setting in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "trusted_schema=OFF"):
        connection.execute(f"PRAGMA {setting}").close()
