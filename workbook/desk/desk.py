"""The desk: the cards of the instructor's notebook, and what they share."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from workbook.checker.door import RECORD_FILE, reach_record
from workbook.desk.demonstration import make_demonstration
from workbook.desk.live import LiveCard
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

    from workbook.checker.record import AttemptRecord

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
    marks : Path or None
        The folder that ``workbook mark`` wrote; None before anything was marked.
    record : AttemptRecord or None
        The record of the course's service, if it has one.
    close : callable or None
        Called when the desk is left.
    """

    def __init__(
        self,
        course: Path,
        marks: Path | None,
        record: AttemptRecord | None = None,
        close: Callable[[], None] | None = None,
    ) -> None:
        source = CourseSource(course)
        roster = read_students(source.course.roster, source.course.classes)
        marked = [] if marks is None else read_record(marks)
        self._work = Work(source, roster, marked, course.parent)
        self._marks = course.parent if marks is None else marks
        self._look = lay_look()
        self._record = record
        self._cards: list[LiveCard] = []
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

    def live(self) -> LiveCard:
        """
        Return the card that shows who has done what.

        Returns
        -------
        LiveCard
            To be shown by the notebook; it follows the record where there is one.
        """
        card = LiveCard(self._work, self._look, self._record)
        card.follow()
        self._cards.append(card)
        return card

    def leave(self) -> None:
        """Follow nothing more, and clear away what was made for a demonstration."""
        for card in self._cards:
            card.leave()
        if self._close is not None:
            self._close()


def open_desk(
    course: str | Path = "course.toml",
    marks: str | Path | None = None,
    record: str | None = None,
) -> Desk:
    """
    Open the desk of a course.

    Parameters
    ----------
    course : str or Path
        The course file.
    marks : str or Path or None
        The folder that ``workbook mark`` wrote; None before anything was marked.
    record : str or None
        The address of the database in which ``workbook serve`` keeps its record; None
        for the file beside the course file, if it is there.

    Returns
    -------
    Desk
        Its methods give the cards. Without marks and without a record it is a
        demonstration, in which a simulated class hands in to a copy of the course.

    Raises
    ------
    AuthorError
        If the course or the record of the marks can't be read.
    TaskError
        If the record of the service can't be read.
    CheckerRefusedError
        If its database can't be reached.
    """
    path = Path(course)
    beside = path.resolve().parent / RECORD_FILE
    if record is None and beside.exists():
        record = f"sqlite:///{beside}"
    if marks is not None or record is not None:
        reached = None if record is None else reach_record(record)
        return Desk(path, None if marks is None else Path(marks), reached)
    folder = TemporaryDirectory(prefix="desk-")
    copied, made = make_demonstration(path, Path(folder.name))
    return Desk(copied, made, close=folder.cleanup)
