"""Students who may need a word, each with the reason for it."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING, NamedTuple

from workbook.report.fact import ABSENT, STANDINGS, Standing

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from workbook.labfile.roster import Student
    from workbook.report.cohort import Cohort
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


def list_notices(roster: Iterable[Student], cohort: Cohort) -> list[Notice]:
    """
    Return the students who may need a word.

    Parameters
    ----------
    roster : iterable of Student
        The students of the course.
    cohort : Cohort
        The hand-ins to a lab.

    Returns
    -------
    list of Notice
        In the order of the roster.
    """
    sums = list(_sum_up(cohort))
    usual = median(each.attempts for each in sums) if sums else 0
    found = {each.fact.student: each for each in sums}
    notices = []
    for student in roster:
        reasons = tuple(_find_reasons(found.get(student.id), usual))
        if reasons:
            notices.append(Notice(student, reasons))
    return notices


class _Sum(NamedTuple):
    """One hand-in, and the numbers of its steps, blank steps and attempts."""

    fact: Fact
    steps: int
    blank: int
    attempts: int


def _sum_up(cohort: Cohort) -> Iterator[_Sum]:
    standing = cohort.table["standing"]
    is_blank = standing == STANDINGS.index(Standing.BLANK)
    numbers = (
        (standing != ABSENT).sum(axis=1).tolist(),
        is_blank.sum(axis=1).tolist(),
        cohort.table["attempts"].sum(axis=1).tolist(),
    )
    for fact, *each in zip(cohort.facts, *numbers, strict=True):
        yield _Sum(fact, *each)


def _find_reasons(found: _Sum | None, usual: float) -> Iterator[str]:
    if found is None:
        yield "handed in nothing that could be marked"
        return
    # Points that wait for a person are not lost.
    if found.fact.points < _LOW * found.fact.ripe:
        yield "has less than half of the points"
    if found.blank > _BLANK * found.steps:
        yield f"left {found.blank} of {found.steps} steps blank"
    if usual and found.attempts > _MANY * usual:
        yield (
            f"made {found.attempts} attempts, more than twice as many as is usual here"
        )
