"""The bottles that stand before each section: a lab is made ready once for each set."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from workbook.labfile.bottle import choose_bottles, fill_bottles
from workbook.labfile.enrolment import read_students
from workbook.solver.bench import Bench, prepare
from workbook.solver.convention import say_scheme

if TYPE_CHECKING:
    from workbook.labfile.course import Course


class Shelf:
    """
    The labs of a course as its students have them before them.

    Parameters
    ----------
    course : Course
        With its bottles and its roster.

    Raises
    ------
    AuthorError
        If the roster has a mistake.
    """

    def __init__(self, course: Course) -> None:
        self._course = course
        students = read_students(course.roster, course.classes)
        self._sections = {student.id: student.section for student in students}
        self._filled: dict[tuple[str, ...], Bench] = {}

    def __contains__(self, student: str) -> bool:
        return student in self._sections

    def mates(self, student: str, count: int) -> tuple[str, ...]:
        """
        Return students who stand together on the roster.

        Parameters
        ----------
        student : str
            The id of one of them, who is on the roster.
        count : int
            How many at most [-]; the same students whichever of them is named.

        Returns
        -------
        tuple of str
            Their ids.
        """
        students = tuple(self._sections)
        first = students.index(student) // count * count
        return students[first : first + count]

    def find(self, plain: Bench, student: str) -> Bench:
        """
        Return a lab with the bottles of a student's section.

        Parameters
        ----------
        plain : Bench
            The lab as its file has it.
        student : str
            The student's id.

        Returns
        -------
        Bench
            The same object for all who have the same bottles.

        Raises
        ------
        AuthorError
            If a bottle is of no constant of the lab.
        """
        name = plain.lab.public.name
        section = self._sections.get(student, "")
        chosen = choose_bottles(self._course.bottles, name, section)
        variant = plain.lab.public.variant
        key = (
            name,
            variant.says if variant else "",
            *(f"{bottle.of} {bottle.value.text}" for bottle in chosen),
        )
        if key not in self._filled:
            rules = say_scheme(self._course, plain.lab.public)
            bench = plain
            if chosen:
                filled = fill_bottles(plain.lab, chosen)
                bench = prepare(filled, self._course.conventions)
            self._filled[key] = replace(bench, rules=(*bench.rules, *rules))
        return self._filled[key]
