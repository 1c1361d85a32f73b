"""Plans and their revisions."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make both tables."""
    op.create_table(
        "plans",
        sa.Column("id", sa.String(40), primary_key=True),
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("updated", sa.DateTime(timezone=True), nullable=False),
        sa.Column("removed", sa.DateTime(timezone=True), nullable=True),
    )
    op.create_index("plans_by_time", "plans", ["updated"])
    op.create_table(
        "revisions",
        sa.Column("plan_id", sa.String(40), sa.ForeignKey("plans.id"), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True),
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("saved", sa.DateTime(timezone=True), nullable=False),
        sa.Column("things", sa.Integer, nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("content", sa.LargeBinary, nullable=False),
    )


def downgrade() -> None:
    """Plans are not thrown away by a step back."""
    raise NotImplementedError("the first step cannot be taken back: restore a backup instead")
