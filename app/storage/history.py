"""What was said of a plan's revisions: named with a letter, approved by the client, an approval withdrawn.

Every saying is an entry of its own that is never changed or taken out; how a revision stands is read off them all.
The number of the last entry is the history's edition, which a new entry names.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from typing import Literal

from sqlalchemy import Connection, Engine, func, insert, select

from app.storage import tables
from app.storage.engine import changing, reading
from app.storage.made_from import MadeFrom, admits
from app.storage.plans import head_of, in_utc
from app.storage.troubles import HistoryForbids, PlanMissing, RecordedMeanwhile

What = Literal["named", "approved", "withdrawn"]


@dataclass(frozen=True)
class Entry:
    """One saying: of which revision, what, by whom; ``day`` is the date that the person gave, ``recorded`` when."""

    turn: int
    number: int
    what: What
    mark: str
    words: str
    person: str
    day: date | None
    recorded: datetime
    digest: str


@dataclass(frozen=True)
class Standing:
    """How a named revision stands: ``mark`` is its letter or number; ``approval`` is the entry in force, or None."""

    number: int
    mark: str
    words: str
    person: str
    named: datetime
    approval: Entry | None = None


@dataclass(frozen=True)
class PlanHistory:
    """Every entry of a plan, oldest first, and what follows from them."""

    entries: tuple[Entry, ...]

    @property
    def edition(self) -> int:
        """The number of the last entry; 0 where nothing was said yet."""
        return self.entries[-1].turn if self.entries else 0

    @property
    def standings(self) -> dict[int, Standing]:
        """The named revisions by their numbers."""
        return standings_of(self.entries)

    @property
    def approved(self) -> Standing | None:
        """The revision that was approved last and is approved still."""
        approved = [each for each in self.standings.values() if each.approval is not None]
        return max(approved, key=lambda each: each.approval.turn if each.approval else 0, default=None)


def standings_of(entries: Iterable[Entry]) -> dict[int, Standing]:
    """How each named revision stands after some entries, oldest first."""
    standings: dict[int, Standing] = {}
    for entry in entries:
        before = standings.get(entry.number)
        if entry.what == "named" or before is None:
            standings[entry.number] = Standing(entry.number, entry.mark, entry.words, entry.person, entry.recorded)
        else:
            standings[entry.number] = replace(before, approval=entry if entry.what == "approved" else None)
    return standings


class History:
    """The histories of all plans of a store, on its database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def of(self, plan_id: str) -> PlanHistory:
        """The history of a plan in use; raises ``PlanMissing``."""
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            return _history(connection, plan_id)

    def name(self, plan_id: str, number: int, mark: str, words: str, person: str, edition: MadeFrom) -> PlanHistory:
        """Name a revision; again, as long as it is not approved.

        ``edition`` None is content with whichever is in force. Raises ``RecordedMeanwhile``, ``PlanMissing``, or
        ``HistoryForbids`` where the revision is locked or another bears the mark.
        """
        with changing(self.engine) as connection:
            history = _in_force(connection, plan_id, edition)
            for other in history.standings.values():
                if other.number == number and other.approval is not None:
                    raise HistoryForbids(f"revision {number} is approved as {other.mark} and locked; name a later one")
                if other.number != number and other.mark.casefold() == mark.casefold():
                    raise HistoryForbids(f"{mark} is the name of revision {other.number}; choose another letter")
            return _entered(connection, plan_id, history, number, "named", (mark, words, person), None)

    def approve(self, plan_id: str, number: int, person: str, day: date, words: str, edition: MadeFrom) -> PlanHistory:
        """Enter the client's approval of a named revision, which locks it; raises as ``name`` does."""
        with changing(self.engine) as connection:
            history = _in_force(connection, plan_id, edition)
            standing = history.standings.get(number)
            if standing is None:
                raise HistoryForbids(f"revision {number} has no name yet; name it, then approve it")
            if standing.approval is not None:
                raise HistoryForbids(f"revision {standing.mark} is approved already, by {standing.approval.person}")
            return _entered(connection, plan_id, history, number, "approved", (standing.mark, words, person), day)

    def withdraw(self, plan_id: str, number: int, person: str, words: str, edition: MadeFrom) -> PlanHistory:
        """Enter that an approval is withdrawn, and why; the approval stays in the history. Raises as ``name`` does."""
        with changing(self.engine) as connection:
            history = _in_force(connection, plan_id, edition)
            standing = history.standings.get(number)
            if standing is None or standing.approval is None:
                raise HistoryForbids(f"revision {number} is not approved: there is nothing to withdraw")
            said = (standing.mark, words, person)
            return _entered(connection, plan_id, history, number, "withdrawn", said, None)


def _in_force(connection: Connection, plan_id: str, edition: MadeFrom) -> PlanHistory:
    head_of(connection, plan_id)
    history = _history(connection, plan_id)
    if not admits(edition, history.edition):
        raise RecordedMeanwhile(history.edition)
    return history


def _history(connection: Connection, plan_id: str) -> PlanHistory:
    rows = tables.history.c
    found = connection.execute(
        select(
            rows.turn,
            rows.number,
            rows.what,
            rows.mark,
            rows.words,
            rows.person,
            rows.day,
            rows.recorded,
            rows.digest,
        )
        .where(rows.plan_id == plan_id)
        .order_by(rows.turn)
    )
    return PlanHistory(tuple(Entry(*row[:7], in_utc(row.recorded), row.digest) for row in found))


def _entered(
    connection: Connection,
    plan_id: str,
    history: PlanHistory,
    number: int,
    what: What,
    said: tuple[str, str, str],
    day: date | None,
) -> PlanHistory:
    revisions = tables.revisions.c
    digest = connection.execute(
        select(func.max(revisions.digest)).where(revisions.plan_id == plan_id, revisions.number == number)
    ).scalar_one()
    if digest is None:
        raise PlanMissing(f"the plan {plan_id} has no revision {number}")
    mark, words, person = said
    entry = Entry(history.edition + 1, number, what, mark, words, person, day, datetime.now(UTC), digest)
    connection.execute(insert(tables.history).values(plan_id=plan_id, **vars(entry)))
    return PlanHistory((*history.entries, entry))
