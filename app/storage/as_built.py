"""What was really built, kept beside the plan: every save an edition of its own, none of them ever changed.

The plan's file format is fixed, so the record is a file of its own; nothing here judges it.
"""

from __future__ import annotations

import hashlib
import zlib
from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import Connection, Engine, insert, select

from app.storage import tables
from app.storage.engine import changing, reading
from app.storage.made_from import MadeFrom, admits
from app.storage.plans import head_of, in_utc
from app.storage.troubles import RecordedMeanwhile, StoreDamaged


@dataclass(frozen=True)
class KeptRecord:
    """One edition of a record: ``content`` is its JSON, ``number`` the plan's revision that was in force."""

    edition: int
    number: int
    saved: datetime | None
    content: bytes


class AsBuiltStore:
    """The as-built records of all plans of a store, on its database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def newest(self, plan_id: str) -> KeptRecord | None:
        """The record as last saved, None where nothing was recorded yet; raises ``PlanMissing``."""
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            return _newest(connection, plan_id)

    def save(self, plan_id: str, content: bytes, entries: int, made_from: MadeFrom) -> KeptRecord:
        """Keep a new edition made from another (0 where there was none).

        ``made_from`` None is content with whichever is in force. Raises ``RecordedMeanwhile`` or ``PlanMissing``.
        """
        now = datetime.now(UTC)
        with changing(self.engine) as connection:
            number = head_of(connection, plan_id).revision
            before = _newest(connection, plan_id)
            edition = before.edition if before else 0
            if not admits(made_from, edition):
                raise RecordedMeanwhile(edition)
            connection.execute(
                insert(tables.as_built).values(
                    plan_id=plan_id,
                    edition=edition + 1,
                    number=number,
                    saved=now,
                    entries=entries,
                    digest=hashlib.sha256(content).hexdigest(),
                    content=zlib.compress(content, level=3),
                )
            )
            return KeptRecord(edition + 1, number, now, content)


def _newest(connection: Connection, plan_id: str) -> KeptRecord | None:
    rows = tables.as_built.c
    row = connection.execute(
        select(rows.edition, rows.number, rows.saved, rows.digest, rows.content)
        .where(rows.plan_id == plan_id)
        .order_by(rows.edition.desc())
        .limit(1)
    ).one_or_none()
    if row is None:
        return None
    try:
        content = zlib.decompress(row.content)
    except zlib.error:
        content = b""
    if hashlib.sha256(content).hexdigest() != row.digest:
        raise StoreDamaged(f"what was recorded as built of the plan {plan_id} is damaged and was left as it is")
    return KeptRecord(row.edition, row.number, in_utc(row.saved), content)
