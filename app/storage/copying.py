"""A plan copied with what is kept beside it: the pictures under its levels and its letterhead; not its history."""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import Engine, insert, literal, select

from app.plan.model import Plan
from app.storage import tables
from app.storage.engine import changing
from app.storage.plans import KeptPlan, head_of, new_id, write_revision

_MARK = " (copy)"
_LONGEST_NAME = 120


def copy_plan(engine: Engine, plan_id: str, plan: Plan) -> KeptPlan:
    """Keep a plan, made from a kept one, as a plan of its own with a mark in its name; raises ``PlanMissing``."""
    named = plan.model_copy(update={"name": plan.name[: _LONGEST_NAME - len(_MARK)] + _MARK})
    kept_id, now = new_id(), datetime.now(UTC)
    pictures, laid, heads = tables.pictures, tables.underlays, tables.letterheads
    lying = select(laid.c.digest).where(laid.c.plan_id == plan_id, laid.c.digest.is_not(None))
    with changing(engine) as connection:
        head_of(connection, plan_id)
        connection.execute(insert(tables.plans).values(id=kept_id, name=named.name, revision=1, updated=now))
        kept = write_revision(connection, kept_id, 1, named, now)
        for table, chosen in (
            (pictures, (pictures.c.plan_id == plan_id) & pictures.c.digest.in_(lying)),
            (laid, (laid.c.plan_id == plan_id) & laid.c.digest.is_not(None)),
            (heads, heads.c.plan_id == plan_id),
        ):
            names = [column.name for column in table.columns if column.name != "plan_id"]
            rows = select(literal(kept_id), *(table.c[name] for name in names)).where(chosen)
            connection.execute(insert(table).from_select(["plan_id", *names], rows))
    return kept
