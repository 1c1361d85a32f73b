"""Practice templates, kept by name; at most one is the usual one. Every change names the edition it was made from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime

from sqlalchemy import Connection, Engine, delete, func, insert, select, update

from app.plan.template import Template
from app.storage import tables
from app.storage.engine import changing, reading
from app.storage.made_from import MadeFrom, admits
from app.storage.plans import in_utc, new_id
from app.storage.troubles import PlanMissing, StoreForbids, TemplateChanged

MOST_TEMPLATES = 200


@dataclass(frozen=True)
class KeptTemplate:
    """A template under its id, in its ``edition``."""

    id: str
    edition: int
    saved: datetime
    template: Template


class TemplateStore:
    """The templates of a store, on its database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def listed(self) -> list[KeptTemplate]:
        """Every template, the usual one first, then by name."""
        with reading(self.engine) as connection:
            kept = _kept(connection)
        return sorted(kept, key=lambda each: (not each.template.usual, each.template.name.casefold(), each.id))

    def of(self, template_id: str) -> KeptTemplate:
        """One template; raises ``PlanMissing``."""
        with reading(self.engine) as connection:
            return _one(connection, template_id)

    def add(self, template: Template) -> KeptTemplate:
        """Keep a new one; raises ``StoreForbids`` where another bears its name, or there are too many."""
        with changing(self.engine) as connection:
            if connection.execute(select(func.count()).select_from(tables.templates)).scalar_one() >= MOST_TEMPLATES:
                raise StoreForbids(f"there are {MOST_TEMPLATES} templates already; remove one first")
            return _write(connection, KeptTemplate(new_id(), 1, datetime.now(UTC), template))

    def save(self, template_id: str, template: Template, made_from: MadeFrom) -> KeptTemplate:
        """Keep a changed one; raises ``TemplateChanged``, ``PlanMissing`` or ``StoreForbids``."""
        with changing(self.engine) as connection:
            before = _in_force(connection, template_id, made_from)
            return _write(connection, KeptTemplate(template_id, before.edition + 1, datetime.now(UTC), template))

    def remove(self, template_id: str, made_from: MadeFrom) -> None:
        """Take one out; plans keep what they took from it. Raises as ``save`` does."""
        with changing(self.engine) as connection:
            _in_force(connection, template_id, made_from)
            connection.execute(delete(tables.templates).where(tables.templates.c.id == template_id))


def _kept(connection: Connection) -> list[KeptTemplate]:
    rows = tables.templates.c
    found = connection.execute(select(rows.id, rows.edition, rows.saved, rows.content))
    return [
        KeptTemplate(kept_id, edition, in_utc(saved), Template.model_validate_json(content))
        for kept_id, edition, saved, content in found
    ]


def _one(connection: Connection, template_id: str) -> KeptTemplate:
    found = next((each for each in _kept(connection) if each.id == template_id), None)
    if found is None:
        raise PlanMissing(f"no template has the id {template_id[:60]}")
    return found


def _in_force(connection: Connection, template_id: str, made_from: MadeFrom) -> KeptTemplate:
    found = _one(connection, template_id)
    if not admits(made_from, found.edition):
        raise TemplateChanged(found.edition)
    return found


def _write(connection: Connection, kept: KeptTemplate) -> KeptTemplate:
    rows, template = tables.templates.c, kept.template
    for other in _kept(connection):
        if other.id != kept.id and other.template.name.casefold() == template.name.casefold():
            raise StoreForbids(f"a template named {other.template.name} is there already; give another name")
        if other.id != kept.id and other.template.usual and template.usual:
            less = other.template.model_copy(update={"usual": False})
            connection.execute(
                update(tables.templates)
                .where(rows.id == other.id)
                .values(usual=False, content=less.model_dump_json(), edition=other.edition + 1)
            )
    values = {
        "name": template.name,
        "edition": kept.edition,
        "usual": template.usual,
        "saved": kept.saved,
        "content": template.model_dump_json(),
    }
    changed = connection.execute(update(tables.templates).where(rows.id == kept.id).values(values))
    if not changed.rowcount:
        connection.execute(insert(tables.templates).values(id=kept.id, **values))
    return kept
