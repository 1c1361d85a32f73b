"""The tables that plans are kept in: a row a plan, a revision, an entry of its history, an edition of what was built.

A revision's content is the plan as JSON, deflated, with the SHA-256 of that JSON, so that damage is told and
what was worked out from a plan can be kept by its content.
"""

from __future__ import annotations

from sqlalchemy import (
    Column,
    Date,
    DateTime,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
)

metadata = MetaData()

plans = Table(
    "plans",
    metadata,
    Column("id", String(40), primary_key=True),
    Column("name", String(120), nullable=False),
    Column("revision", Integer, nullable=False),
    Column("updated", DateTime(timezone=True), nullable=False),
    Column("removed", DateTime(timezone=True), nullable=True),
    Index("plans_by_time", "updated"),
)

revisions = Table(
    "revisions",
    metadata,
    Column("plan_id", String(40), ForeignKey("plans.id"), primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("name", String(120), nullable=False),
    Column("saved", DateTime(timezone=True), nullable=False),
    Column("things", Integer, nullable=False),
    Column("digest", String(64), nullable=False),
    Column("content", LargeBinary, nullable=False),
)

history = Table(
    "history",
    metadata,
    Column("plan_id", String(40), ForeignKey("plans.id"), primary_key=True),
    Column("turn", Integer, primary_key=True),
    Column("number", Integer, nullable=False),
    Column("what", String(10), nullable=False),
    Column("mark", String(8), nullable=False),
    Column("words", String(200), nullable=False),
    Column("person", String(120), nullable=False),
    Column("day", Date, nullable=True),
    Column("recorded", DateTime(timezone=True), nullable=False),
    Column("digest", String(64), nullable=False),
    ForeignKeyConstraint(["plan_id", "number"], ["revisions.plan_id", "revisions.number"]),
)

as_built = Table(
    "as_built",
    metadata,
    Column("plan_id", String(40), ForeignKey("plans.id"), primary_key=True),
    Column("edition", Integer, primary_key=True),
    Column("number", Integer, nullable=False),
    Column("saved", DateTime(timezone=True), nullable=False),
    Column("entries", Integer, nullable=False),
    Column("digest", String(64), nullable=False),
    Column("content", LargeBinary, nullable=False),
    ForeignKeyConstraint(["plan_id", "number"], ["revisions.plan_id", "revisions.number"]),
)
