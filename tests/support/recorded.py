"""A service's record of a class, written without a service."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbook.checker.database import Database
from workbook.checker.record import AttemptRecord
from workbook.checker.upgrade import upgrade

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from workbook.wire.handin import Attempt, HandIn
    from workbook.wire.sheet import SheetId


def name_record(path: Path) -> str:
    """Return the address of a database in a file."""
    return f"sqlite:///{path}"


def make_record(path: Path) -> AttemptRecord:
    """Make an empty record in a file."""
    database = Database(name_record(path))
    upgrade(database)
    return AttemptRecord(database)


def list_attempts(
    record: AttemptRecord, course: str, lab: str
) -> dict[SheetId, tuple[Attempt, ...]]:
    """Return everything that was tried in a lab, by sheet."""
    view = record.view()
    found = {sheet: view.attempts(sheet) for sheet in view.sheets(course, lab)}
    return {sheet: attempts for sheet, attempts in found.items() if attempts}


def take_all(record: AttemptRecord, hand_ins: Iterable[HandIn]) -> None:
    """Take what was answered, and each hand-in, at the times that they bear."""
    for each in hand_ins:
        for attempt in each.attempts:
            record.take(each.sheet, attempt)
        record.take_hand_in(each.sheet, each.digest, each.at)
