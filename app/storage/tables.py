"""The tables that plans are kept in: a row a plan, a revision, an entry of its history, an edition of what was built,
a picture, what lies under a level, a letterhead; and the practice templates.

A revision's content is the plan as JSON, deflated, with the SHA-256 of that JSON, so that damage is told and
what was worked out from a plan can be kept by its content.
"""

from __future__ import annotations

from sqlalchemy import (
    Boolean,
    Column,
    Date,
    DateTime,
    Float,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
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

pictures = Table(
    "pictures",
    metadata,
    Column("plan_id", String(40), ForeignKey("plans.id"), primary_key=True),
    Column("digest", String(64), primary_key=True),
    Column("name", String(120), nullable=False),
    Column("media", String(20), nullable=False),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    Column("per_inch", Float, nullable=True),
    Column("kept", DateTime(timezone=True), nullable=False),
    Column("content", LargeBinary, nullable=False),
)

underlays = Table(
    "underlays",
    metadata,
    Column("plan_id", String(40), ForeignKey("plans.id"), primary_key=True),
    Column("level", String(40), primary_key=True),
    Column("edition", Integer, nullable=False),
    Column("digest", String(64), nullable=True),
    Column("placement", Text, nullable=True),
    ForeignKeyConstraint(["plan_id", "digest"], ["pictures.plan_id", "pictures.digest"]),
)

letterheads = Table(
    "letterheads",
    metadata,
    Column("plan_id", String(40), ForeignKey("plans.id"), primary_key=True),
    Column("edition", Integer, nullable=False),
    Column("content", Text, nullable=False),
)

templates = Table(
    "templates",
    metadata,
    Column("id", String(40), primary_key=True),
    Column("name", String(120), nullable=False),
    Column("edition", Integer, nullable=False),
    Column("usual", Boolean, nullable=False),
    Column("saved", DateTime(timezone=True), nullable=False),
    Column("content", Text, nullable=False),
)
