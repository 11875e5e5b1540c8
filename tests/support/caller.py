"""A service for tests: a clock to be set, tokens, and the course of three students."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING
from uuid import uuid4

from tests.support.soap import COURSE, LAB, NOON, name_sheet
from workbook.checker.caller import Caller
from workbook.checker.database import Database
from workbook.checker.record import AttemptRecord
from workbook.checker.token import make_token
from workbook.checker.upgrade import upgrade
from workbook.draw.key import CourseKey
from workbook.wire.answer import Answer, Typed
from workbook.wire.handin import Attempt
from workbook.wire.message import JudgeAttempt

if TYPE_CHECKING:
    from pathlib import Path

#: The key of `tests.support.soap`.
KEY = CourseKey(bytes.fromhex("5a" * 32))

A1, B2 = name_sheet("a1"), name_sheet("b2")
ADA, BEN = Caller(COURSE, "a1", LAB), Caller(COURSE, "b2", LAB)

DAY = timedelta(days=1)


class Clock:
    """A clock that stands still until it is set."""

    def __init__(self, now: datetime = NOON) -> None:
        self.now = now

    def __call__(self) -> datetime:
        """Give the time."""
        return self.now


def open_database(folder: Path) -> Database:
    """Return a new database in a folder, with its tables."""
    database = Database(f"sqlite:///{folder / 'record.sqlite'}")
    upgrade(database)
    return database


def open_record(folder: Path) -> AttemptRecord:
    """Return a new record in a folder."""
    return AttemptRecord(open_database(folder))


def try_step(
    step: str, answer: Answer | str, name: str = "", at: datetime = NOON
) -> Attempt:
    """Return an attempt; a text is typed."""
    given = Typed(answer) if isinstance(answer, str) else answer
    return Attempt(name or uuid4().hex, step, given, at)


def ask_of(step: str, answer: Answer | str, name: str = "") -> JudgeAttempt:
    """Return the question about an attempt of the first student's."""
    attempt = try_step(step, answer, name)
    return JudgeAttempt(A1, step, attempt.answer, {}, attempt.id)


def bear(caller: Caller = ADA, until: datetime | None = None) -> str:
    """Return the header by which a caller is known."""
    return f"Bearer {make_token(KEY, caller, until or NOON + DAY)}"
