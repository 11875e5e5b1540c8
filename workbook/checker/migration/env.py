"""What Alembic runs for each migration: on a connection that is open already."""

from __future__ import annotations

from alembic import context

# Alembic gives it what it needs; whoever else reads it runs nothing.
if hasattr(context, "config"):
    # In one transaction with the lock that `upgrade` holds: whole or not at all.
    context.configure(connection=context.config.attributes["connection"])
    context.run_migrations()
