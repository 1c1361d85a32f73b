"""The tables that plans are kept in: one row a plan, one row a revision.

A revision's content is the plan as JSON, deflated, with the SHA-256 of that JSON, so that damage is told and
what was worked out from a plan can be kept by its content.
"""

from __future__ import annotations

from sqlalchemy import Column, DateTime, ForeignKey, Index, Integer, LargeBinary, MetaData, String, Table

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
