"""What was said of revisions (named, approved, withdrawn), and what was really built, each kept entry by entry."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make both tables; a revision that either speaks of can no longer be deleted."""
    op.create_table(
        "history",
        sa.Column("plan_id", sa.String(40), sa.ForeignKey("plans.id"), primary_key=True),
        sa.Column("turn", sa.Integer, primary_key=True),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("what", sa.String(10), nullable=False),
        sa.Column("mark", sa.String(8), nullable=False),
        sa.Column("words", sa.String(200), nullable=False),
        sa.Column("person", sa.String(120), nullable=False),
        sa.Column("day", sa.Date, nullable=True),
        sa.Column("recorded", sa.DateTime(timezone=True), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.ForeignKeyConstraint(["plan_id", "number"], ["revisions.plan_id", "revisions.number"]),
    )
    op.create_table(
        "as_built",
        sa.Column("plan_id", sa.String(40), sa.ForeignKey("plans.id"), primary_key=True),
        sa.Column("edition", sa.Integer, primary_key=True),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("saved", sa.DateTime(timezone=True), nullable=False),
        sa.Column("entries", sa.Integer, nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("content", sa.LargeBinary, nullable=False),
        sa.ForeignKeyConstraint(["plan_id", "number"], ["revisions.plan_id", "revisions.number"]),
    )


def downgrade() -> None:
    """Approvals are not thrown away by a step back."""
    raise NotImplementedError("this step cannot be taken back: restore a backup instead")
