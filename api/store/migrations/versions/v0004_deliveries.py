"""Deliveries, and orders that follow them; runs whose result is no plan."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "v0004"
down_revision = "v0003"

_STATES = "state IN ('draft', 'placed', 'part received', 'received', 'withdrawn')"


def upgrade() -> None:
    """Let orders be received, and write down what came."""
    with op.batch_alter_table("orders") as table:
        table.drop_constraint("ck_orders_state", type_="check")
        table.alter_column("state", type_=sa.String(length=20), existing_nullable=False)
        table.add_column(
            sa.Column(
                "version", sa.BigInteger(), server_default="1", autoincrement=False, nullable=False
            )
        )
        table.create_check_constraint(op.f("ck_orders_state"), _STATES)
    op.add_column("runs", sa.Column("result", sa.Text(), nullable=True))
    op.create_table(
        "deliveries",
        sa.Column("id", sa.String(length=40), nullable=False),
        sa.Column("firm", sa.String(length=40), nullable=False),
        sa.Column("order", sa.String(length=40), nullable=False),
        sa.Column("seq", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("who", sa.String(length=200), nullable=False),
        sa.Column("created", sa.Double(), nullable=False),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("idempotency_key", sa.String(length=200), nullable=True),
        sa.Column("body_hash", sa.String(length=64), nullable=False),
        sa.Column("run", sa.String(length=40), nullable=True),
        sa.ForeignKeyConstraint(["firm"], ["firms.id"], name=op.f("fk_deliveries_firm_firms")),
        sa.ForeignKeyConstraint(["order"], ["orders.id"], name=op.f("fk_deliveries_order_orders")),
        sa.ForeignKeyConstraint(["run"], ["runs.id"], name=op.f("fk_deliveries_run_runs")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_deliveries")),
        sa.UniqueConstraint("order", "seq", name=op.f("uq_deliveries_order_seq")),
        sa.UniqueConstraint(
            "firm", "idempotency_key", name=op.f("uq_deliveries_firm_idempotency_key")
        ),
    )
