"""``workbook mark``: from hand-ins to tables of marks."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, TypedDict

import click

from workbook.command.course import REPLACE, fill_output, prepare_course
from workbook.command.handback import HANDED_BACK, hand_back
from workbook.errors import TaskError
from workbook.marking.acceptance import expect
from workbook.marking.difference import find_differences
from workbook.marking.entry import list_entries
from workbook.marking.gather import gather
from workbook.marking.listed import read_listed
from workbook.marking.mark import mark_all
from workbook.marking.override import OVERRIDES_FILE, find_idle, read_overrides
from workbook.marking.points import total
from workbook.marking.received import Clock, read_received
from workbook.marking.record import RECORD_FILE, encode_record
from workbook.report.table import (
    encode_csv,
    tabulate_differences,
    tabulate_marks,
    tabulate_problems,
    tabulate_steps,
)
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Sequence

    from typing_extensions import Unpack

    from workbook.labfile.course import Course
    from workbook.labfile.roster import Student
    from workbook.marking.gather import Gathered
    from workbook.marking.result import SheetMark

#: The tables that `mark` writes.
MARKS_FILE, STEPS_FILE, PROBLEMS_FILE = "marks.csv", "steps.csv", "problems.csv"

#: What it writes as well where it is given an instructor's list.
DIFFERENCES_FILE = "differences.csv"

#: All that it writes, so that nothing else is ever set aside.
_OWNED = (
    *(MARKS_FILE, STEPS_FILE, PROBLEMS_FILE, DIFFERENCES_FILE, RECORD_FILE),
    *HANDED_BACK,
)

_NEW = click.Path(file_okay=False, path_type=Path)
_THERE = click.Path(exists=True, path_type=Path)
_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


class _Options(TypedDict):
    """What the command may be told."""

    handins: Path
    to: Path
    readings: Path | None
    may_replace: bool
    received: Path | None
    trusts_files: bool


@click.command("mark")
@click.argument("course", type=_FILE)
@click.option(
    "--handins", type=_THERE, required=True, help="A folder of hand-ins, or a ZIP."
)
@click.option("--to", type=_NEW, required=True, help="The folder to make.")
@click.option(
    "--readings",
    type=_FILE,
    help="What the balances showed: a CSV file with student, reading and value.",
)
@click.option("--replace", "may_replace", is_flag=True, help=REPLACE)
@click.option(
    "--received",
    type=_FILE,
    help="A CSV list of when each file came in: the columns file and received.",
)
@click.option(
    "--file-times",
    "trusts_files",
    is_flag=True,
    help="Take the files' own times for those at which they came in.",
)
def mark_course(course: Path, **options: Unpack[_Options]) -> None:
    """Mark the hand-ins of COURSE: a table of students, one of steps, the problems."""
    handins, to = options["handins"], options["to"]
    roster = prepare_course(course)
    source = CourseSource(course)
    readings = options["readings"]
    ids = [student.id for student in roster]
    listed = read_listed(readings, source.labs, ids) if readings else ()
    clock = _choose_clock(source.course, options)
    overrides = read_overrides(course.parent / OVERRIDES_FILE)
    files = list_entries(handins)
    if not files:
        msg = f"{handins} holds no hand-in: their names end in .handin.json."
        raise TaskError(msg)
    with fill_output(to, _OWNED, may_replace=options["may_replace"]) as draft:
        with click.progressbar(files, label="Reading") as seen:
            gathered = gather(seen, expect(source, roster), clock)
        number = len(gathered.accepted)
        marking = mark_all(source, gathered.accepted, overrides)
        with click.progressbar(marking, length=number, label="Marking") as watched:
            marks = list(watched)
        _write_marks(draft, source, roster, marks)
        hand_back(draft, source, roster, marks)
        _write_problems(draft, gathered, find_idle(overrides, marks))
        differing = [*find_differences(listed, marks, source)]
        if readings:
            table = tabulate_differences(differing)
            (draft / DIFFERENCES_FILE).write_bytes(encode_csv(table))
    click.echo(f"Marked {number} of {len(files)} files. {_say_next(gathered, to)}")
    if differing:
        click.echo(
            f"{len(differing)} readings differ from the list, and changed no mark. "
            f"Look at {to / DIFFERENCES_FILE}."
        )
    if gathered.refused or differing:
        raise click.exceptions.Exit(1)


def _choose_clock(course: Course, options: _Options) -> Clock:
    zone, received = course.calendar.zone, options["received"]
    if received is not None and options["trusts_files"]:
        msg = "Give either --received or --file-times: one time counts."
        raise TaskError(msg)
    listed = None if received is None else read_received(received, zone)
    return Clock(zone, listed, options["trusts_files"])


def _write_marks(
    folder: Path,
    source: CourseSource,
    roster: Sequence[Student],
    marks: Sequence[SheetMark],
) -> None:
    scheme = source.course.marks
    totals = {name: total(scheme, lab.public) for name, lab in source.labs.items()}
    table = tabulate_marks(roster, totals, marks)
    (folder / MARKS_FILE).write_bytes(encode_csv(table))
    (folder / STEPS_FILE).write_bytes(encode_csv(tabulate_steps(marks)))
    (folder / RECORD_FILE).write_bytes(encode_record(marks))


def _write_problems(folder: Path, gathered: Gathered, idle: Sequence[str]) -> None:
    table = tabulate_problems(gathered.refused, gathered.superseded, idle)
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
