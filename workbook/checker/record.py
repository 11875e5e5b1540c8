"""
The record of a service: each attempt and each hand-in, with when it was received.

It talks SQL, and so do `progress`, which counts for a class, and `view`, which marking
reads; nothing else does. Nothing is ever taken out of it, and of an attempt nothing
changes but what was said of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec
from sqlalchemy import and_, bindparam, insert, select, update

from workbook.checker.database import Database
from workbook.checker.limit import check_day, check_limit
from workbook.checker.progress import Progress, count_progress
from workbook.checker.tables import ATTEMPT, HAND_IN
from workbook.checker.tried import Taken, Try
from workbook.checker.upgrade import find_revision, newest
from workbook.checker.view import RecordView
from workbook.errors import CheckerRefusedError, TaskError
from workbook.wire.message import Why
from workbook.wire.sheet import SheetId
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Collection
    from datetime import datetime

    from sqlalchemy import ColumnElement, Connection, Table

    from workbook.wire.handin import Attempt

_REPLAYED = (
    "Another answer was sent under the same name before, so this one is not taken. "
    "Check the step again."
)

_TRY = (
    ATTEMPT.c.id,
    ATTEMPT.c.step,
    ATTEMPT.c.answer,
    ATTEMPT.c.received,
    ATTEMPT.c.outcome,
)


def _is_of(table: Table) -> ColumnElement[bool]:
    """Say that a row is of the sheet that `_bind` names."""
    names = ("course", "lab", "revision", "student")
    return and_(*(table.c[name] == bindparam(f"of_{name}") for name in names))


# What every question needs is built once: building costs more than asking.
_TRIES = select(*_TRY).where(_is_of(ATTEMPT)).order_by(ATTEMPT.c.number)
_TAKEN = select(HAND_IN.c.digest, HAND_IN.c.received).where(_is_of(HAND_IN))
_NOTE = (
    update(ATTEMPT)
    .where(_is_of(ATTEMPT), ATTEMPT.c.id == bindparam("of_id"))
    .values(outcome=bindparam("said"))
)


class AttemptRecord:
    """
    Attempts and hand-ins of every course that a database serves.

    Parameters
    ----------
    database : Database
        With the newest tables.
    """

    def __init__(self, database: Database) -> None:
        self._database = database

    def take(self, sheet: SheetId, attempt: Attempt, most: int = 0) -> tuple[Try, ...]:
        """
        Record an attempt lastingly, unless it is recorded already or not allowed.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.
        attempt : Attempt
            With the time at which it was received.
        most : int
            How many attempts the step takes; 0 for any number [-].

        Returns
        -------
        tuple of Try
            Everything that was tried on the sheet, this one among it, in the order of
            receiving.

        Raises
        ------
        CheckerRefusedError
            If the id belongs to another answer, the step takes no further attempt, or
            too much came in a day; or if the database can't be reached, when the same
            attempt can be taken again.
        """
        content = msgspec.json.encode(attempt.answer).decode()
        new = Try(attempt.id, attempt.step, content, attempt.at)
        with self._database.write() as connection:
            self._database.hold(connection, _name(sheet))
            tries = _list_tries(connection, sheet)
            known = next((each for each in tries if each.id == new.id), None)
            if known is None:
                times = (each.received for each in tries if each.step == new.step)
                check_day(times, new.received)
            elif (known.step, known.content) != (new.step, new.content):
                raise CheckerRefusedError(Why.REPLAY.value, _REPLAYED)
            check_limit(tries, new, most)
            if known is not None:
                return tries
            values = {"id": new.id, "step": new.step, "answer": new.content}
            _insert(connection, ATTEMPT, sheet, new.received, **values)
        return (*tries, new)

    def note(self, sheet: SheetId, attempt: str, outcome: Outcome) -> None:
        """
        Keep what was said of an attempt; a crash may take it back.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.
        attempt : str
            The attempt's id.
        outcome : Outcome
            What was said now.

        Raises
        ------
        CheckerRefusedError
            If the database can't be reached.
        """
        values = {**_bind(sheet), "of_id": attempt, "said": outcome.value}
        with self._database.write(lasting=False) as connection:
            connection.execute(_NOTE, values)

    def tries(self, sheet: SheetId) -> tuple[Try, ...]:
        """
        Return everything that was tried on a sheet.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.

        Returns
        -------
        tuple of Try
            In the order of receiving.

        Raises
        ------
        CheckerRefusedError
            If the database can't be reached.
        """
        with self._database.read() as connection:
            return _list_tries(connection, sheet)

    def take_hand_in(self, sheet: SheetId, digest: str, at: datetime) -> datetime:
        """
        Record a hand-in lastingly, unless it is recorded already.

        Parameters
        ----------
        sheet : SheetId
            Whose and what it is.
        digest : str
            The fingerprint of its content.
        at : datetime
            When it was received.

        Returns
        -------
        datetime
            When the same hand-in was received first.

        Raises
        ------
        CheckerRefusedError
            If too many came in a day, or the database can't be reached.
        """
        with self._database.write() as connection:
            self._database.hold(connection, _name(sheet))
            known = dict(_list_taken(connection, sheet))
            if digest in known:
                return known[digest]
            check_day(known.values(), at)
            _insert(connection, HAND_IN, sheet, at, digest=digest)
        return at

    def hand_ins(self, course: str, lab: str) -> dict[SheetId, tuple[Taken, ...]]:
        """
        Return the hand-ins of a lab, by sheet.

        Parameters
        ----------
        course : str
            The course's name.
        lab : str
            The lab's name.

        Returns
        -------
        dict of SheetId to tuple of Taken
            In the order of receiving.

        Raises
        ------
        CheckerRefusedError
            If the database can't be reached.
        """
        columns = (HAND_IN.c.revision, HAND_IN.c.student)
        rows = (
            select(*columns, HAND_IN.c.digest, HAND_IN.c.received)
            .where(HAND_IN.c.course == course, HAND_IN.c.lab == lab)
            .order_by(HAND_IN.c.number)
        )
        found: dict[SheetId, list[Taken]] = {}
        with self._database.read() as connection:
            for revision, student, digest, received in connection.execute(rows):
                sheet = SheetId(course, lab, revision, student)
                found.setdefault(sheet, []).append(Taken(digest, received))
        return {sheet: tuple(taken) for sheet, taken in found.items()}

    def begun(self, course: str, lab: str) -> frozenset[SheetId]:
        """
        Return the sheets of a lab to which anything was answered.

        Parameters
        ----------
        course : str
            The course's name.
        lab : str
            The lab's name.

        Returns
        -------
        frozenset of SheetId
            Those to which nothing was sent that could be read among them.

        Raises
        ------
        CheckerRefusedError
            If the database can't be reached.
        """
        sheets = (
            select(ATTEMPT.c.revision, ATTEMPT.c.student)
            .where(ATTEMPT.c.course == course, ATTEMPT.c.lab == lab)
            .distinct()
        )
        with self._database.read() as connection:
            rows = connection.execute(sheets)
            return frozenset(SheetId(course, lab, *row) for row in rows)

    def progress(
        self, course: str, lab: str, students: Collection[str] | None = None
    ) -> tuple[Progress, ...]:
        """
        Return how far each student has come with each step of a lab.

        Parameters
        ----------
        course : str
            The course's name.
        lab : str
            The lab's name.
        students : collection of str or None
            Of whom it is told; of all unless said.

        Returns
        -------
        tuple of Progress
            One for each step that a student really attempted, in the order of their
            first attempts.

        Raises
        ------
        CheckerRefusedError
            If the database can't be reached.
        """
        with self._database.read() as connection:
            return count_progress(connection, course, lab, students)

    def view(self) -> RecordView:
        """
        Return the record as it stands now, to be read a sheet at a time.

        Returns
        -------
        RecordView
            What comes in later is not in it.

        Raises
        ------
        CheckerRefusedError
            If the database can't be reached.
        """
        return RecordView(self._database)

    def close(self) -> None:
        """Let go of the database."""
        self._database.close()


def open_record(address: str) -> AttemptRecord:
    """
    Return the record in a database that a service made.

    Parameters
    ----------
    address : str
        As `Database` takes it.

    Returns
    -------
    AttemptRecord
        The service may go on meanwhile.

    Raises
    ------
    TaskError
        If the database is not there, or has no record, or one of another release.
    CheckerRefusedError
        If it can't be reached.
    """
    database = Database(address, may_make=False)
    found = find_revision(database)
    if found != newest():
        database.close()
        what = "no record" if found is None else f"a record of the form {found!r}"
        msg = (
            f"{database.name} holds {what}; one of the form {newest()!r} is read here. "
            f"`workbook serve` of this release makes it."
        )
        raise TaskError(msg)
    return AttemptRecord(database)


def _list_tries(connection: Connection, sheet: SheetId) -> tuple[Try, ...]:
    return tuple(_to_try(*row) for row in connection.execute(_TRIES, _bind(sheet)))


def _to_try(id_: str, step: str, content: str, at: datetime, said: str | None) -> Try:
    return Try(id_, step, content, at, None if said is None else Outcome(said))


def _list_taken(connection: Connection, sheet: SheetId) -> list[Taken]:
    return [Taken(*row) for row in connection.execute(_TAKEN, _bind(sheet))]


def _bind(sheet: SheetId) -> dict[str, object]:
    """Name a sheet for the statements that are of one."""
    return {f"of_{key}": each for key, each in msgspec.structs.asdict(sheet).items()}


def _insert(
    connection: Connection, table: Table, sheet: SheetId, at: datetime, **values: str
) -> None:
    row = {**msgspec.structs.asdict(sheet), "received": at, **values}
    connection.execute(insert(table).values(row))


def _name(sheet: SheetId) -> str:
    """Name a sheet for a lock; no part of it holds a slash."""
    return f"{sheet.course}/{sheet.lab}/{sheet.revision}/{sheet.student}"
