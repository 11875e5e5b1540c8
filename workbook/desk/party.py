"""The parties of a class that fit on one table, by section where there are any."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from workbook.labfile.roster import Student

#: How many students are shown at once [-]: a table of thousands is read by nobody, and
#: would be sent whole to the page whenever one of them answers.
MOST = 50


class Party(NamedTuple):
    """Some students of a class."""

    #: Which, in words.
    name: str
    students: tuple[Student, ...]


def split_roster(roster: Sequence[Student]) -> list[Party]:
    """
    Return the parties of a class.

    Parameters
    ----------
    roster : sequence of Student
        Everybody who takes the course.

    Returns
    -------
    list of Party
        In the order of the roster; one for all, where all fit on one table.
    """
    if len(roster) <= MOST:
        return [Party("All", tuple(roster))]
    sections: dict[str, list[Student]] = {}
    for student in roster:
        sections.setdefault(student.section, []).append(student)
    return [
        party
        for section, students in sections.items()
        for party in _cut(section, students)
    ]


def _cut(section: str, students: Sequence[Student]) -> Iterator[Party]:
    """Split a section that does not fit on one table."""
    lead = f"Section {section}: " if section else ""
    for start in range(0, len(students), MOST):
        some = tuple(students[start : start + MOST])
        name = f"{lead}{some[0].id} to {some[-1].id} ({len(some)})"
        yield Party(name, some)
