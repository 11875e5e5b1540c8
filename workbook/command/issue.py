"""The commands of an instructor before the lab: sheets, gates, and more time."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

import click

from workbook.checker.door import make_sheet_token
from workbook.client.way import Way, explain_address
from workbook.command.course import REPLACE, fill_output, prepare_course, provide_key
from workbook.draw.key import read_key
from workbook.errors import TaskError
from workbook.issuing.answerbook import print_book
from workbook.issuing.crew import issue_by_crew
from workbook.issuing.extension import Wish, extend_due, locate_extensions
from workbook.issuing.folder import write_way
from workbook.issuing.permit import name_gate, open_gate
from workbook.labfile.course import read_course
from workbook.report.csvfile import encode_csv
from workbook.report.table import tabulate_answers
from workbook.solver.crew import Crew, cut
from workbook.solver.source import KEY_FILE, CourseSource

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from workbook.issuing.answerbook import AnswerPage
    from workbook.labfile.roster import Student

#: What `issue` writes, so that nothing else is ever set aside.
_STUDENTS, _INSTRUCTOR = "students", "instructor"

#: How long a token is good after its lab is handed back, and where no such day is
#: written.
_AFTER, _YEAR = timedelta(days=7), timedelta(days=370)

#: A folder that only its owner enters.
_PRIVATE = 0o700

_NEW = click.Path(file_okay=False, path_type=Path)
_FILE = click.Path(exists=True, dir_okay=False, path_type=Path)


@click.command("issue")
@click.argument("course", type=_FILE)
@click.option("--to", type=_NEW, required=True, help="The folder to make.")
@click.option("--replace", "may_replace", is_flag=True, help=REPLACE)
@click.option(
    "--cores",
    type=click.IntRange(min=1),
    help="Processes to issue with; as many as there are cores unless said.",
)
@click.option(
    "--service",
    help="The address at which students reach `workbook serve`; each folder then holds "
    "a token of its own.",
)
def issue_course(
    course: Path,
    to: Path,
    cores: int | None,
    service: str | None,
    *,
    may_replace: bool,
) -> None:
    """Make a folder for each student of COURSE, and the instructor's answer book."""
    roster = prepare_course(course)
    if service is not None and (wrong := explain_address(service)):
        msg = f"The address {service!r} {wrong}."
        raise TaskError(msg)
    with fill_output(to, (_STUDENTS, _INSTRUCTOR), may_replace=may_replace) as draft:
        provide_key(course)
        source = CourseSource(course)
        number = len(roster) * len(source.labs)
        sheets = issue_by_crew(draft / _STUDENTS, source, roster, Crew(cores))
        with click.progressbar(sheets, length=number, label="Issuing") as watched:
            _write_book(draft / _INSTRUCTOR, source.course.title, watched)
        if service is not None:
            _write_ways(draft / _STUDENTS, source, roster, service)
    click.echo(
        f"Wrote {number} sheets to {to / _STUDENTS}, and the answer book to "
        f"{to / _INSTRUCTOR}. Next: give each student their own folder, and nobody "
        f"the answer book."
    )


def _write_ways(
    folder: Path, source: CourseSource, roster: Sequence[Student], service: str
) -> None:
    """Write into each folder how to reach the service, with a token of its own."""
    key = read_key(source.course.path.parent / KEY_FILE)
    for lab in source.labs:
        closed = source.course.calendar.closed(lab)
        last = datetime.now(UTC) + _YEAR if closed is None else closed + _AFTER
        for student in roster:
            token = make_sheet_token(key, (source.name, student.id, lab), last)
            write_way(folder / student.id / lab, Way(service, token))


@click.command("open")
@click.argument("course", type=_FILE)
@click.option("--student", required=True, help="The student's id on the roster.")
@click.option("--lab", required=True, help="The lab's name.")
def open_for(course: Path, student: str, lab: str) -> None:
    """Show a student of COURSE a lab's readings, whatever is missing before it."""
    roster = prepare_course(course)
    source = CourseSource(course)
    sheet = name_gate(source, roster, student, lab)
    if not open_gate(source, sheet, datetime.now(UTC)):
        click.echo(f"The gate of {lab} was open for {student}. Nothing was written.")
        return
    click.echo(
        f"Wrote {source.permits}: the gate of {lab} is open for {student}. Next: "
        f"{student} presses 'Ask for the readings' in the notebook for after the lab."
    )


@click.command("extend")
@click.argument("course", type=_FILE)
@click.option("--student", required=True, help="The student's id on the roster.")
@click.option("--lab", required=True, help="The lab's name.")
@click.option("--due", required=True, help="Until when: a day with its time.")
@click.option("--reason", required=True, help="Why, for whoever has to defend it.")
def extend_for(course: Path, student: str, lab: str, due: str, reason: str) -> None:
    """Give a student of COURSE more time for a lab, whatever the others have."""
    roster = prepare_course(course)
    read, wish = read_course(course), Wish(student, lab, due, reason)
    given = extend_due(read, roster, wish, datetime.now(UTC))
    click.echo(
        f"Wrote {locate_extensions(read)}: {lab} is due for {student} at "
        f"{given.due.isoformat(' ')}. Next: tell {student}; every later marking goes "
        f"by it."
    )


def _write_book(folder: Path, title: str, pages: Iterable[AnswerPage]) -> None:
    """Write page and table of the answers side by side, as the pages are made."""
    folder.mkdir(mode=_PRIVATE)
    with (
        (folder / "answers.html").open("wb") as book,
        (folder / "answers.csv").open("wb") as table,
    ):
        book.writelines(print_book(title, _tabulate(pages, table)))


def _tabulate(pages: Iterable[AnswerPage], table: BinaryIO) -> Iterator[AnswerPage]:
    """Pass pages on, and put their rows into a table."""
    table.write(encode_csv(tabulate_answers(())))
    for some in cut(pages):
        table.write(encode_csv(tabulate_answers(some), has_head=False))
        yield from some
