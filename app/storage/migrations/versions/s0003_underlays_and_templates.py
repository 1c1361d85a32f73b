"""Pictures and how they lie under levels, letterheads of plans, and practice templates."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the four tables."""
    op.create_table(
        "pictures",
        sa.Column("plan_id", sa.String(40), sa.ForeignKey("plans.id"), primary_key=True),
        sa.Column("digest", sa.String(64), primary_key=True),
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("media", sa.String(20), nullable=False),
        sa.Column("width", sa.Integer, nullable=False),
        sa.Column("height", sa.Integer, nullable=False),
        sa.Column("per_inch", sa.Float, nullable=True),
        sa.Column("kept", sa.DateTime(timezone=True), nullable=False),
        sa.Column("content", sa.LargeBinary, nullable=False),
    )
    op.create_table(
        "underlays",
        sa.Column("plan_id", sa.String(40), sa.ForeignKey("plans.id"), primary_key=True),
        sa.Column("level", sa.String(40), primary_key=True),
        sa.Column("edition", sa.Integer, nullable=False),
        sa.Column("digest", sa.String(64), nullable=True),
        sa.Column("placement", sa.Text, nullable=True),
        sa.ForeignKeyConstraint(["plan_id", "digest"], ["pictures.plan_id", "pictures.digest"]),
    )
    op.create_table(
        "letterheads",
        sa.Column("plan_id", sa.String(40), sa.ForeignKey("plans.id"), primary_key=True),
        sa.Column("edition", sa.Integer, nullable=False),
        sa.Column("content", sa.Text, nullable=False),
    )
    op.create_table(
        "templates",
        sa.Column("id", sa.String(40), primary_key=True),
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("edition", sa.Integer, nullable=False),
        sa.Column("usual", sa.Boolean, nullable=False),
        sa.Column("saved", sa.DateTime(timezone=True), nullable=False),
        sa.Column("content", sa.Text, nullable=False),
    )


def downgrade() -> None:
    """Underlays and templates are not thrown away by a step back."""
    raise NotImplementedError("this step cannot be taken back: restore a backup instead")
