"""Runs the steps on the connection, and in the transaction, of whoever asked for them."""

from __future__ import annotations

from alembic import context

context.configure(
    connection=context.config.attributes["connection"],
    transactional_ddl=True,
    render_as_batch=True,
)
context.run_migrations()
