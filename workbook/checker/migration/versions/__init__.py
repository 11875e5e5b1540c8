"""The steps, each a module that Alembic reads; a step that was released stays."""
