"""The database brought to the tables that this release knows."""

from __future__ import annotations

import time
from contextlib import closing
from typing import TYPE_CHECKING

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from alembic.util import CommandError

from workbook.checker.database import Database
from workbook.checker.log import configure_log
from workbook.errors import CheckerRefusedError, TaskError

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlalchemy import Connection

#: Replicas that start at once wait for each other here.
_LOCK = "workbook: upgrade"

#: How long a database is waited for at the start, and how long between two tries [s]: a
#: machine that starts brings it up within that, and whoever manages this service as a
#: hub or a container starts it anew.
_WAIT_S, _PAUSE_S = 60.0, 1.0

_WAITS = "{name} does not answer; it is tried again for {wait_s:.0f} s."
_GONE = (
    "{name} did not answer for {wait_s:.0f} s, so nothing is served. Start the "
    "database, or look at the address, the name and the password that were given."
)


def prepare_database(
    address: str, say: Callable[[str], object], wait_s: float = _WAIT_S
) -> None:
    """
    Bring a database to the newest tables; wait for one that is not there yet.

    Parameters
    ----------
    address : str
        Of the database.
    say : callable
        Called with a sentence once it has to be waited for.
    wait_s : float
        For how long [s].

    Raises
    ------
    TaskError
        If the database can't be used, or was not there in time.
    """
    configure_log()
    end_s = time.monotonic() + wait_s
    with closing(Database(address)) as database:
        while not _is_prepared(database):
            if time.monotonic() >= end_s:
                raise TaskError(_GONE.format(name=database.name, wait_s=wait_s))
            say(_WAITS.format(name=database.name, wait_s=wait_s))
            say = _say_nothing
            time.sleep(_PAUSE_S)


def _is_prepared(database: Database) -> bool:
    try:
        database.check_server()
        upgrade(database)
    except CheckerRefusedError:
        return False
    return True


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


def _say_nothing(_: str) -> None:
    """Say nothing: it was said."""


def _configure(connection: Connection | None) -> Config:
    config = Config(attributes={"connection": connection})
    config.set_main_option("script_location", "workbook.checker:migration")
    return config
