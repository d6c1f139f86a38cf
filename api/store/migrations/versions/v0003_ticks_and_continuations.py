"""Ticks at the saw, and which plan continues which."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "v0003"
down_revision = "v0002"


def upgrade() -> None:
    """Add the two tables."""
    op.create_table(
        "continuations",
        sa.Column("plan", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("continues", sa.String(length=40), nullable=False),
        sa.Column("marks", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.ForeignKeyConstraint(
            ["continues"], ["plans.id"], name=op.f("fk_continuations_continues_plans")
        ),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_continuations_firm_firms")),
        sa.ForeignKeyConstraint(["plan"], ["plans.id"], name=op.f("fk_continuations_plan_plans")),
        sa.PrimaryKeyConstraint("plan", name=op.f("pk_continuations")),
    )
    op.create_index(op.f("ix_continuations_continues"), "continuations", ["continues"])
    op.create_table(
        "ticks",
        sa.Column("plan", sa.String(length=40), nullable=False),
        sa.Column("seq", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("tick", sa.String(length=64), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("at", sa.Double(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_ticks_firm_firms")),
        sa.ForeignKeyConstraint(["plan"], ["plans.id"], name=op.f("fk_ticks_plan_plans")),
        sa.PrimaryKeyConstraint("plan", "seq", name=op.f("pk_ticks")),
        sa.UniqueConstraint("plan", "tick", name=op.f("uq_ticks_plan_tick")),
    )
