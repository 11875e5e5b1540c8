"""The desk: the cards of the instructor's notebook, and what they share."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from workbook.desk.demonstration import make_demonstration
from workbook.desk.queue import QueueCard
from workbook.desk.reader import ReaderCard
from workbook.desk.sheet import SheetCard
from workbook.desk.survey import SurveyCard
from workbook.desk.tray import MarkingTray, TrialTray
from workbook.desk.work import Work
from workbook.front.look import lay_look
from workbook.labfile.enrolment import read_students
from workbook.marking.record import read_record
from workbook.solver.source import CourseSource

if TYPE_CHECKING:
    from collections.abc import Callable

_READ_NOTE = (
    "One question across the class, names hidden. What you keep counts, with your name "
    "and the reason, in this and every later marking."
)
_TRY_NOTE = (
    "The same few texts for every marker, before the marking begins. Nothing that is "
    "given here counts."
)
_READ = ("read", "Mark texts", _READ_NOTE)
_TRY = ("calibrate", "Mark the same texts as the others, and compare", _TRY_NOTE)


class Desk:
    """
    The cards of the instructor's notebook.

    Parameters
    ----------
    course : Path
        The course file.
    marks : Path
        The folder that ``workbook mark`` wrote.
    close : callable or None
        Called when the desk is left.
    """

    def __init__(
        self, course: Path, marks: Path, close: Callable[[], None] | None = None
    ) -> None:
        source = CourseSource(course)
        roster = read_students(source.course.roster, source.course.classes)
        self._work = Work(source, roster, read_record(marks), course.parent)
        self._marks = marks
        self._look = lay_look()
        self._close = close

    def queue(self) -> QueueCard:
        """
        Return the list of what needs a person.

        Returns
        -------
        QueueCard
            To be shown by the notebook.
        """
        return QueueCard(self._work, self._look, self._marks)

    def sheet(self) -> SheetCard:
        """
        Return the card that shows any student's sheet.

        Returns
        -------
        SheetCard
            To be shown by the notebook.
        """
        return SheetCard(self._work, self._look)

    def read(self) -> ReaderCard:
        """
        Return the card in which texts are marked.

        Returns
        -------
        ReaderCard
            To be shown by the notebook.
        """
        return ReaderCard(self._work, self._look, MarkingTray(self._work), _READ)

    def calibrate(self) -> ReaderCard:
        """
        Return the card in which markers mark the same texts.

        Returns
        -------
        ReaderCard
            To be shown by the notebook.
        """
        return ReaderCard(self._work, self._look, TrialTray(self._work), _TRY)

    def survey(self) -> SurveyCard:
        """
        Return the card that shows the report on the class.

        Returns
        -------
        SurveyCard
            To be shown by the notebook.
        """
        return SurveyCard(self._work, self._look)

    def leave(self) -> None:
        """Clear away what the desk has made for a demonstration."""
        if self._close is not None:
            self._close()


def open_desk(
    course: str | Path = "course.toml", marks: str | Path | None = None
) -> Desk:
    """
    Open the desk of a course.

    Parameters
    ----------
    course : str or Path
        The course file.
    marks : str or Path or None
        The folder that ``workbook mark`` wrote; None for a demonstration, in which a
        simulated class hands in to a copy of the course.

    Returns
    -------
    Desk
        Its methods give the cards.

    Raises
    ------
    AuthorError
        If the course or the record of the marks can't be read.
    """
    if marks is not None:
        return Desk(Path(course), Path(marks))
    folder = TemporaryDirectory(prefix="desk-")
    copied, made = make_demonstration(Path(course), Path(folder.name))
    return Desk(copied, made, folder.cleanup)
