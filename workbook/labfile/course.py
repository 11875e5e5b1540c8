"""
The course file: which labs, whose values, which conventions, how marks are given.

As in the schema of a lab file, one class is one table and one field one key, with
its meaning above the field.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Annotated
from zoneinfo import ZoneInfo

from pydantic import AfterValidator, Field

from workbook.errors import AuthorError, nearest
from workbook.labfile.attempt import AttemptsTable
from workbook.labfile.bottle import BottleTable, explain_bottle
from workbook.labfile.calendar import (
    Calendar,
    DatesTable,
    ExtensionTable,
    ZoneName,
    find_date_faults,
)
from workbook.labfile.extension import EXTENSION_FILE, read_extensions
from workbook.labfile.field import Text
from workbook.labfile.late import LateTable
from workbook.labfile.point import Points, Share
from workbook.labfile.position import read_toml
from workbook.labfile.reader import validate
from workbook.labfile.roster import explain_id
from workbook.labfile.table import Table
from workbook.matter.elements import TABLES
from workbook.measure.rounding import Ties
from workbook.measure.written import Comma

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

    from workbook.labfile.finding import Finding
    from workbook.labfile.half import Lab
    from workbook.labfile.position import Located
    from workbook.labfile.roster import Student


def _be_plain(name: str) -> str:
    if wrong := explain_id(name):
        msg = f"the name {wrong}"
        raise ValueError(msg)
    return name


def _be_a_table(name: str) -> str:
    if name not in TABLES:
        msg = f"known tables are {' and '.join(map(repr, TABLES))}"
        raise ValueError(msg)
    return name


class CourseTable(Table):
    """``[course]``: what the course is."""

    #: Part of the identity of every sheet: keep it for the whole course.
    name: Annotated[Text, AfterValidator(_be_plain)]
    title: Text
    #: Folders of labs, as seen from the course file.
    labs: Annotated[tuple[Text, ...], Field(min_length=1)]
    #: The roster, as seen from the course file: a CSV file, or a folder of OneRoster's.
    roster: Text
    #: Of a folder of OneRoster's: the ids of the classes that are meant; none for all.
    classes: tuple[Text, ...] = ()
    #: The record system's id of the grading period; None where it has none to name.
    period: Text | None = None
    #: The time zone of dates that name none.
    zone: ZoneName = "UTC"


class Conventions(Table):
    """``[conventions]``: what sources do differently, and this course does one way."""

    #: The table of atomic weights: "2021 abridged" or "two decimals".
    atomic_weights: Annotated[str, AfterValidator(_be_a_table)] = "2021 abridged"
    #: A digit exactly half way is rounded to the "even" neighbour, or "up".
    ties: Ties = Ties.EVEN
    #: A comma in a typed number: "decimal", "thousands", or "ask" what is meant.
    comma: Comma = Comma.ASK
    #: How many figures more or fewer than the rules give are still accepted.
    figures_slack: Annotated[int, Field(ge=0, le=3)] = 1


class PointsTable(Table):
    """``[marks.points]``: what a step is worth, by its kind."""

    reading: Points = Decimal(1)
    #: A reading of the student's own bench, for being noted.
    own: Points = Decimal(1)
    number: Points = Decimal(2)
    chain: Points = Decimal(3)
    algebra: Points = Decimal(3)
    choice: Points = Decimal(1)
    #: Shared out evenly between its rows, to a hundredth.
    matching: Points = Decimal(2)
    mechanism: Points = Decimal(3)
    order: Points = Decimal(2)
    range: Points = Decimal(1)
    #: Shared out evenly between its cells, to a hundredth.
    reagents: Points = Decimal(4)
    #: For an answer that was given at all; the first one stands.
    prediction: Points = Decimal(1)
    #: Given by a person; nothing is earned before.
    text: Points = Decimal(2)


class CreditTable(Table):
    """``[marks.credit]``: which share of the points an outcome earns."""

    #: The value follows from an earlier answer that was wrong.
    follows: Share = Decimal(1)
    #: A known mistake was recognised.
    slip: Share = Decimal(0)
    #: The same for single mistakes, by the kinds that a lab file names.
    slips: dict[Text, Share] = Field(default_factory=dict)
    #: The part of a chain or of an algebra that the method earns; the value the rest.
    method: Share = Decimal("0.5")


class OnceTable(Table):
    """``[marks.once]``: what is taken off once a sheet, however often it happens."""

    #: Right values with too many or too few figures.
    figures: Points = Decimal(1)
    #: Right values without their unit.
    unit: Points = Decimal(1)


class MarkScheme(Table):
    """``[marks]``: the rules that give points."""

    points: PointsTable = PointsTable()
    credit: CreditTable = CreditTable()
    once: OnceTable = OnceTable()
    attempts: AttemptsTable = AttemptsTable()
    late: LateTable = LateTable()
    #: Points of single steps, by lab and step, where they differ from their kind's.
    steps: dict[str, dict[str, Points]] = Field(default_factory=dict)


class CourseFile(Table):
    """The whole file."""

    course: CourseTable
    conventions: Conventions = Conventions()
    marks: MarkScheme = MarkScheme()
    #: By lab.
    dates: dict[str, DatesTable] = Field(default_factory=dict)
    extensions: tuple[ExtensionTable, ...] = ()
    bottles: tuple[BottleTable, ...] = ()

    @property
    def calendar(self) -> Calendar:
        """The dates of the course."""
        more = {(each.student, each.lab): each for each in self.extensions}
        labs = [folder.rstrip("/").rpartition("/")[2] for folder in self.course.labs]
        return Calendar(ZoneInfo(self.course.zone), self.dates, more, labs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """A course file, read, its places found."""

    name: str
    title: str
    #: The folder of each lab, by the lab's name, in the order of the file.
    folders: Mapping[str, Path]
    roster: Path
    #: Of a folder of OneRoster's: the classes that are meant; none for all.
    classes: tuple[str, ...]
    #: The record system's id of the grading period, if it is named.
    period: str | None
    conventions: Conventions
    marks: MarkScheme
    #: With the extensions that were given while the course runs.
    calendar: Calendar
    #: Those that stand in the course file itself.
    extensions: tuple[ExtensionTable, ...]
    bottles: tuple[BottleTable, ...]
    path: Path
    #: The file's text by line, for findings that come later.
    located: Located


def read_course(path: Path) -> Course:
    """
    Return the course that a file describes.

    Parameters
    ----------
    path : Path
        ``course.toml``.

    Returns
    -------
    Course
        Its labs and its roster are named, and not read yet.

    Raises
    ------
    AuthorError
        With every finding, if anything is wrong.
    """
    located = read_toml(path)
    file = validate(CourseFile, located, str(path))
    folders = [(path.parent / each).resolve() for each in file.course.labs]
    findings = tuple(
        f"{path}:{located.line(place)}: {sentence}"
        for place, sentence in _check(file, folders)
    )
    if findings:
        raise AuthorError(findings)
    given = read_extensions(path.parent / EXTENSION_FILE, file.calendar.labs)
    return Course(
        name=file.course.name,
        title=file.course.title,
        folders={folder.name: folder for folder in folders},
        roster=path.parent / file.course.roster,
        classes=file.course.classes,
        period=file.course.period,
        conventions=file.conventions,
        marks=file.marks,
        calendar=file.calendar.extend(given),
        extensions=file.extensions,
        bottles=file.bottles,
        path=path,
        located=located,
    )


def _check(
    file: CourseFile, folders: list[Path]
) -> Iterator[tuple[tuple[str | int, ...], str]]:
    names = [folder.name for folder in folders]
    for index, name in enumerate(names):
        if wrong := explain_id(name):
            yield ("course", "labs", index), f"the lab's folder {name!r} {wrong}."
        if name in names[:index]:
            yield (
                ("course", "labs", index),
                f"a lab of the name {name!r} stands there already; keep one.",
            )
    named: dict[tuple[str | int, ...], str] = {
        (*place, name): name
        for place, tables in (
            (("marks", "steps"), file.marks.steps),
            (("marks", "attempts", "steps"), file.marks.attempts.steps),
        )
        for name in tables
    }
    named |= {("bottles", n, "lab"): b.lab for n, b in enumerate(file.bottles)}
    for place, name in named.items():
        if name not in names:
            yield place, f"{name!r} is no lab of this course.{nearest(name, names)}"
    yield from find_date_faults(file.calendar, file.extensions)


def check_labs(course: Course, labs: Iterable[Lab]) -> None:
    """
    Refuse what a course file says of steps and bottles that a lab does not have.

    Parameters
    ----------
    course : Course
        Its mark scheme names steps, its bottles constants.
    labs : iterable of Lab
        The labs of the course.

    Raises
    ------
    AuthorError
        With a finding for each.
    """
    found: list[Finding] = []
    for lab in labs:
        name = lab.public.name
        known = [ask.id for ask in lab.public.asks]
        for place, tables in (
            (("marks", "steps", name), course.marks.steps),
            (("marks", "attempts", "steps", name), course.marks.attempts.steps),
        ):
            for step in tables.get(name, {}):
                if step not in known:
                    hint = nearest(step, known)
                    found.append(
                        ((*place, step), f"{step!r} is no step of {name!r}.{hint}")
                    )
        for index, bottle in enumerate(course.bottles):
            if bottle.lab == name and (wrong := explain_bottle(lab, bottle)):
                found.append((("bottles", index), wrong))
    _refuse(course, found)


def check_roster(course: Course, roster: Iterable[Student]) -> None:
    """
    Refuse what a course file says of students and sections that are not there.

    Parameters
    ----------
    course : Course
        Its extensions name students, its bottles sections.
    roster : iterable of Student
        Who takes the course.

    Raises
    ------
    AuthorError
        With a finding for each.
    """
    students = list(roster)
    ids = [student.id for student in students]
    sections = {student.section for student in students if student.section}
    found: list[Finding] = [
        (
            ("extensions", index, "student"),
            f"{each.student!r} is not on the roster.{nearest(each.student, ids)}",
        )
        for index, each in enumerate(course.extensions)
        if each.student not in ids
    ]
    for index, bottle in enumerate(course.bottles):
        section = bottle.section
        if section is not None and section not in sections:
            sentence = f"no student is in section {section!r}."
            hint = nearest(section, sections)
            found.append((("bottles", index, "section"), f"{sentence}{hint}"))
    _refuse(course, found)


def _refuse(course: Course, found: list[Finding]) -> None:
    if found:
        placed = sorted((course.located.line(place), text) for place, text in found)
        raise AuthorError(tuple(f"{course.path}:{n}: {text}" for n, text in placed))
