"""The letterhead and print habit that a plan has taken, kept beside it: a copy, so that no later change of a template
changes what a plan prints.
"""

from __future__ import annotations

from sqlalchemy import Engine, insert, select, update

from app.plan.letterhead import Stationery
from app.storage import tables
from app.storage.engine import changing, reading
from app.storage.made_from import MadeFrom, admits
from app.storage.plans import head_of
from app.storage.troubles import LetterheadChanged


class LetterheadStore:
    """The letterheads of all plans of a store, on its database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def of(self, plan_id: str) -> tuple[int, Stationery]:
        """The edition (0: none was ever taken) and what a plan prints with; raises ``PlanMissing``."""
        rows = tables.letterheads.c
        with reading(self.engine) as connection:
            head_of(connection, plan_id)
            row = connection.execute(select(rows.edition, rows.content).where(rows.plan_id == plan_id)).one_or_none()
        return (0, Stationery()) if row is None else (row.edition, Stationery.model_validate_json(row.content))

    def save(self, plan_id: str, stationery: Stationery, made_from: MadeFrom) -> int:
        """Keep another; its edition. Raises ``LetterheadChanged`` where another change came first, ``PlanMissing``."""
        rows, content = tables.letterheads.c, stationery.model_dump_json()
        with changing(self.engine) as connection:
            head_of(connection, plan_id)
            found = connection.execute(
                select(rows.edition).where(rows.plan_id == plan_id).with_for_update()
            ).scalar_one_or_none()
            edition = found or 0
            if not admits(made_from, edition):
                raise LetterheadChanged(edition)
            if found is None:
                connection.execute(insert(tables.letterheads).values(plan_id=plan_id, edition=1, content=content))
            else:
                changed = update(tables.letterheads).where(rows.plan_id == plan_id)
                connection.execute(changed.values(edition=edition + 1, content=content))
            return edition + 1
