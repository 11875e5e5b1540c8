"""``workbook mark``: from hand-ins to tables of marks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import click

from workbook.checker.door import reach_record
from workbook.command.course import fill_output, prepare_course
from workbook.command.handback import HANDED_BACK, hand_back
from workbook.command.option import MarkOptions, add_mark_options
from workbook.command.remark import LOG_FILE, lengthen_log, tell_changes
from workbook.errors import TaskError
from workbook.marking.acceptance import expect
from workbook.marking.comparison import compare, keep_higher, note_kept
from workbook.marking.crew import mark_by_crew
from workbook.marking.difference import find_differences
from workbook.marking.entry import list_entries
from workbook.marking.gather import gather
from workbook.marking.listed import read_listed
from workbook.marking.override import OVERRIDES_FILE, find_idle, read_overrides
from workbook.marking.points import total
from workbook.marking.received import Clock, read_received
from workbook.marking.record import RECORD_FILE, encode_record, read_record
from workbook.marking.recorded import RecordedSheet, gather_recorded
from workbook.report.table import (
    encode_csv,
    tabulate_differences,
    tabulate_marks,
    tabulate_problems,
    tabulate_steps,
)
from workbook.solver.crew import Crew
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from typing_extensions import Unpack

    from workbook.labfile.course import Course
    from workbook.labfile.roster import Student
    from workbook.marking.entry import Entry
    from workbook.marking.gather import Gathered
    from workbook.marking.listed import Listed
    from workbook.marking.override import Override
    from workbook.marking.result import SheetMark

#: The tables that `mark` writes.
MARKS_FILE, STEPS_FILE, PROBLEMS_FILE = "marks.csv", "steps.csv", "problems.csv"

#: What it writes as well where it is given an instructor's list.
DIFFERENCES_FILE = "differences.csv"

#: All that it writes, so that nothing else is ever set aside.
_OWNED = (
    *(MARKS_FILE, STEPS_FILE, PROBLEMS_FILE, DIFFERENCES_FILE, RECORD_FILE, LOG_FILE),
    *HANDED_BACK,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Task:
    """All that a person wrote, read."""

    source: CourseSource
    roster: Sequence[Student]
    overrides: Sequence[Override]
    clock: Clock
    entries: Sequence[Entry]
    #: In place of them, what a service's record holds; None without one.
    recorded: Sequence[RecordedSheet] | None
    listed: Sequence[Listed]


@click.command("mark")
@add_mark_options
def mark_course(course: Path, **options: Unpack[MarkOptions]) -> None:
    """Mark the hand-ins of COURSE: a table of students, one of steps, the problems."""
    task = _prepare(course, options)
    to = options["to"]
    with fill_output(to, _OWNED, may_replace=options["may_replace"]) as draft:
        gathered = _gather(task)
        marks = _mark(task, gathered, options)
        if options["against"] is not None:
            marks = _hold_against(options["against"], marks, draft, options)
        _write_marks(draft, task, marks)
        hand_back(draft, task.source, task.roster, marks)
        _write_problems(draft, task, gathered, marks)
        differing = [*find_differences(task.listed, marks, task.source)]
        if options["readings"]:
            table = tabulate_differences(differing)
            (draft / DIFFERENCES_FILE).write_bytes(encode_csv(table))
    click.echo(
        f"Marked {len(gathered.accepted)} of {_count(task)}. {_say_next(gathered, to)}"
    )
    if differing:
        click.echo(
            f"{len(differing)} readings differ from the list, and changed no mark. "
            f"Look at {to / DIFFERENCES_FILE}."
        )
    if gathered.refused or differing:
        raise click.exceptions.Exit(1)


def _prepare(course: Path, options: MarkOptions) -> _Task:
    roster = prepare_course(course)
    source = CourseSource(course)
    readings, handins = options["readings"], options["handins"]
    _choose_place(options)
    ids = [student.id for student in roster]
    task = _Task(
        source=source,
        roster=roster,
        overrides=read_overrides(course.parent / OVERRIDES_FILE),
        clock=_choose_clock(source.course, options),
        entries=[] if handins is None else list_entries(handins),
        recorded=_read_record(source, options["record"]),
        listed=read_listed(readings, source.labs, ids) if readings else (),
    )
    if options["raises_only"] and options["against"] is None:
        msg = "--raise-only needs --against: the earlier marks that are to stand."
        raise TaskError(msg)
    if not task.entries and not task.recorded:
        what = f"{handins} holds no hand-in: their names end in .handin.json."
        msg = what if handins else "The record holds no answer to a lab of this course."
        raise TaskError(msg)
    return task


def _choose_place(options: MarkOptions) -> None:
    """Refuse what can't be told of hand-ins and a record at once."""
    has_record = options["record"] is not None
    if has_record == (options["handins"] is not None):
        msg = "Give either --handins or --record: one of them is marked."
        raise TaskError(msg)
    if has_record and (options["received"] is not None or options["trusts_files"]):
        msg = "A record has the service's own times: leave --received and --file-times."
        raise TaskError(msg)


