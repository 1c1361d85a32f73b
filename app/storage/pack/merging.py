"""Bring a pack in beside what is kept: all of it in one transaction, and nothing that is there is changed.

A plan that is not here comes in as it is; one that is here with all that the pack has is left alone; one that is here
with other content comes in as a copy, which says so in its name. Templates the same.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Literal

from sqlalchemy import Connection, Engine, insert, select

from app.plan.placement import Placement
from app.plan.reading import read_plan
from app.plan.template import Template
from app.storage import tables
from app.storage.engine import changing
from app.storage.pack import layout
from app.storage.pack.reading import Pack
from app.storage.plans import new_id, write_revision

BROUGHT = " (brought in)"
_LONGEST_NAME = 120


@dataclass(frozen=True)
class Came:
    """What became of one thing of a pack: it came in, came in as a copy under another id, or was here already."""

    what: Literal["plan", "template"]
    name: str
    id: str
    how: Literal["in", "copy", "here"]
    revisions: int = 0

    @property
    def words(self) -> str:
        """A line for people."""
        named = f"{self.name} ({self.what} {self.id})"
        history = f", {self.revisions} revision{'s' * (self.revisions != 1)}" if self.revisions else ""
        if self.how == "here":
            return f"{named}: is here already; left as it is"
        if self.how == "copy":
            return f"{named}{history}: another of its id is here, so it came in as a copy beside it"
        return f"{named}{history}: came in"


def merge_pack(engine: Engine, pack: Pack) -> list[Came]:
    """Bring everything of a judged pack in; what became of each thing, in the pack's order."""
    with changing(engine) as connection:
        came = [_plan(connection, pack, plan) for plan in pack.plans]
        return came + [_template(connection, packed, template) for packed, template in pack.templates]


def _plan(connection: Connection, pack: Pack, plan: layout.PackedPlan) -> Came:
    revisions = tables.revisions.c
    newest = max(plan.revisions, key=lambda each: each.number)
    alike = connection.execute(
        select(revisions.plan_id).where(revisions.number == newest.number, revisions.digest == newest.digest)
    ).scalars()
    for plan_id in sorted(alike, key=lambda found: found != plan.id):
        if _has_all(connection, plan_id, plan):
            return Came("plan", plan.name, plan_id, "here")
    taken = connection.execute(select(tables.plans.c.id).where(tables.plans.c.id == plan.id)).one_or_none()
    plan_id = new_id() if taken else plan.id
    _insert(connection, pack, plan, plan_id)
    if not taken:
        return Came("plan", plan.name, plan_id, "in", len(plan.revisions))
    name = _marked(newest.name)
    renamed = read_plan(pack.content(plan.revision_file(newest.number))).model_copy(update={"name": name})
    now = datetime.now(UTC)
    write_revision(connection, plan_id, newest.number + 1, renamed, now)
    rows = tables.plans
    connection.execute(
        rows.update().where(rows.c.id == plan_id).values(name=name, revision=newest.number + 1, updated=now)
    )
    return Came("plan", name, plan_id, "copy", len(plan.revisions) + 1)


def _has_all(connection: Connection, plan_id: str, plan: layout.PackedPlan) -> bool:
    """Whether a plan of the store has every revision, entry, record and picture of a packed one, and stands as it."""
    revisions, history, built = tables.revisions.c, tables.history.c, tables.as_built.c
    laid, letterheads = tables.underlays.c, tables.letterheads.c
    kept = connection.execute(select(revisions.number, revisions.digest).where(revisions.plan_id == plan_id)).all()
    said = connection.execute(
        select(history.turn, history.number, history.what, history.mark, history.digest).where(
            history.plan_id == plan_id
        )
    ).all()
    records = connection.execute(select(built.edition, built.digest).where(built.plan_id == plan_id)).all()
    placed = connection.execute(
        select(laid.level, laid.placement).where(laid.plan_id == plan_id, laid.digest.is_not(None))
    ).all()
    head = connection.execute(select(letterheads.content).where(letterheads.plan_id == plan_id)).scalar_one_or_none()
    return (
        _within(((each.number, each.digest) for each in plan.revisions), kept)
        and _within(((e.turn, e.number, e.what, e.mark, e.digest) for e in plan.history), said)
        and _within(((each.edition, each.digest) for each in plan.as_built), records)
        and _within(
            ((each.level, each.placement) for each in plan.underlays),
            [(level, Placement.model_validate_json(placement)) for level, placement in placed],
        )
        and (plan.letterhead is None or plan.letterhead.stationery.model_dump_json() == head)
    )


