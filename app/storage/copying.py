"""A plan copied with what is kept beside it, its history apart; or one begun with the pictures of another."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime

from sqlalchemy import Column, ColumnElement, Connection, Engine, Table, insert, literal, select

from app.plan.model import Plan
from app.storage import tables
from app.storage.engine import changing
from app.storage.plans import KeptPlan, head_of, new_id, write_revision

_MARK = " (copy)"
_LONGEST_NAME = 120


def copy_plan(engine: Engine, plan_id: str, plan: Plan) -> KeptPlan:
    """Keep a plan, made from a kept one, as a plan of its own with a mark in its name; raises ``PlanMissing``.

    The pictures under its levels and its letterhead come along.
    """
    named = plan.model_copy(update={"name": plan.name[: _LONGEST_NAME - len(_MARK)] + _MARK})
    with changing(engine) as connection:
        kept = _begun(connection, plan_id, named)
        _copy_pictures(connection, plan_id, kept.id, tables.underlays.c.digest.is_not(None))
        heads = tables.letterheads
        _copy_rows(connection, heads, heads.c.plan_id == plan_id, kept.id)
    return kept


def begin_plan(engine: Engine, plan: Plan, pictures_of: str) -> KeptPlan:
    """Keep a new plan with the pictures that lie under those levels of a kept one that it has too.

    Raises ``PlanMissing``.
    """
    laid = tables.underlays.c
    with changing(engine) as connection:
        kept = _begun(connection, pictures_of, plan)
        here = laid.digest.is_not(None) & laid.level.in_([level.id for level in plan.levels])
        _copy_pictures(connection, pictures_of, kept.id, here)
    return kept


def _begun(connection: Connection, source: str, plan: Plan) -> KeptPlan:
    head_of(connection, source)
    kept_id, now = new_id(), datetime.now(UTC)
    connection.execute(insert(tables.plans).values(id=kept_id, name=plan.name, revision=1, updated=now))
    return write_revision(connection, kept_id, 1, plan, now)


def _copy_pictures(connection: Connection, source: str, kept_id: str, chosen: ColumnElement[bool]) -> None:
    """What lies under the chosen levels, and the pictures that it needs."""
    pictures, laid = tables.pictures, tables.underlays
    chosen &= laid.c.plan_id == source
    needed = pictures.c.digest.in_(select(laid.c.digest).where(chosen))
    _copy_rows(connection, pictures, (pictures.c.plan_id == source) & needed, kept_id)
    _copy_rows(connection, laid, chosen, kept_id)


def _copy_rows(connection: Connection, table: Table, chosen: ColumnElement[bool], kept_id: str) -> None:
    columns: Sequence[Column[object]] = [column for column in table.columns if column.name != "plan_id"]
    rows = select(literal(kept_id), *columns).where(chosen)
    connection.execute(insert(table).from_select(["plan_id", *(column.name for column in columns)], rows))
