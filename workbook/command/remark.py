"""What is told, and kept, when a course is marked again."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

import click

from workbook.marking.printable import to_cell
from workbook.marking.wording import say_points

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import datetime
    from decimal import Decimal
    from pathlib import Path

    from workbook.marking.comparison import Change

#: The log of all markings, in each folder of marks that was held against an earlier.
LOG_FILE = "changes.csv"

_COLUMNS = ("at", "student", "lab", "step", "before", "after", "counts", "reason")


def tell_changes(changes: Sequence[Change]) -> None:
    """
    Print what changes, a line for each student and lab, and one for each step below.

    Parameters
    ----------
    changes : sequence of Change
        What a comparison gave.
    """
    if not changes:
        click.echo("Nothing changes for anybody.")
    for change in changes:
        kept = "; the earlier mark stands" if change.is_kept else ""
        said = f"{_say(change.before)} -> {_say(change.after)}{kept}"
        click.echo(f"{change.student}  {change.lab}  {said}")
        for step in change.steps:
            click.echo(f"    {step.step}  {_say(step.before)} -> {_say(step.after)}")


def lengthen_log(earlier: Path, changes: Iterable[Change], at: datetime) -> bytes:
    """
    Return the log of an earlier folder of marks, with what changes now.

    Parameters
    ----------
    earlier : Path
        The folder; it has no log where it was the first marking.
    changes : iterable of Change
        What a comparison gave.
    at : datetime
        When.

    Returns
    -------
    bytes
        CSV: a row for each sheet, without a step, and one for each step.
    """
    path = earlier / LOG_FILE
    text = io.StringIO(newline="")
    rows = csv.writer(text)
    if not path.exists():
        rows.writerow(_COLUMNS)
    for each in changes:
        head = (at.isoformat(timespec="seconds"), each.student, each.lab)
        counts = each.before if each.is_kept else each.after
        points = (_log(each.before), _log(each.after), _log(counts))
        rows.writerow((*head, "", *points, ""))
        for step in each.steps:
            points = (_log(step.before), _log(step.after), "")
            rows.writerow((*head, step.step, *points, to_cell(step.reason)))
    return (path.read_bytes() if path.exists() else b"") + text.getvalue().encode()


def _say(points: Decimal | None) -> str:
    return "nothing" if points is None else say_points(points)


def _log(points: Decimal | None) -> str:
    return "" if points is None else say_points(points)
