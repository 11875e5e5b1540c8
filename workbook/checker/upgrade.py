"""The database brought to the tables that this release knows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from alembic.util import CommandError

from workbook.errors import TaskError

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from workbook.checker.database import Database

#: Replicas that start at once wait for each other here.
_LOCK = "workbook: upgrade"


def upgrade(database: Database) -> str:
    """
    Bring a database to the newest tables, whatever it holds.

    Parameters
    ----------
    database : Database
        Empty, or of this or an earlier release.

    Returns
    -------
    str
        The revision that it has now.

    Raises
    ------
    TaskError
        If it is of a later release.
    CheckerRefusedError
        If the database can't be reached.
    """
    with database.write() as connection:
        database.hold(connection, _LOCK)
        try:
            command.upgrade(_configure(connection), "head")
        except CommandError as error:
            msg = (
                f"{database.name}: the record was made by a later release. Install "
                f"that one, or serve another database."
            )
            raise TaskError(msg) from error
    return newest()


def find_revision(database: Database) -> str | None:
    """
    Return the revision of the tables in a database.

    Parameters
    ----------
    database : Database
        Of any release.

    Returns
    -------
    str or None
        None for one without a record.

    Raises
    ------
    CheckerRefusedError
        If the database can't be reached.
    """
    with database.read() as connection:
        return MigrationContext.configure(connection).get_current_revision()


def newest() -> str:
    """
    Return the revision of the tables that this release knows.

    Returns
    -------
    str
        As `find_revision` gives it for a database that needs nothing.
    """
    head = ScriptDirectory.from_config(_configure(None)).get_current_head()
    return head or ""


def _configure(connection: Connection | None) -> Config:
    config = Config(attributes={"connection": connection})
    config.set_main_option("script_location", "workbook.checker:migration")
    return config