def _read_record(
    source: CourseSource, address: str | None
) -> list[RecordedSheet] | None:
    """Return what a service's record holds of a course; None without a record."""
    if address is None:
        return None
    record = reach_record(address)
    found = []
    for lab in source.labs:
        handed_in = record.hand_ins(source.name, lab)
        attempts = record.attempts(source.name, lab)
        for sheet in {**attempts, **handed_in}:
            times = tuple(each.at for each in handed_in.get(sheet, ()))
            found.append(RecordedSheet(sheet, attempts.get(sheet, ()), times))
    return found


def _gather(task: _Task) -> Gathered:
    expected = expect(task.source, task.roster)
    if task.recorded is not None:
        with click.progressbar(task.recorded, label="Reading") as seen:
            return gather_recorded(seen, expected, task.source.seal)
    with click.progressbar(task.entries, label="Reading") as entries:
        return gather(entries, expected, task.clock)


def _count(task: _Task) -> str:
    """Return how much there was to mark, in words."""
    if task.recorded is not None:
        return f"{len(task.recorded)} sheets of the record"
    return f"{len(task.entries)} files"


def _mark(task: _Task, gathered: Gathered, options: MarkOptions) -> list[SheetMark]:
    accepted = gathered.accepted
    crew = Crew(options["cores"], options["cluster"])
    marking = mark_by_crew(task.source, accepted, task.overrides, crew)
    with click.progressbar(marking, length=len(accepted), label="Marking") as watched:
        return list(watched)


def _hold_against(
    earlier: Path, marks: list[SheetMark], draft: Path, options: MarkOptions
) -> list[SheetMark]:
    """Tell what changes, ask, and return the marks that then count."""
    before = read_record(earlier)
    changes = compare(before, marks)
    if options["raises_only"]:
        changes, marks = note_kept(changes), keep_higher(before, marks)
    tell_changes(changes)
    if changes and not options["is_agreed"]:
        click.confirm("Write these marks?", abort=True)
    log = lengthen_log(earlier, changes, datetime.now(UTC))
    (draft / LOG_FILE).write_bytes(log)
    return marks


def _choose_clock(course: Course, options: MarkOptions) -> Clock:
    zone, received = course.calendar.zone, options["received"]
    if received is not None and options["trusts_files"]:
        msg = "Give either --received or --file-times: one time counts."
        raise TaskError(msg)
    listed = None if received is None else read_received(received, zone)
    return Clock(zone, listed, options["trusts_files"])


def _write_marks(folder: Path, task: _Task, marks: Sequence[SheetMark]) -> None:
    scheme, labs = task.source.course.marks, task.source.labs
    totals = {name: total(scheme, lab.public) for name, lab in labs.items()}
    table = tabulate_marks(task.roster, totals, marks)
    (folder / MARKS_FILE).write_bytes(encode_csv(table))
    (folder / STEPS_FILE).write_bytes(encode_csv(tabulate_steps(marks)))
    (folder / RECORD_FILE).write_bytes(encode_record(marks))


def _write_problems(
    folder: Path, task: _Task, gathered: Gathered, marks: Sequence[SheetMark]
) -> None:
    idle = find_idle(task.overrides, marks)
    table = tabulate_problems(gathered.refused, gathered.superseded, idle, marks)
    (folder / PROBLEMS_FILE).write_bytes(encode_csv(table))
    for problem in gathered.refused:
        click.echo(str(problem), err=True)


def _say_next(gathered: Gathered, to: Path) -> str:
    wrote = f"Wrote {MARKS_FILE}, {STEPS_FILE} and {PROBLEMS_FILE} to {to}."
    if gathered.refused:
        return (
            f"{wrote} Next: look at the {len(gathered.refused)} that could not be "
            f"marked, in {to / PROBLEMS_FILE}."
        )
    return f"{wrote} Next: open {to / MARKS_FILE}."
