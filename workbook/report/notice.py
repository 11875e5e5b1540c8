"""Students who may need a word, each with the reason for it."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from workbook.report.fact import Standing, stand

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark
    from workbook.report.fact import Fact

#: With less than this share of the points somebody is spoken to [-]. This limit and
#: those below are common practice, no source.
_LOW = 0.5
#: With more than this share of the steps left blank [-].
_BLANK = 1 / 3
#: With more than so many times the middle number of attempts of the class [-].
_MANY = 2


@dataclass(frozen=True, slots=True)
class Notice:
    """One student, and why a word may help."""

    student: Student
    reasons: tuple[str, ...]


def list_notices(roster: Iterable[Student], facts: Sequence[Fact]) -> list[Notice]:
    """
    Return the students who may need a word.

    Parameters
    ----------
    roster : iterable of Student
        The students of the course.
    facts : sequence of Fact
        One for each hand-in of a lab.

    Returns
    -------
    list of Notice
        In the order of the roster.
    """
    marks = {fact.mark.student: fact.mark for fact in facts}
    usual = median(map(_count_attempts, marks.values())) if marks else 0
    notices = []
    for student in roster:
        reasons = tuple(_find_reasons(student.id, marks, usual))
        if reasons:
            notices.append(Notice(student, reasons))
    return notices


def _find_reasons(
    student: str, marks: Mapping[str, SheetMark], usual: float
) -> Iterator[str]:
    mark = marks.get(student)
    if mark is None:
        yield "handed in nothing that could be marked"
        return
    # Points that wait for a person are not lost.
    out_of = sum(step.out_of for step in mark.steps if not step.waits)
    if float(mark.points) < _LOW * float(out_of):
        yield "has less than half of the points"
    blank = sum(stand(step.verdict) is Standing.BLANK for step in mark.steps)
    if blank > _BLANK * len(mark.steps):
        yield f"left {blank} of {len(mark.steps)} steps blank"
    attempts = _count_attempts(mark)
    if usual and attempts > _MANY * usual:
        yield f"made {attempts} attempts, more than twice as many as is usual here"


def _count_attempts(mark: SheetMark) -> int:
    return sum(step.attempts for step in mark.steps)
