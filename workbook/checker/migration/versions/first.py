"""The first tables: attempts and hand-ins."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "first"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    number = sa.BigInteger().with_variant(sa.Integer, "sqlite")
    sheet = ("course", "lab", "revision", "student")
    op.create_table(
        "attempt",
        sa.Column("number", number, primary_key=True, autoincrement=True),
        sa.Column("course", sa.Text, nullable=False),
        sa.Column("lab", sa.Text, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("student", sa.Text, nullable=False),
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("step", sa.Text, nullable=False),
        sa.Column("answer", sa.Text, nullable=False),
        sa.Column("received", sa.DateTime(timezone=True), nullable=False),
        sa.Column("outcome", sa.Text, nullable=True),
        sa.UniqueConstraint(*sheet, "id", name="attempt_once"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "hand_in",
        sa.Column("number", number, primary_key=True, autoincrement=True),
        sa.Column("course", sa.Text, nullable=False),
        sa.Column("lab", sa.Text, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("student", sa.Text, nullable=False),
        sa.Column("digest", sa.Text, nullable=False),
        sa.Column("received", sa.DateTime(timezone=True), nullable=False),
        sa.UniqueConstraint(*sheet, "digest", name="hand_in_once"),
        sqlite_autoincrement=True,
    )
