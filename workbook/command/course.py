"""What commands on a course do first and last: read it all, and fill a folder."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

import click

from workbook.draw.key import new_key, write_key
from workbook.errors import AuthorError, nearest
from workbook.graph.slip import SlipKind
from workbook.labfile.course import check_labs, check_roster, read_course
from workbook.labfile.enrolment import read_students
from workbook.labfile.reader import LAB_FILE, read_lab
from workbook.solver.source import KEY_FILE
from workbook.store import is_free, make_folder, set_aside

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from workbook.labfile.course import Course
    from workbook.labfile.roster import Student

#: What `--replace` does, in the words of every command that has it.
REPLACE = "Set an earlier folder of that name aside; it is not deleted."


def prepare_course(course: Path) -> tuple[Student, ...]:
    """
    Read all that a person wrote, and tell what is wrong with any of it at once.

    Parameters
    ----------
    course : Path
        The course file.

    Returns
    -------
    tuple of Student
        The roster, in its order.

    Raises
    ------
    AuthorError
        With every finding in the course file, its labs and its roster.
    """
    read = read_course(course)
    findings = list(_check_slips(read))
    labs = []
    for folder in read.folders.values():
        if not (folder / LAB_FILE).is_file():
            findings.append(_tell_missing(read, folder))
            continue
        try:
            labs.append(read_lab(folder))
        except AuthorError as error:
            findings += error.findings
    roster: tuple[Student, ...] = ()
    try:
        roster = read_students(read.roster, read.classes)
        check_roster(read, roster)
    except AuthorError as error:
        findings += error.findings
    try:
        check_labs(read, labs)
    except AuthorError as error:
        findings += error.findings
    if findings:
        raise AuthorError(tuple(findings))
    return roster


def _tell_missing(course: Course, folder: Path) -> str:
    line = course.located.line(("course", "labs"))
    return (
        f"{course.path}:{line}: no lab is in {folder}. Name a lab's folder as seen "
        f"from this file, or make one: workbook new {folder}"
    )


def _check_slips(course: Course) -> Iterator[str]:
    """Find credit for kinds of mistake that nobody knows."""
    known = [kind.value for kind in SlipKind]
    for name in course.marks.credit.slips:
        if name not in known:
            line = course.located.line(("marks", "credit", "slips", name))
            hint = nearest(name, known)
            yield f"{course.path}:{line}: {name!r} is no kind of mistake.{hint}"


def provide_key(course: Path) -> None:
    """
    Write the key of a course that has none yet, and say what it is.

    Parameters
    ----------
    course : Path
        The course file; the key stands beside it.
    """
    path = course.parent / KEY_FILE
    if not path.exists():
        write_key(new_key(), path)
        click.echo(
            f"Wrote {path}, from which every value follows: keep it, keep it secret, "
            f"and never change it while the course runs."
        )


@contextmanager
def fill_output(to: Path, owned: Sequence[str], *, may_replace: bool) -> Iterator[Path]:
    """
    Fill a folder, and say where an earlier one of the name has gone.

    Parameters
    ----------
    to : Path
        Its name.
    owned : sequence of str
        What the command writes, so that nothing else is ever set aside.
    may_replace : bool
        True when an earlier folder may be set aside.

    Yields
    ------
    Path
        The folder to fill, under a hidden name beside its place.
    """
    earlier = None if is_free(to) else set_aside(to)
    with make_folder(to, may_replace=may_replace, owned=frozenset(owned)) as draft:
        yield draft
    if earlier is not None:
        click.echo(f"What was in {to} is now in {earlier}.")
