"""Plans and their revisions: kept, listed, changed one edit at a time, removed and brought back.

Every change is one transaction that names the revision it was made from, so that of two writers one is told.
Reads take no write lock; nothing here judges a plan.
"""

from __future__ import annotations

import hashlib
import secrets
import zlib
from dataclasses import dataclass
from datetime import UTC, datetime

from pydantic_core import to_json
from sqlalchemy import Connection, Engine, insert, select, update

from app.plan.model import Plan
from app.plan.reading import plan_value, read_plan
from app.storage import tables
from app.storage.engine import changing, reading
from app.storage.made_from import MadeFrom, admits
from app.storage.troubles import EditedMeanwhile, PlanMissing, StoreDamaged

_ID_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"
_ID_LENGTH = 12


@dataclass(frozen=True)
class PlanEntry:
    """A line of the list of plans; ``when`` is the last save, or the removal of a removed plan."""

    id: str
    name: str
    revision: int
    when: datetime


@dataclass(frozen=True)
class RevisionEntry:
    """A line of a plan's history."""

    number: int
    name: str
    saved: datetime
    things: int


@dataclass(frozen=True)
class Head:
    """Which revision of a plan is in force: its name, when it was saved and the digest of its content."""

    id: str
    name: str
    revision: int
    saved: datetime
    digest: str


@dataclass(frozen=True)
class KeptPlan:
    """One revision of a plan: ``content`` is its JSON."""

    id: str
    revision: int
    digest: str
    content: bytes

    def plan(self) -> Plan:
        """The plan itself."""
        return read_plan(self.content)


class PlanStore:
    """The store of plans on one database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()

    # reading

    def listed(self) -> list[PlanEntry]:
        """The plans in use, the last saved first."""
        when = tables.plans.c.updated
        return self._entries(when, tables.plans.c.removed.is_(None))

    def removed(self) -> list[PlanEntry]:
        """The removed plans, the last removed first."""
        when = tables.plans.c.removed
        return self._entries(when, when.is_not(None))

    def head(self, plan_id: str) -> Head:
        """The revision in force; raises ``PlanMissing``."""
        with reading(self.engine) as connection:
            return head_of(connection, plan_id)

    def newest(self, plan_id: str) -> KeptPlan:
        """The plan as last saved; raises ``PlanMissing``."""
        with reading(self.engine) as connection:
            return _kept(connection, plan_id, head_of(connection, plan_id).revision)

    def revision(self, plan_id: str, number: int) -> KeptPlan:
        """One revision of a plan in use; raises ``PlanMissing``, or ``StoreDamaged`` where that one cannot be read."""
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            return _kept(connection, plan_id, number)

    def revisions(self, plan_id: str) -> list[RevisionEntry]:
        """The history of a plan, newest first; raises ``PlanMissing``."""
        rows = tables.revisions.c
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            found = connection.execute(
                select(rows.number, rows.name, rows.saved, rows.things)
                .where(rows.plan_id == plan_id)
                .order_by(rows.number.desc())
            )
            return [RevisionEntry(number, name, in_utc(saved), things) for number, name, saved, things in found]

    # changing

    def add(self, plan: Plan, plan_id: str | None = None) -> KeptPlan:
        """Keep a new plan as revision 1, under an id of the store's choice unless one is given."""
        kept_id = plan_id or new_id()
        now = datetime.now(UTC)
        with changing(self.engine) as connection:
            connection.execute(insert(tables.plans).values(id=kept_id, name=plan.name, revision=1, updated=now))
            return write_revision(connection, kept_id, 1, plan, now)

    def save(self, plan_id: str, plan: Plan, made_from: MadeFrom) -> KeptPlan:
        """Keep a new revision made from another.

        ``made_from`` None is content with whichever is in force. Raises ``EditedMeanwhile`` where ``made_from`` is
        no longer in force, ``PlanMissing``, or ``StoreFull`` with the old plan standing.
        """
        now = datetime.now(UTC)
        with changing(self.engine) as connection:
            number = _in_force(connection, plan_id, made_from) + 1
            connection.execute(
                update(tables.plans)
                .where(tables.plans.c.id == plan_id)
                .values(name=plan.name, revision=number, updated=now)
            )
            return write_revision(connection, plan_id, number, plan, now)

    def bring_back(self, plan_id: str, number: int, made_from: MadeFrom) -> KeptPlan:
        """Save an earlier revision again, as the newest; raises as ``save`` and ``revision`` do."""
        return self.save(plan_id, self.revision(plan_id, number).plan(), made_from)

    def remove(self, plan_id: str, made_from: MadeFrom) -> None:
        """Take a plan out of use; it stays in the list of removed plans. Raises as ``save`` does."""
        with changing(self.engine) as connection:
            _in_force(connection, plan_id, made_from)
            connection.execute(
                update(tables.plans).where(tables.plans.c.id == plan_id).values(removed=datetime.now(UTC))
            )

    def put_back(self, plan_id: str) -> KeptPlan:
        """Put a removed plan in use again, as it was; raises ``PlanMissing`` where none such was removed."""
        with changing(self.engine) as connection:
            changed = connection.execute(
                update(tables.plans)
                .where(tables.plans.c.id == plan_id, tables.plans.c.removed.is_not(None))
                .values(removed=None)
            )
            if not changed.rowcount:
                raise PlanMissing(f"no removed plan has the id {plan_id}")
            return _kept(connection, plan_id, head_of(connection, plan_id).revision)

    def _entries(self, when: object, chosen: object) -> list[PlanEntry]:
        rows = tables.plans.c
        with reading(self.engine) as connection:
            found = connection.execute(
                select(rows.id, rows.name, rows.revision, when).where(chosen).order_by(when.desc(), rows.id)  # type: ignore[call-overload, attr-defined]
            )
            return [PlanEntry(plan_id, name, revision, in_utc(time)) for plan_id, name, revision, time in found]


