"""Who has done what in a course that runs: as its service records it, or as marked."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence
    from datetime import datetime

    from workbook.checker.record import AttemptRecord
    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark
    from workbook.wire.sheet import SheetId

#: What is settled once it was answered, with nothing left to do.
_DONE = frozenset(
    {
        Outcome.RIGHT,
        Outcome.FOLLOWS,
        Outcome.COMMITTED,
        Outcome.NOTED,
        Outcome.KEPT,
    }
)


@dataclass(frozen=True, slots=True)
class Tried:
    """How far one student has come with one step."""

    #: How many attempts there were [-].
    attempts: int
    #: What was said of the latest; None where it is not judged.
    outcome: Outcome | None
    #: When the latest came.
    at: datetime | None

    @property
    def is_done(self) -> bool:
        """Whether nothing is left to do."""
        return self.outcome in _DONE


@dataclass(frozen=True, slots=True)
class Seen:
    """What is known of one lab at one moment."""

    #: By student and step.
    tried: Mapping[tuple[str, str], Tried] = field(default_factory=dict)
    #: When each student last handed in.
    handed_in: Mapping[str, datetime] = field(default_factory=dict)
    #: Who has answered anything, those of whom nothing else is told among them.
    begun: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Row:
    """What is known of one student in one lab."""

    student: Student
    #: By step, those that were tried alone.
    tried: Mapping[str, Tried]
    handed_in: datetime | None

    @property
    def done(self) -> int:
        """How many steps are done [-]."""
        return sum(each.is_done for each in self.tried.values())

    @property
    def last(self) -> datetime | None:
        """When the student was last seen to answer or to hand in."""
        times = [each.at for each in self.tried.values()]
        return max(filter(None, (*times, self.handed_in)), default=None)


def see_record(
    record: AttemptRecord, sheet: SheetId, students: Collection[str] | None = None
) -> Seen:
    """
    Return what a service's record says of one lab now.

    Parameters
    ----------
    record : AttemptRecord
        The service may go on meanwhile.
    sheet : SheetId
        Of anybody, for its course, its lab and its revision.
    students : collection of str or None
        Whose steps are told; everybody's unless said.

    Returns
    -------
    Seen
        Of that revision alone.

    Raises
    ------
    CheckerRefusedError
        If the database can't be reached.
    """
    return Seen(
        {
            (each.sheet.student, each.step): Tried(each.attempts, each.outcome, each.at)
            for each in record.progress(sheet.course, sheet.lab, students)
            if each.sheet.revision == sheet.revision
        },
        {
            each.student: max(taken.at for taken in several)
            for each, several in record.hand_ins(sheet.course, sheet.lab).items()
            if each.revision == sheet.revision
        },
        frozenset(
            each.student
            for each in record.begun(sheet.course, sheet.lab)
            if each.revision == sheet.revision
        ),
    )


def see_marks(marks: Iterable[SheetMark], lab: str) -> Seen:
    """
    Return what a marking says of one lab.

    Parameters
    ----------
    marks : iterable of SheetMark
        Of any labs.
    lab : str
        The lab's name.

    Returns
    -------
    Seen
        What was marked, as if it were the latest.
    """
    of_lab = [mark for mark in marks if mark.lab == lab]
    tried = {
        (mark.student, step.step): Tried(step.attempts, step.outcome, step.at)
        for mark in of_lab
        for step in mark.steps
        if step.attempts
    }
    return Seen(
        tried,
        {m.student: m.handed_in for m in of_lab if m.handed_in is not None},
        frozenset(student for student, _ in tried),
    )


def list_rows(seen: Seen, roster: Sequence[Student]) -> list[Row]:
    """
    Return a row for each of some students.

    Parameters
    ----------
    seen : Seen
        What is known of a lab.
    roster : sequence of Student
        Who they are; whoever else was seen is left out.

    Returns
    -------
    list of Row
        In their order, those who have not begun among them.
    """
    tried: dict[str, dict[str, Tried]] = {student.id: {} for student in roster}
    for (student, step), each in seen.tried.items():
        if student in tried:
            tried[student][step] = each
    return [Row(s, tried[s.id], seen.handed_in.get(s.id)) for s in roster]


def count_class(seen: Seen, roster: Sequence[Student]) -> str:
    """
    Return how many of a class have begun and handed in, in words.

    Parameters
    ----------
    seen : Seen
        What is known of a lab.
    roster : sequence of Student
        Everybody who takes the course.

    Returns
    -------
    str
        A sentence.
    """
    begun = sum(student.id in seen.begun for student in roster)
    handed_in = sum(student.id in seen.handed_in for student in roster)
    return f"{len(roster)} students: {begun} have begun, {handed_in} have handed in."
