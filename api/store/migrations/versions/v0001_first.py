"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "v0001"
down_revision = None


def upgrade() -> None:
    """Make all tables."""
    op.create_table(
        "firms",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("last_turn", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("last_label", sa.BigInteger(), server_default="0", nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_firms")),
        sa.UniqueConstraint("name", name=op.f("uq_firms_name")),
    )
    op.create_table(
        "audit",
        sa.Column(
            "id",
            sa.BigInteger().with_variant(sa.Integer(), "sqlite"),
            autoincrement=True,
            nullable=False,
        ),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("at", sa.Double(), nullable=False),
        sa.Column("action", sa.String(length=40), nullable=False),
        sa.Column("thing", sa.String(length=200), nullable=False),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_audit_firm_firms")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_audit")),
    )
    op.create_index(op.f("ix_audit_firm_at"), "audit", ["firm", "at"], unique=False)
    op.create_table(
        "jobs",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("changed", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_jobs_firm_firms")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_jobs")),
        sa.UniqueConstraint("firm", "name", name=op.f("uq_jobs_firm_name")),
    )
    op.create_table(
        "keys",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("hash", sa.String(length=64), nullable=False),
        sa.Column("roles", sa.String(length=100), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("revoked", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_keys_firm_firms")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_keys")),
        sa.UniqueConstraint("hash", name=op.f("uq_keys_hash")),
    )
    op.create_table(
        "offcuts",
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("label", sa.String(length=120), nullable=False),
        sa.Column("material", sa.String(length=200), nullable=False),
        sa.Column("length", sa.BigInteger(), nullable=True),
        sa.Column("width", sa.BigInteger(), nullable=True),
        sa.Column("height", sa.BigInteger(), nullable=True),
        sa.Column("place", sa.String(length=200), nullable=False),
        sa.CheckConstraint(
            "(length > 0 AND width IS NULL AND height IS NULL)"
            " OR (length IS NULL AND width > 0 AND height > 0)",
            name=op.f("ck_offcuts_sizes"),
        ),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_offcuts_firm_firms")),
        sa.PrimaryKeyConstraint("firm", "label", name=op.f("pk_offcuts")),
    )
    op.create_table(
        "price_books",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.Column("valid_from", sa.String(length=10), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_price_books_firm_firms")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_price_books")),
        sa.UniqueConstraint(
            "firm", "name", "version", name=op.f("uq_price_books_firm_name_version")
        ),
    )
    op.create_table(
        "runs",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("idempotency_key", sa.String(length=200), nullable=True),
        sa.Column("body_hash", sa.String(length=64), nullable=False),
        sa.Column("takes_rack", sa.Boolean(), nullable=False),
        sa.Column("seconds", sa.Double(), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("started", sa.Double(), nullable=True),
        sa.Column("ended", sa.Double(), nullable=True),
        sa.Column("deadline", sa.Double(), nullable=True),
        sa.Column("lease_owner", sa.String(length=100), nullable=True),
        sa.Column("lease_until", sa.Double(), nullable=True),
        sa.Column("attempt", sa.BigInteger(), server_default="0", nullable=False),
        sa.Column("cancel", sa.Boolean(), server_default=sa.false(), nullable=False),
        sa.Column("cost", sa.BigInteger(), nullable=True),
        sa.Column("bound", sa.BigInteger(), nullable=True),
        sa.Column("layouts", sa.BigInteger(), nullable=True),
        sa.Column("spent", sa.Double(), nullable=True),
        sa.Column("problem", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "state IN ('queued', 'running', 'done', 'cancelled', 'failed')",
            name=op.f("ck_runs_state"),
        ),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_runs_firm_firms")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_runs")),
        sa.UniqueConstraint("firm", "idempotency_key", name=op.f("uq_runs_firm_idempotency_key")),
    )
    op.create_index(op.f("ix_runs_firm_created"), "runs", ["firm", "created"], unique=False)
    op.create_index(
        op.f("ix_runs_state_firm_created"), "runs", ["state", "firm", "created"], unique=False
    )
    op.create_table(
        "batches",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("run", sa.String(length=40), nullable=False),
        sa.Column("jobs", sa.Text(), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_batches_firm_firms")),
        sa.ForeignKeyConstraint(["run"], ["runs.id"], name=op.f("fk_batches_run_runs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_batches")),
        sa.UniqueConstraint("run", name=op.f("uq_batches_run")),
    )
    op.create_index(op.f("ix_batches_firm_created"), "batches", ["firm", "created"], unique=False)
    op.create_table(
        "plans",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("run", sa.String(length=40), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.Column("request", sa.Text(), nullable=True),
        sa.Column("plan", sa.Text(), nullable=True),
        sa.Column("extra", sa.Text(), nullable=True),
        sa.Column("cost", sa.BigInteger(), nullable=True),
        sa.Column("bound", sa.BigInteger(), nullable=True),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("changed", sa.Double(), nullable=False),
        sa.CheckConstraint(
            "state IN ('planning', 'draft', 'confirmed', 'undone', 'dropped')",
            name=op.f("ck_plans_state"),
        ),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_plans_firm_firms")),
        sa.ForeignKeyConstraint(["run"], ["runs.id"], name=op.f("fk_plans_run_runs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plans")),
        sa.UniqueConstraint("run", name=op.f("uq_plans_run")),
    )
    op.create_index(op.f("ix_plans_firm_created"), "plans", ["firm", "created"], unique=False)
    op.create_table(
        "walls",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("job", sa.String(length=40), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("version", sa.BigInteger(), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("changed", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_walls_firm_firms")),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name=op.f("fk_walls_job_jobs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_walls")),
    )
    op.create_index(op.f("ix_walls_firm_created"), "walls", ["firm", "created"], unique=False)
    op.create_index(op.f("ix_walls_job"), "walls", ["job"], unique=False)
    op.create_table(
        "drawings",
        sa.Column("plan", sa.String(length=40), nullable=False),
        sa.Column("name", sa.String(length=200), nullable=False),
        sa.Column("place", sa.BigInteger(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("packed", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["plan"], ["plans.id"], name=op.f("fk_drawings_plan_plans")),
        sa.PrimaryKeyConstraint("plan", "name", name=op.f("pk_drawings")),
    )
    op.create_table(
        "orders",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("plan", sa.String(length=40), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("csv", sa.Text(), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("changed", sa.Double(), nullable=False),
        sa.CheckConstraint(
            "state IN ('draft', 'placed', 'withdrawn')", name=op.f("ck_orders_state")
        ),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_orders_firm_firms")),
        sa.ForeignKeyConstraint(["plan"], ["plans.id"], name=op.f("fk_orders_plan_plans")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_orders")),
        sa.UniqueConstraint("plan", name=op.f("uq_orders_plan")),
    )
    op.create_index(op.f("ix_orders_firm_created"), "orders", ["firm", "created"], unique=False)
    op.create_table(
        "rack_events",
        sa.Column(
            "id",
            sa.BigInteger().with_variant(sa.Integer(), "sqlite"),
            autoincrement=True,
            nullable=False,
        ),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("label", sa.String(length=120), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("on_rack", sa.BigInteger(), nullable=False),
        sa.Column("held", sa.BigInteger(), nullable=False),
        sa.Column("plan", sa.String(length=40), nullable=True),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("at", sa.Double(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "kind IN ('racked', 'reserved', 'released', 'used', 'scrapped', 'adjusted')",
            name=op.f("ck_rack_events_kind"),
        ),
        sa.CheckConstraint(
            "on_rack IN (-1, 0, 1) AND held IN (-1, 0, 1)", name=op.f("ck_rack_events_steps")
        ),
        sa.ForeignKeyConstraint(
            ["firm", "label"],
            ["offcuts.firm", "offcuts.label"],
            name=op.f("fk_rack_events_firm_label_offcuts"),
        ),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_rack_events_firm_firms")),
        sa.ForeignKeyConstraint(["plan"], ["plans.id"], name=op.f("fk_rack_events_plan_plans")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_rack_events")),
        sa.UniqueConstraint("firm", "label", "seq", name=op.f("uq_rack_events_firm_label_seq")),
    )
    op.create_index(op.f("ix_rack_events_plan"), "rack_events", ["plan"], unique=False)
