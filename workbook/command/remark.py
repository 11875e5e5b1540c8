"""What is told, and kept, when a course is marked again."""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING

import click

from workbook.marking.printable import to_cell
from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import datetime
    from decimal import Decimal
    from pathlib import Path

    from workbook.marking.comparison import Change

#: The log of all markings, in each folder of marks that was held against an earlier.
LOG_FILE = "changes.csv"

_COLUMNS = ("at", "student", "lab", "step", "before", "after", "counts", "reason")


def tell_changes(changes: Iterable[Change]) -> bool:
    """
    Print what changes, a line for each student and lab, and one for each step below.

    Parameters
    ----------
    changes : iterable of Change
        What a comparison gave.

    Returns
    -------
    bool
        True if anything changes.
    """
    has_changed = False
    for change in changes:
        has_changed = True
        kept = "; the earlier mark stands" if change.is_kept else ""
        said = f"{_say(change.before)} -> {_say(change.after)}{kept}"
        click.echo(f"{change.student}  {change.lab}  {said}")
        for step in change.steps:
            click.echo(f"    {step.step}  {_say(step.before)} -> {_say(step.after)}")
    if not has_changed:
        click.echo("Nothing changes for anybody.")
    return has_changed


def log_changes(
    path: Path, earlier: Path, changes: Iterable[Change], at: datetime
) -> Iterator[Change]:
    """
    Write the log of an earlier folder of marks, with what changes now behind it.

    Parameters
    ----------
    path : Path
        The log; it is made.
    earlier : Path
        The earlier folder; it has no log where it was the first marking.
    changes : iterable of Change
        What a comparison gave.
    at : datetime
        When.

    Yields
    ------
    Change
        Each of *changes*, which is then in the log: CSV, a row for each sheet, without
        a step, and one for each step.

    Raises
    ------
    OSError
        If the disk refuses.
    """
    before = earlier / LOG_FILE
    with path.open("w", encoding="utf-8", newline="") as log:
        rows = csv.writer(log)
        if before.exists():
            log.write(before.read_bytes().decode())
        else:
            rows.writerow(_COLUMNS)
        for each in changes:
            rows.writerows(_tell(each, at))
            yield each


def _tell(change: Change, at: datetime) -> Iterator[tuple[str, ...]]:
    head = (at.isoformat(timespec="seconds"), change.student, change.lab)
    counts = change.before if change.is_kept else change.after
    yield (*head, "", *map(_log, (change.before, change.after, counts)), "")
    for step in change.steps:
        points = (_log(step.before), _log(step.after), "")
        yield (*head, step.step, *points, to_cell(step.reason))


def _say(points: Decimal | None) -> str:
    return "nothing" if points is None else say_points(points)


def _log(points: Decimal | None) -> str:
    return "" if points is None else say_points(points)
