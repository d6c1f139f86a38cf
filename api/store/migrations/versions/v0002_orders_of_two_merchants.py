"""A plan may have two orders, to two merchants."""

from __future__ import annotations

from alembic import op

revision = "v0002"
down_revision = "v0001"


def upgrade() -> None:
    """Let several orders name one plan, and find them by it."""
    with op.batch_alter_table("orders") as table:
        table.drop_constraint("uq_orders_plan", type_="unique")
        table.create_index(op.f("ix_orders_plan"), ["plan"], unique=False)
