"""``workbook mark``: from hand-ins to tables of marks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import chain
from typing import TYPE_CHECKING

import click

from workbook.command.course import fill_output, prepare_course
from workbook.command.handback import HANDED_BACK, hand_back
from workbook.command.option import MarkOptions, add_mark_options
from workbook.command.recording import Recording, reach_recording
from workbook.command.remark import LOG_FILE, log_changes, tell_changes
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
from workbook.marking.record import RECORD_FILE, open_record, write_record
from workbook.marking.recorded import gather_recorded
from workbook.report.csvfile import encode_csv, write_csv
from workbook.report.table import (
    list_notes,
    list_problems,
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

    import pandas as pd
    from typing_extensions import Unpack

    from workbook.labfile.course import Course
    from workbook.labfile.roster import Student
    from workbook.marking.entry import Entry
    from workbook.marking.gather import Gathered
    from workbook.marking.listed import Listed
    from workbook.marking.override import Override
    from workbook.marking.record import MarkRecord

#: The tables that `mark` writes.
MARKS_FILE, STEPS_FILE, PROBLEMS_FILE = "marks.csv", "steps.csv", "problems.csv"

#: What it writes as well where it is given an instructor's list.
DIFFERENCES_FILE = "differences.csv"

#: The marks of a marking from which only rises count, until these are known.
_LATER_FILE = "later.jsonl"

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
    recording: Recording | None
    listed: Sequence[Listed]
    crew: Crew


@click.command("mark")
@add_mark_options
def mark_course(course: Path, **options: Unpack[MarkOptions]) -> None:
    """Mark the hand-ins of COURSE: a table of students, one of steps, the problems."""
    task = _prepare(course, options)
    to = options["to"]
    with fill_output(to, _OWNED, may_replace=options["may_replace"]) as draft:
        gathered = _gather(task)
        marks = _record(task, gathered, draft, options)
        number = len(marks)
        if options["against"] is not None:
            marks = _hold_against(options["against"], marks, draft, options)
        _write_marks(draft, task, marks)
        hand_back(draft, task.source, task.roster, marks, task.crew)
        _write_problems(draft, task, gathered, marks)
        differing = [*find_differences(task.listed, marks.walk(), task.source)]
        if options["readings"]:
            table = tabulate_differences(differing)
            (draft / DIFFERENCES_FILE).write_bytes(encode_csv(table))
    click.echo(f"Marked {number} of {_count(task)}. {_say_next(gathered, to)}")
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
        recording=_reach(source, options["record"]),
        listed=read_listed(readings, source.labs, ids) if readings else (),
        crew=Crew(options["cores"], options["cluster"]),
    )
    if options["raises_only"] and options["against"] is None:
        msg = "--raise-only needs --against: the earlier marks that are to stand."
        raise TaskError(msg)
    if not task.entries and not (task.recording and task.recording.sheets):
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


def _reach(source: CourseSource, address: str | None) -> Recording | None:
    """Return what a service's record holds of a course; None without a record."""
    if address is None:
        return None
    return reach_recording(address, source.name, source.labs)


def _gather(task: _Task) -> Gathered:
    source, recording = task.source, task.recording
    expected = expect(source, task.roster)
    if recording is not None:
        with click.progressbar(recording.sheets, label="Reading") as sheets:
            return gather_recorded(sheets, recording.read, expected, source.seal)
    with click.progressbar(task.entries, label="Reading") as entries:
        return gather(entries, expected, task.clock)


def _count(task: _Task) -> str:
    """Return how much there was to mark, in words."""
    if task.recording is not None:
        return f"{len(task.recording.sheets)} sheets of the record"
    return f"{len(task.entries)} files"


def _record(
    task: _Task, gathered: Gathered, draft: Path, options: MarkOptions
) -> MarkRecord:
    """Mark all, and put each mark on the disk as it comes."""
    number = len(gathered.accepted)
    taken, decided = gathered.take(), task.overrides
    marking = mark_by_crew(task.source, taken, number, decided, task.crew)
    # What only rises is not the record yet.
    name = _LATER_FILE if options["raises_only"] else RECORD_FILE
    with click.progressbar(marking, length=number, label="Marking") as watched:
        return write_record(draft / name, watched)


def _hold_against(
    earlier: Path, marks: MarkRecord, draft: Path, options: MarkOptions
) -> MarkRecord:
    """Tell what changes, ask, and return the marks that then count."""
    before = open_record(earlier)
    changes = compare(before, marks)
    if options["raises_only"]:
        changes = note_kept(changes)
    logged = log_changes(draft / LOG_FILE, earlier, changes, datetime.now(UTC))
    has_changed = tell_changes(logged)
    if has_changed and not options["is_agreed"]:
        click.confirm("Write these marks?", abort=True)
    if not options["raises_only"]:
        return marks
    raised = write_record(draft / RECORD_FILE, keep_higher(before, marks))
    marks.path.unlink()
    return raised


def _choose_clock(course: Course, options: MarkOptions) -> Clock:
    zone, received = course.calendar.zone, options["received"]
    if received is not None and options["trusts_files"]:
        msg = "Give either --received or --file-times: one time counts."
        raise TaskError(msg)
    listed = None if received is None else read_received(received, zone)
    return Clock(zone, listed, options["trusts_files"])


def _write_marks(folder: Path, task: _Task, marks: MarkRecord) -> None:
    scheme, labs = task.source.course.marks, task.source.labs
    totals = {name: total(scheme, lab.public) for name, lab in labs.items()}

    def tabulate(students: Sequence[Student]) -> pd.DataFrame:
        return tabulate_marks(students, totals, marks)

    write_csv(folder / MARKS_FILE, tabulate, task.roster)
    write_csv(folder / STEPS_FILE, tabulate_steps, marks.walk())


def _write_problems(
    folder: Path, task: _Task, gathered: Gathered, marks: MarkRecord
) -> None:
    idle = find_idle(task.overrides, marks)
    told = list_problems(gathered.refused, gathered.superseded, idle)
    problems = chain(told, list_notes(marks.walk()))
    write_csv(folder / PROBLEMS_FILE, tabulate_problems, problems)
    for problem in (*gathered.refused, *idle):
        click.echo(str(problem), err=True)


def _say_next(gathered: Gathered, to: Path) -> str:
    wrote = f"Wrote {MARKS_FILE}, {STEPS_FILE} and {PROBLEMS_FILE} to {to}."
    if gathered.refused:
        return (
            f"{wrote} Next: look at the {len(gathered.refused)} that could not be "
            f"marked, in {to / PROBLEMS_FILE}."
        )
    return f"{wrote} Next: open {to / MARKS_FILE}."
