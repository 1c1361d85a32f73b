"""Copies of the whole store as one file, taken while it serves, and put back; and what a damaged one still gives.

It works on the SQLite file by SQLite's own backup, which copies one consistent state.
"""

from __future__ import annotations

import hashlib
import os
import sqlite3
import zlib
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from app.storage.engine import BUSY_SECONDS, open_file, refuse_damaged, told
from app.storage.migrating import migrate, refuse_newer
from app.storage.place import ready_file
from app.storage.troubles import StoreDamaged, StoreRefused

_SIDE_FILES = ("-wal", "-shm")


def back_up(database: Path, out: Path) -> int:
    """Copy the store into a new file, open to its owner only; its bytes. Raises ``StoreRefused``."""
    if not database.is_file():
        raise StoreRefused(f"{database}: there are no plans to back up")
    if out.exists():
        raise StoreRefused(f"{out} is there already; name a new file, so that no backup is lost")
    if not out.parent.is_dir():
        raise StoreRefused(f"{out.parent}: there is no such folder")
    half = out.with_name(out.name + ".part")
    try:
        _copy(database, ready_file(half))
        refuse_damaged(half)
        os.replace(half, out)
    finally:
        _away(half)
    return out.stat().st_size


def put_back(backup: Path, database: Path) -> Path | None:
    """Put a backup in place of the store; the store that was is kept beside it, and its path given.

    A backup of an older Studbay is brought up to this one's tables, so that a server that is running can go on with it.
    Raises ``StoreRefused`` where the file is no backup, ``StoreDamaged`` where it is damaged; then nothing changes.
    """
    _refuse_other_than_backup(backup)
    if not database.exists():
        _put_in_place(backup, database)
        return None
    aside = database.with_name(f"{database.stem}-before-{datetime.now(UTC):%Y%m%d-%H%M%S}{database.suffix}")
    if aside.exists():
        raise StoreRefused(f"{aside} is there already; wait a second and try again")
    try:
        refuse_damaged(database)
    except StoreDamaged:
        for side in ("", *_SIDE_FILES):
            damaged = Path(f"{database}{side}")
            if damaged.exists():
                damaged.rename(f"{aside}{side}")
    else:
        _copy(database, ready_file(aside))
    _put_in_place(backup, database)
    return aside


@dataclass(frozen=True)
class Rescued:
    """The newest revision of a plan that can still be read; ``content`` is None where none can."""

    plan_id: str
    revision: int
    content: bytes | None


def still_readable(database: Path) -> Iterator[Rescued]:
    """Every plan of a store that may be damaged, each by its newest revision that its checksum confirms."""
    if not database.is_file():
        raise StoreRefused(f"{database}: there are no plans there")
    with closing(_read_only(database)) as connection:
        try:
            listed = connection.execute("SELECT DISTINCT plan_id FROM revisions NOT INDEXED").fetchall()
        except sqlite3.DatabaseError as error:
            raise StoreDamaged(f"{database}: not even the list of plans can be read ({error})") from None
        for (plan_id,) in listed:
            yield _newest_readable(connection, plan_id)


def _newest_readable(connection: sqlite3.Connection, plan_id: str) -> Rescued:
    try:
        numbers = connection.execute(
            "SELECT number FROM revisions WHERE plan_id = ? ORDER BY number DESC", (plan_id,)
        ).fetchall()
    except sqlite3.DatabaseError:
        numbers = []
    for (number,) in numbers:
        try:
            digest, kept = connection.execute(
                "SELECT digest, content FROM revisions WHERE plan_id = ? AND number = ?", (plan_id, number)
            ).fetchone()
            content = zlib.decompress(kept)
        except (sqlite3.DatabaseError, zlib.error, TypeError):
            continue
        if hashlib.sha256(content).hexdigest() == digest:
            return Rescued(plan_id, number, content)
    return Rescued(plan_id, 0, None)


def _put_in_place(backup: Path, database: Path) -> None:
    _copy(backup, ready_file(database))
    engine = open_file(database)
    try:
        with told():
            migrate(engine)
    finally:
        engine.dispose()


def _copy(source: Path, target: Path) -> None:
    try:
        with closing(_read_only(source)) as read, closing(sqlite3.connect(target, timeout=BUSY_SECONDS)) as written:
            read.backup(written, pages=1024, sleep=0.01)
    except sqlite3.Error as error:
        raise StoreRefused(f"{source} could not be copied to {target} ({error}); make room and try again") from None


def _read_only(path: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=BUSY_SECONDS)


def _refuse_other_than_backup(backup: Path) -> None:
    if not backup.is_file():
        raise StoreRefused(f"{backup}: there is no such file")
    try:
        with closing(_read_only(backup)) as connection:
            tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
            is_ours = {"plans", "revisions", "alembic_version"} <= tables
            taken = connection.execute("SELECT version_num FROM alembic_version").fetchall() if is_ours else []
    except sqlite3.DatabaseError as error:
        raise StoreRefused(f"{backup} is no backup of plans ({error})") from None
    if not is_ours:
        raise StoreRefused(f"{backup} is no backup of plans: it has other tables")
    refuse_damaged(backup)
    refuse_newer(step for (step,) in taken)


def _away(half: Path) -> None:
    for side in ("", *_SIDE_FILES, "-journal"):
        Path(f"{half}{side}").unlink(missing_ok=True)