def _within(packed: Iterable[tuple[object, ...]], kept: Iterable[Sequence[object]]) -> bool:
    return {*packed} <= {*map(tuple, kept)}


def _insert(connection: Connection, pack: Pack, plan: layout.PackedPlan, plan_id: str) -> None:
    """Every row of a plan, its contents as they are in the pack."""
    connection.execute(
        insert(tables.plans).values(
            id=plan_id, name=plan.name, revision=plan.revision, updated=plan.updated, removed=plan.removed
        )
    )
    for revision in plan.revisions:
        content = zlib.compress(pack.content(plan.revision_file(revision.number)), level=3)
        connection.execute(insert(tables.revisions).values(plan_id=plan_id, content=content, **vars(revision)))
    for entry in plan.history:
        connection.execute(insert(tables.history).values(plan_id=plan_id, **vars(entry)))
    for record in plan.as_built:
        content = zlib.compress(pack.content(plan.record_file(record.edition)), level=3)
        connection.execute(insert(tables.as_built).values(plan_id=plan_id, content=content, **vars(record)))
    for picture in plan.pictures:
        content = pack.content(plan.picture_file(picture.digest))
        connection.execute(insert(tables.pictures).values(plan_id=plan_id, content=content, **vars(picture)))
    for underlay in plan.underlays:
        values = {"digest": underlay.placement.picture, "placement": underlay.placement.model_dump_json()}
        connection.execute(
            insert(tables.underlays).values(plan_id=plan_id, level=underlay.level, edition=underlay.edition, **values)
        )
    if plan.letterhead is not None:
        content_of = plan.letterhead.stationery.model_dump_json()
        connection.execute(
            insert(tables.letterheads).values(plan_id=plan_id, edition=plan.letterhead.edition, content=content_of)
        )


def _template(connection: Connection, packed: layout.PackedTemplate, template: Template) -> Came:
    rows = tables.templates.c
    kept = connection.execute(select(rows.id, rows.name, rows.usual, rows.content)).all()
    plain = template.model_copy(update={"usual": False})
    for row in kept:
        other = Template.model_validate_json(row.content)
        if other.model_copy(update={"usual": False, "name": template.name}) == plain and (
            row.id == packed.id or other.name in (template.name, _marked(template.name))
        ):
            return Came("template", other.name, row.id, "here")
    taken = packed.id in {row.id for row in kept}
    names = {row.name.casefold() for row in kept}
    name = _free_name(template.name, names) if template.name.casefold() in names or taken else template.name
    usual = template.usual and not any(row.usual for row in kept)
    kept_id = new_id() if taken else packed.id
    fitted = template.model_copy(update={"name": name, "usual": usual})
    connection.execute(
        insert(tables.templates).values(
            id=kept_id,
            name=name,
            edition=packed.edition,
            usual=usual,
            saved=packed.saved,
            content=fitted.model_dump_json(),
        )
    )
    return Came("template", name, kept_id, "in" if name == template.name else "copy")


def _marked(name: str) -> str:
    return name[: _LONGEST_NAME - len(BROUGHT)] + BROUGHT


def _free_name(name: str, names: set[str]) -> str:
    """The name with a mark, and a number where that is given too."""
    marked = _marked(name)
    number = 2
    while marked.casefold() in names:
        marked = f"{_marked(name[: _LONGEST_NAME - len(BROUGHT) - 5])} {number}"
        number += 1
    return marked
