"""A card: the question, a place to answer, a Check button, a sentence."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from ipywidgets import HTML, Button, VBox

from workbook.client.gate import is_held
from workbook.front.bell import Bell
from workbook.front.display import bundle, let_go
from workbook.front.kind import make_pad
from workbook.front.pad import Closing, Doing, Fixing, Pointing
from workbook.front.saying import CHECKING, show_note, show_verdict
from workbook.front.typed import take_typed
from workbook.front.widget import make
from workbook.front.worked import WorkedPanel
from workbook.wire.verdict import Outcome

if TYPE_CHECKING:
    from workbook.client.session import Session
    from workbook.front.look import Look
    from workbook.wire.answer import Answer
    from workbook.wire.sheet import Step
    from workbook.wire.verdict import Verdict


class Card:
    """
    One step as the student meets it.

    Parameters
    ----------
    step : Step
        One of the session's steps.
    session : Session
        Where answers go, and verdicts come from.
    look : Look
        The page's style and manners.
    """

    def __init__(self, step: Step, session: Session, look: Look) -> None:
        self._look = look
        look.on_msg(self._hear)
        self.box = make(VBox, css="wb-card")
        self.renew(step, session)

    def renew(self, step: Step, session: Session) -> None:
        """
        Show a step in the place of what the card shows now.

        Parameters
        ----------
        step : Step
            One of the session's steps.
        session : Session
            Where answers go, and verdicts come from.
        """
        self._step = step
        self._session = session
        #: Why what stands here is not kept; empty when it is.
        self._trouble = ""
        bell = Bell()
        self.pad = make_pad(step, bell)
        deed = self.pad.deed if isinstance(self.pad, Doing) else "Check"
        self.button = make(Button, description=deed, css="wb-check")
        self.button.on_click(lambda _: self.check())
        self.says = make(HTML, css="wb-says")
        heading = make(HTML, show_question(step, session.steps))
        buttons = () if is_held(step) else (self.button,)
        self.worked = WorkedPanel(step.id, session)
        worked = () if session.is_issued else (self.worked.box,)
        old = self.box.children[1:]
        self.box.children = (
            *(self._look, heading, *self.pad.body),
            *(*buttons, self.says, *worked),
        )
        let_go(old)
        self._restore()
        bell.change, bell.enter = self._keep_draft, self._check_by_key

    def check(self) -> Verdict:
        """
        Have the answer judged as it stands, and show what is said of it.

        Returns
        -------
        Verdict
            What is shown.
        """
        self.says.value = CHECKING
        self._trouble = ""
        verdict = self._session.submit(self._step.id, self.pad.read())
        self._fix()
        self._show(verdict, is_current=True)
        return verdict

    def refresh(self) -> None:
        """Show the latest verdict, and whether the answer is still the judged one."""
        self._fix()
        found = self._session.last(self._step.id)
        if found is None:
            self._say("")
        else:
            answer, verdict = found
            self._close(answer, verdict)
            is_current = answer == self.pad.read() or self._is_noted
            self._show(verdict, is_current=is_current)

    def _close(self, answer: Answer, verdict: Verdict) -> None:
        """Let a prediction that was made be changed no more."""
        if verdict.outcome is Outcome.COMMITTED and isinstance(self.pad, Closing):
            self.pad.close(answer)
            self.button.disabled = True

    @property
    def _is_noted(self) -> bool:
        """Whether a reading stands here that nothing but a reason changes."""
        return self._session.history.noted(self._step.id) is not None

    def _fix(self) -> None:
        """Show a reading of the student's own that is noted, whoever noted it."""
        if isinstance(self.pad, Fixing):
            noted = self._session.history.noted(self._step.id)
            self.pad.fix(noted)
            self.button.disabled = noted is not None

    def _restore(self) -> None:
        """Put back what stood in the card when it was last seen."""
        content = self._session.history.own.content(self._step.id)
        if content is not None:
            self.pad.write(content)
        self.refresh()

    def _keep_draft(self) -> None:
        self._trouble = self._session.keep_draft(self._step.id, self.pad.read())
        self.refresh()

    def _check_by_key(self) -> None:
        self.check()

    def _hear(self, _: object, told: dict[str, object], __: object) -> None:
        """Take in what is typed, which the boxes themselves tell later."""
        typed = told.get("typed")
        if told.get("step") != self._step.id or not isinstance(typed, list):
            return
        is_missed = told.get("isMissed") is True
        if take_typed(self.pad.body, typed, is_shown=not is_missed):
            heard = {"step": self._step.id, "heard": told.get("number")}
            self._look.send(heard)
            self._keep_draft()

    def _show(self, verdict: Verdict, *, is_current: bool) -> None:
        self.worked.offer()
        self._say(show_verdict(verdict, is_current=is_current))
        if isinstance(self.pad, Pointing):
            self.pad.point(verdict.at if is_current else None)

    def _say(self, shown: str) -> None:
        """Show what is said of the answer, and under it what is to be told besides."""
        session = self._session
        late = session.tell_late(self._step.id)
        notes = (late, self._trouble, session.history.shared)
        whole = shown + "".join(map(show_note, notes))
        if self.says.value != whole:
            self.says.value = whole

    def _repr_mimebundle_(self, **_: object) -> dict[str, object]:
        return bundle(self.box, f"card: {self._step.id}")


def show_question(step: Step, steps: tuple[Step, ...]) -> str:
    """
    Return HTML of the head of a card.

    Parameters
    ----------
    step : Step
        What is asked.
    steps : tuple of Step
        All steps of the part, in order.

    Returns
    -------
    str
        Its place among them, the question, and how close an answer must come.
    """
    place = f"Step {steps.index(step) + 1} of {len(steps)}"
    return (
        f'<p class="wb-place">{place}</p>'
        f'<h3 class="wb-asks" id="wb-{escape(step.id)}">{escape(step.asks)}</h3>'
        f"{show_note(step.allowance)}"
    )
