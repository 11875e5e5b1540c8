"""
The way in for commands: what the extra `service` brings is loaded when it is needed.

Whoever marks files needs no database, and no service to have been installed.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from workbook.errors import TaskError

if TYPE_CHECKING:
    from datetime import datetime
    from types import ModuleType

    from workbook.checker.record import AttemptRecord
    from workbook.draw.key import CourseKey


#: The record that `workbook serve` keeps beside the course file, unless told otherwise.
RECORD_FILE = "course.record.sqlite"


def reach_record(address: str) -> AttemptRecord:
    """
    Return the record in a database that a service made.

    Parameters
    ----------
    address : str
        Of the database: ``sqlite:///FILE``, or ``postgresql://...``.

    Returns
    -------
    AttemptRecord
        The service may go on meanwhile.

    Raises
    ------
    TaskError
        If the extra is not installed, or the database holds no record of this release.
    CheckerRefusedError
        If it can't be reached.
    """
    record: AttemptRecord = _load("record").open_record(address)
    return record


def make_sheet_token(
    key: CourseKey, caller: tuple[str, str, str], until: datetime
) -> str:
    """
    Return the token with which one student asks a service about one lab.

    Parameters
    ----------
    key : CourseKey
        The course's secret.
    caller : (str, str, str)
        The course's name, the student's id and the lab's name.
    until : datetime
        When it ends, with its time zone.

    Returns
    -------
    str
        To be kept where only the student reads it.

    Raises
    ------
    TaskError
        If the extra is not installed.
    """
    made: str = _load("token").make_token(key, _load("caller").Caller(*caller), until)
    return made


def _load(name: str) -> ModuleType:
    try:
        return import_module(f"workbook.checker.{name}")
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] == "workbook":
            raise
        msg = "A service needs the extra: pip install 'lab-workbook[service]'."
        raise TaskError(msg) from error
