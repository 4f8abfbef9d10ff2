"""Cases, their journals, and which are closed: rows that are only added."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "cases",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("at", sa.DateTime, nullable=False),
        sa.Column("start", sa.Text, nullable=False),
    )
    op.create_table(
        "journal",
        sa.Column("case_id", sa.Integer, sa.ForeignKey("cases.id"), primary_key=True),
        sa.Column("seq", sa.Integer, primary_key=True),
        sa.Column("at", sa.DateTime, nullable=False),
        sa.Column("move", sa.String(8), nullable=False),
        sa.Column("what", sa.Text, nullable=False),
        sa.Column("case", sa.Text, nullable=False),
    )
    op.create_table(
        "closed",
        sa.Column("case_id", sa.Integer, sa.ForeignKey("cases.id"), primary_key=True),
        sa.Column("at", sa.DateTime, nullable=False),
    )
    # The triggers that make them add-only come with 0002, which replaces those of a file of this layout.
