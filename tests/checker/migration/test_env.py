"""A migration runs in the transaction of whoever asks for it: whole or not at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import inspect

from workbook.checker.database import Database

if TYPE_CHECKING:
    from pathlib import Path


class _CrashError(Exception):
    """Stands for the end of the process."""


def test_a_migration_that_is_cut_short_leaves_nothing(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path / 'r.sqlite'}")

    def crash() -> None:
        with database.write() as connection:
            config = Config(attributes={"connection": connection})
            config.set_main_option("script_location", "workbook.checker:migration")
            command.upgrade(config, "head")
            assert "attempt" in inspect(connection).get_table_names()
            raise _CrashError

    with pytest.raises(_CrashError):
        crash()
    with database.read() as connection:
        assert inspect(connection).get_table_names() == []
    database.close()
