"""A record as it stood at one moment, a sheet at a time, whatever comes in later."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import asdict
from sqlalchemy import and_, func, select, union

from workbook.checker.tables import ATTEMPT, HAND_IN
from workbook.checker.tried import Taken, Try
from workbook.wire.sheet import SheetId

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement, Connection, Table

    from workbook.checker.database import Database
    from workbook.wire.handin import Attempt


class RecordView:
    """
    What a record holds at the moment at which this is made.

    Parameters
    ----------
    database : Database
        With the newest tables.

    Raises
    ------
    CheckerRefusedError
        If the database can't be reached, here and in every method.
    """

    def __init__(self, database: Database) -> None:
        self._database = database
        with database.read() as connection:
            #: The last row of each table that is looked at.
            self._last = {
                table.name: _find_last(connection, table)
                for table in (ATTEMPT, HAND_IN)
            }

    def sheets(self, course: str, lab: str) -> list[SheetId]:
        """
        Return the sheets of a lab that were answered or handed in.

        Parameters
        ----------
        course, lab : str
            Their names.

        Returns
        -------
        list of SheetId
            By student and revision.
        """
        rows = union(
            *(
                select(table.c.student, table.c.revision).where(
                    table.c.course == course, table.c.lab == lab, self._is_seen(table)
                )
                for table in (ATTEMPT, HAND_IN)
            )
        )
        with self._database.read() as connection:
            found = sorted(tuple(row) for row in connection.execute(rows))
        return [SheetId(course, lab, revision, student) for student, revision in found]

    def attempts(self, sheet: SheetId) -> tuple[Attempt, ...]:
        """
        Return everything that was tried on a sheet.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.

        Returns
        -------
        tuple of Attempt
            In the order of receiving, with that time; what can't be read is among it.
        """
        columns = (ATTEMPT.c.id, ATTEMPT.c.step, ATTEMPT.c.answer, ATTEMPT.c.received)
        rows = (
            select(*columns)
            .where(_is_of(ATTEMPT, sheet), self._is_seen(ATTEMPT))
            .order_by(ATTEMPT.c.number)
        )
        with self._database.read() as connection:
            return tuple(Try(*row).to_attempt() for row in connection.execute(rows))

    def hand_ins(self, sheet: SheetId) -> tuple[Taken, ...]:
        """
        Return the hand-ins of a sheet.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.

        Returns
        -------
        tuple of Taken
            In the order of receiving.
        """
        rows = (
            select(HAND_IN.c.digest, HAND_IN.c.received)
            .where(_is_of(HAND_IN, sheet), self._is_seen(HAND_IN))
            .order_by(HAND_IN.c.number)
        )
        with self._database.read() as connection:
            return tuple(Taken(*row) for row in connection.execute(rows))

    def _is_seen(self, table: Table) -> ColumnElement[bool]:
        return table.c.number <= self._last[table.name]


def _find_last(connection: Connection, table: Table) -> int:
    last: int | None = connection.execute(select(func.max(table.c.number))).scalar()
    return last or 0


def _is_of(table: Table, sheet: SheetId) -> ColumnElement[bool]:
    return and_(*(table.c[name] == value for name, value in asdict(sheet).items()))
