"""What lies on the desk: a course, its marks, and what persons have decided."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from workbook.marking.override import (
    OVERRIDES_FILE,
    Override,
    add_override,
    list_standing,
    read_overrides,
)
from workbook.marking.record import RECORD_FILE, read_record
from workbook.report.handback import gather_marked
from workbook.wire.answer import Typed
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from decimal import Decimal
    from pathlib import Path

    from workbook.labfile.roster import Student
    from workbook.marking.result import SheetMark, StepMark
    from workbook.report.page import Marked
    from workbook.solver.source import CourseSource


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A step that asks for a text."""

    lab: str
    step: str
    asks: str
    #: What earns its marks, a line each.
    look_for: tuple[str, ...]
    out_of: Decimal


@dataclass(frozen=True, slots=True)
class Paper:
    """One student's text in answer to a question."""

    student: str
    text: str


class Work:
    """
    What lies on the desk.

    Parameters
    ----------
    source : CourseSource
        The course with its key.
    roster : sequence of Student
        The students of the course.
    marks : sequence of SheetMark
        What a marking recorded.
    folder : Path
        The folder of the course file, in which decisions are kept.
    """

    def __init__(
        self,
        source: CourseSource,
        roster: Sequence[Student],
        marks: Sequence[SheetMark],
        folder: Path,
    ) -> None:
        self.source = source
        self.roster = roster
        self.marks = marks
        self.folder = folder
        #: Called when a later marking has been read: what shows marks shows them anew.
        self.on_renewal: list[Callable[[], None]] = []

    def renew(self, folder: Path) -> bool:
        """
        Read the marks again, if a later marking has recorded others.

        Parameters
        ----------
        folder : Path
            The folder that ``workbook mark`` wrote.

        Returns
        -------
        bool
            True if they are others.

        Raises
        ------
        AuthorError
            If the record can't be read.
        """
        if not (folder / RECORD_FILE).exists():
            return False
        marks = read_record(folder)
        if marks == tuple(self.marks):
            return False
        self.marks = marks
        for show in self.on_renewal:
            show()
        return True

    def questions(self) -> list[Question]:
        """
        Return the steps that ask for a text and were answered.

        Returns
        -------
        list of Question
            In the order of labs and steps.
        """
        found: dict[tuple[str, str], Question] = {}
        for mark in self.marks:
            lab = self.source.labs[mark.lab]
            asks = {ask.id: ask for ask in lab.public.asks if ask.kind == "text"}
            for step in mark.steps:
                if step.step in asks and step.outcome is Outcome.KEPT:
                    found.setdefault(
                        (mark.lab, step.step),
                        Question(
                            lab=mark.lab,
                            step=step.step,
                            asks=asks[step.step].asks,
                            look_for=lab.key.look_for[step.step],
                            out_of=step.out_of,
                        ),
                    )
        return list(found.values())

    def papers(self, question: Question) -> list[Paper]:
        """
        Return every text in answer to a question.

        Parameters
        ----------
        question : Question
            The step.

        Returns
        -------
        list of Paper
            In an order that tells nothing of names, the same at every call.
        """
        papers = [
            Paper(mark.student, step.answer.text)
            for mark, step in self._answers(question)
            if isinstance(step.answer, Typed)
        ]
        return sorted(papers, key=lambda paper: _mix(question, paper))

    def waiting(self, question: Question) -> list[Paper]:
        """
        Return the texts that nobody has marked yet.

        Parameters
        ----------
        question : Question
            The step.

        Returns
        -------
        list of Paper
            In the order of `papers`.
        """
        decided = list_standing(read_overrides(self._decisions))
        place = question.lab, question.step
        return [p for p in self.papers(question) if (p.student, *place) not in decided]

    def decide(
        self, question: Question, paper: Paper, points: Decimal, said: tuple[str, str]
    ) -> None:
        """
        Keep what a person gives for a text.

        Parameters
        ----------
        question : Question
            The step.
        paper : Paper
            The text.
        points : Decimal
            What counts [point].
        said : (str, str)
            The reason, which the student may read, and the name of the marker.

        Raises
        ------
        TaskError
            If reason or name is missing, or the disk refuses.
        """
        reason, marker = said
        override = Override(
            at=datetime.now(UTC),
            student=paper.student,
            lab=question.lab,
            step=question.step,
            points=points,
            reason=reason,
            marker=marker,
        )
        add_override(self._decisions, override)

    def open(self, lab: str, student: str) -> Marked:
        """
        Return one student's hand-in with all that its page tells.

        Parameters
        ----------
        lab, student : str
            Which one.

        Returns
        -------
        Marked
            With the student's values.

        Raises
        ------
        KeyError
            If the student handed nothing in to this lab.
        """
        found = [m for m in self.marks if (m.lab, m.student) == (lab, student)]
        if not found:
            raise KeyError(student)
        return next(gather_marked(self.source, self.roster, found))

    @property
    def _decisions(self) -> Path:
        return self.folder / OVERRIDES_FILE

    def _answers(self, question: Question) -> Iterator[tuple[SheetMark, StepMark]]:
        for mark in self.marks:
            for step in mark.steps:
                is_asked = (mark.lab, step.step) == (question.lab, question.step)
                if is_asked and step.outcome is Outcome.KEPT:
                    yield mark, step


def _mix(question: Question, paper: Paper) -> bytes:
    seen = f"{question.lab}/{question.step}/{paper.student}"
    return hashlib.sha256(seen.encode()).digest()
