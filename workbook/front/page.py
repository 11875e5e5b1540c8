"""A page: the cards of one notebook, and what they share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ipywidgets import HTML, VBox

from workbook.client.gate import Gate
from workbook.client.retry import Retry
from workbook.errors import TaskError, nearest
from workbook.front.card import Card
from workbook.front.display import bundle, speak_plainly
from workbook.front.gate import GatePanel
from workbook.front.head import show_head
from workbook.front.look import lay_look
from workbook.front.practice import PracticePanel
from workbook.front.printout import ReportCard
from workbook.front.progress import Progress
from workbook.front.submission import SubmissionCard
from workbook.front.widget import begin_page, make
from workbook.wire.sheet import ReadingStep

if TYPE_CHECKING:
    from collections.abc import Callable

    from workbook.client.session import Session


class Page:
    """
    Everything that one notebook shows.

    Parameters
    ----------
    session : Session
        The part of a sheet that is shown.
    anew : callable or None
        Gives a session with fresh values; None where there are none to be had.
    is_patient : bool
        True where what waits for a verdict is sent again by itself.
    """

    def __init__(
        self,
        session: Session,
        anew: Callable[[], Session] | None = None,
        *,
        is_patient: bool = False,
    ) -> None:
        self._anew = anew
        self._is_patient = is_patient
        begin_page()
        self._look = lay_look()
        self._cards: dict[str, Card] = {}
        #: How many steps are done; it can be shown anywhere.
        self.progress = Progress()
        self.head = make(HTML, css="wb-head")
        self._take(session)
        self._count()
        self._show_head()
        self.gate = GatePanel(Gate(session), session.part, self._show_readings)
        self.practice = PracticePanel(self.renew)
        fresh = [] if session.is_issued or anew is None else [self.practice.box]
        parts = [self._look, self.head, *fresh, self.gate.box, self.progress.line]
        self.box = make(VBox, parts, css="wb-card")

    def card(self, step_id: str) -> Card:
        """
        Return the card of a step, with everything that was kept of it.

        Parameters
        ----------
        step_id : str
            The step's id on the sheet.

        Returns
        -------
        Card
            The same one each time.

        Raises
        ------
        TaskError
            If this part has no such step.
        """
        steps = {step.id: step for step in self._session.steps}
        if step_id not in steps:
            msg = (
                f"This {self._session.part.value} has no step {step_id!r}."
                f"{nearest(step_id, steps)}"
            )
            raise speak_plainly(TaskError(msg))
        if step_id not in self._cards:
            card = Card(steps[step_id], self._session, self._look)
            self._cards[step_id] = card
        return self._cards[step_id]

    def renew(self) -> None:
        """
        Put a sheet with fresh values in the place of this one, on every card.

        Raises
        ------
        TaskError
            If this page has no fresh values, or no place for them can be made.
        CheckerError
            If the checker makes no sheet.
        """
        if self._anew is None:
            msg = "This sheet was issued to you; its values do not change."
            raise TaskError(msg)
        session = self._anew()
        self._retry.stop()
        self._take(session)
        for step_id, card in self._cards.items():
            card.renew(session.sheet.step(step_id), session)
        self._count()
        self._show_head()

    def hand_in(self) -> SubmissionCard:
        """
        Return the card that writes the hand-in.

        Returns
        -------
        SubmissionCard
            With the progress of this part.
        """
        return SubmissionCard(self._session, self.progress, self._look)

    def report(self) -> ReportCard:
        """
        Return the card that writes the lab report.

        Returns
        -------
        ReportCard
            It reports on both parts of the sheet.
        """
        return ReportCard(self._session, self._look)

    def _take(self, session: Session) -> None:
        """Show a session from now on, and have sent what waits in it."""
        self._session = session
        self._retry = Retry(session.outbox)
        session.on_verdict = self._update
        if self._is_patient:
            session.outbox.on_wait = self._retry.start
        if not (self._is_patient and self._retry.start(is_at_once=True)):
            session.send_again()

    def _show_head(self) -> None:
        session = self._session
        shown = show_head(
            session.sheet, session.history.notices, is_issued=session.is_issued
        )
        if self.head.value != shown:
            self.head.value = shown

    def _update(self, step_id: str) -> None:
        """Let a new verdict be seen, wherever it came from."""
        if step_id in self._cards:
            self._cards[step_id].refresh()
        self._count()
        self._show_head()

    def _show_readings(self) -> None:
        """Let the cards of readings show what their instruments show."""
        for step in self._session.steps:
            if isinstance(step, ReadingStep) and step.id in self._cards:
                self._cards[step.id].renew(step, self._session)

    def _count(self) -> None:
        self.progress.show(self._session.right, len(self._session.steps))

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.box, f"page: {self._session.part.value}")