def head_of(connection: Connection, plan_id: str) -> Head:
    """Which revision of a plan in use is in force; raises ``PlanMissing``."""
    joined = tables.plans.join(
        tables.revisions,
        (tables.revisions.c.plan_id == tables.plans.c.id) & (tables.revisions.c.number == tables.plans.c.revision),
    )
    row = connection.execute(
        select(tables.plans.c.name, tables.plans.c.revision, tables.revisions.c.saved, tables.revisions.c.digest)
        .select_from(joined)
        .where(tables.plans.c.id == plan_id, tables.plans.c.removed.is_(None))
    ).one_or_none()
    if row is None:
        raise PlanMissing(f"no plan has the id {plan_id}")
    return Head(plan_id, row.name, row.revision, in_utc(row.saved), row.digest)


def _in_force(connection: Connection, plan_id: str, made_from: MadeFrom) -> int:
    """The number of the revision in force, held until the transaction ends."""
    rows = tables.plans.c
    number = connection.execute(
        select(rows.revision).where(rows.id == plan_id, rows.removed.is_(None)).with_for_update()
    ).scalar_one_or_none()
    if number is None:
        raise PlanMissing(f"no plan has the id {plan_id}")
    if not admits(made_from, number):
        raise EditedMeanwhile(number)
    return int(number)


def _kept(connection: Connection, plan_id: str, number: int) -> KeptPlan:
    rows = tables.revisions.c
    row = connection.execute(
        select(rows.digest, rows.content).where(rows.plan_id == plan_id, rows.number == number)
    ).one_or_none()
    if row is None:
        raise PlanMissing(f"the plan {plan_id} has no revision {number}")
    try:
        content = zlib.decompress(row.content)
    except zlib.error:
        content = b""
    if hashlib.sha256(content).hexdigest() != row.digest:
        raise StoreDamaged(
            f"revision {number} of the plan {plan_id} is damaged and was left as it is; "
            f"earlier revisions can still be read and brought back"
        )
    return KeptPlan(plan_id, number, row.digest, content)


def new_id() -> str:
    """An id that nothing bears yet, by chance."""
    return "".join(secrets.choice(_ID_LETTERS) for _ in range(_ID_LENGTH))


def write_revision(connection: Connection, plan_id: str, number: int, plan: Plan, now: datetime) -> KeptPlan:
    """Write the row of a revision, within a transaction that also sets the plan's."""
    content = to_json(plan_value(plan))
    digest = hashlib.sha256(content).hexdigest()
    connection.execute(
        insert(tables.revisions).values(
            plan_id=plan_id,
            number=number,
            name=plan.name,
            saved=now,
            things=plan.count_of_things(),
            digest=digest,
            content=zlib.compress(content, level=3),
        )
    )
    return KeptPlan(plan_id, number, digest, content)


def in_utc(when: datetime) -> datetime:
    """A time that was read, with its zone: SQLite forgets the zone; all times are kept in UTC."""
    return when if when.tzinfo else when.replace(tzinfo=UTC)
