"""
The course file: which labs, whose values, which conventions, how marks are given.

As in the schema of a lab file, one class is one table and one field one key, with
its meaning above the field.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, Annotated, TypeAlias

from pydantic import AfterValidator, BeforeValidator, Field

from workbook.errors import AuthorError, nearest
from workbook.labfile.field import Text
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

    from workbook.labfile.half import PublicHalf
    from workbook.labfile.position import Located

#: More points than a step is ever worth [point].
_MAX_POINTS = 1000

#: Digits after the point that a number of points may have [-].
_MAX_DECIMALS = 4


def _read_points(value: object) -> Decimal:
    """Read what adds up exactly: a whole number, or a decimal number in quotes."""
    try:
        points = Decimal(value if type(value) is int or isinstance(value, str) else "")
    except InvalidOperation:
        msg = 'write a whole number as it is, and any other in quotes, like "0.5"'
        raise ValueError(msg) from None
    exponent = points.as_tuple().exponent
    if not isinstance(exponent, int) or not 0 <= points <= _MAX_POINTS:
        msg = f"a number from 0 to {_MAX_POINTS} is expected"
        raise ValueError(msg)
    if exponent < -_MAX_DECIMALS:
        msg = f"at most {_MAX_DECIMALS} digits after the point are expected"
        raise ValueError(msg)
    return points


def _be_a_share(points: Decimal) -> Decimal:
    if points > 1:
        msg = "a share from 0 to 1 is expected"
        raise ValueError(msg)
    return points


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


Points: TypeAlias = Annotated[Decimal, BeforeValidator(_read_points)]
Share: TypeAlias = Annotated[
    Decimal, BeforeValidator(_read_points), AfterValidator(_be_a_share)
]


class CourseTable(Table):
    """``[course]``: what the course is."""

    #: Part of the identity of every sheet: keep it for the whole course.
    name: Annotated[Text, AfterValidator(_be_plain)]
    title: Text
    #: Folders of labs, as seen from the course file.
    labs: Annotated[tuple[Text, ...], Field(min_length=1)]
    #: The roster, as seen from the course file.
    roster: Text


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
    number: Points = Decimal(2)
    chain: Points = Decimal(3)
    algebra: Points = Decimal(3)
    choice: Points = Decimal(1)
    #: Shared out evenly between its rows, to a hundredth.
    matching: Points = Decimal(2)
    mechanism: Points = Decimal(3)
    order: Points = Decimal(2)
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
    #: Points of single steps, by lab and step, where they differ from their kind's.
    steps: dict[str, dict[str, Points]] = Field(default_factory=dict)


class CourseFile(Table):
    """The whole file."""

    course: CourseTable
    conventions: Conventions = Conventions()
    marks: MarkScheme = MarkScheme()


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """A course file, read, its places found."""

    name: str
    title: str
    #: The folder of each lab, by the lab's name, in the order of the file.
    folders: Mapping[str, Path]
    roster: Path
    conventions: Conventions
    marks: MarkScheme
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
    return Course(
        name=file.course.name,
        title=file.course.title,
        folders={folder.name: folder for folder in folders},
        roster=path.parent / file.course.roster,
        conventions=file.conventions,
        marks=file.marks,
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
    for name in file.marks.steps:
        if name not in names:
            yield (
                ("marks", "steps", name),
                f"{name!r} is no lab of this course.{nearest(name, names)}",
            )


def check_steps(course: Course, labs: Iterable[PublicHalf]) -> None:
    """
    Refuse points for steps that a lab does not have.

    Parameters
    ----------
    course : Course
        Its mark scheme names steps.
    labs : iterable of PublicHalf
        The labs of the course.

    Raises
    ------
    AuthorError
        With a finding for each step that does not exist.
    """
    findings = []
    for public in labs:
        known = [ask.id for ask in public.asks]
        for step in course.marks.steps.get(public.name, {}):
            if step not in known:
                line = course.located.line(("marks", "steps", public.name, step))
                findings.append(
                    f"{course.path}:{line}: {step!r} is no step of {public.name!r}."
                    f"{nearest(step, known)}"
                )
    if findings:
        raise AuthorError(tuple(findings))
