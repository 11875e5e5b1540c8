"""
The instructor's answer book: every student's values, and how each answer comes.

It is one HTML page that prints a student a page, and rows for a table. Names come
from a roster and texts from a lab file, so the page's template escapes them all.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from workbook.draw.sample import grid_of
from workbook.graph.quantity import Origin
from workbook.issuing.template import open_templates
from workbook.judge.worked import work
from workbook.measure.rounding import round_place, write

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from workbook.graph.quantity import Quantity
    from workbook.judge.case import Case
    from workbook.judge.worked import Worked
    from workbook.labfile.roster import Student

#: In the words of the answer book.
_ORIGINS = {
    Origin.GIVEN: "given",
    Origin.READING: "reading",
    Origin.HIDDEN: "hidden",
}

_pages = open_templates("workbook.issuing")


@dataclass(frozen=True, slots=True)
class Value:
    """A value that was drawn for a student, or read off one of their instruments."""

    #: "given", "reading" or "hidden".
    origin: str
    name: str
    label: str
    #: As it is printed, unit included.
    shown: str


@dataclass(frozen=True, slots=True)
class AnswerPage:
    """One student's values in one lab, with every answer worked out."""

    student: Student
    #: Name and title of the lab.
    lab: str
    title: str
    drawn: tuple[Value, ...]
    steps: tuple[Worked, ...]


def make_page(student: Student, case: Case) -> AnswerPage:
    """
    Return the answer book's page for a student.

    Parameters
    ----------
    student : Student
        Whose values they are.
    case : Case
        One lab with the student's true values.

    Returns
    -------
    AnswerPage
        With every hidden value: not for a student's eyes.
    """
    public = case.graph.lab.public
    return AnswerPage(
        student=student,
        lab=public.name,
        title=public.title,
        drawn=tuple(_list_values(case)),
        steps=tuple(work(case)),
    )


def print_book(title: str, pages: Iterable[AnswerPage]) -> Iterator[bytes]:
    """
    Yield the answer book as an HTML page, piece by piece.

    Parameters
    ----------
    title : str
        The course's title.
    pages : iterable of AnswerPage
        In the order of printing; each is taken when its turn has come.

    Yields
    ------
    bytes
        HTML in UTF-8; it loads nothing from anywhere.
    """
    template = _pages.get_template("answers.html")
    for piece in template.generate(title=title, pages=pages):
        yield piece.encode()


def _list_values(case: Case) -> Iterator[Value]:
    labels = case.graph.lab.public.labels
    for name, quantity in case.graph.quantities.items():
        if origin := _ORIGINS.get(quantity.origin):
            label = labels[name].text if name in labels else name.replace("_", " ")
            yield Value(origin, name, label, _show(case, quantity))


def _show(case: Case, quantity: Quantity) -> str:
    """Print a value to the place in which it was drawn or is read."""
    if quantity.name in case.missing:
        return "the student's own"
    instrument = quantity.instrument
    place = grid_of(quantity).place if instrument is None else instrument.place
    value = Decimal(quantity.from_base(case.values[quantity.name]))
    text = write(round_place(value, place, case.convention.ties))
    return quantity.unit.put_behind(text)
